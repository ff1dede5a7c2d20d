# Fehler von Journal, Rechnung und Aufzeichnungen.
