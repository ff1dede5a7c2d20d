# Das Einstellungsbuch.
