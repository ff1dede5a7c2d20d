# Prüfungen, Abschnitte und Freigaben.
