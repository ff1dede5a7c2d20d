# Das Modell: Angaben, Teile, Einstellungen, Änderungen.
