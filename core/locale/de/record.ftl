# Wörter für Eingetragenes: Arten, Felder, Stufen, Merker.
