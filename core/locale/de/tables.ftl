# Tabellen für eine Tabellenkalkulation oder ein Programm.
tables-heading = Tabellen
tables-what = Für eine Tabellenkalkulation oder ein Programm: Werte, wie sie festgehalten sind, jede Spalte mit ihrer Einheit im Namen.
tables-form = Geschrieben als
tables-csv = CSV, für Tabellen
tables-json = JSON, für Programme
tables-flights = Flüge und Läufe
tables-landings = Ablesungen nach der Landung
tables-packs = Flugakkus
tables-parts = Teile und ihr Leben
tables-settings = Geänderte Einstellungen
tables-findings = Befunde
tables-save-spoken = Eine Tabelle sichern: { $table }
