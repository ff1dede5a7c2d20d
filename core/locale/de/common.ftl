# Was jede Seite hat.
aircraft-unnamed = Dieses Modell
aircraft-unnamed-inside = diesem Modell
common-back = Zurück
common-gone = Im geltenden Plan gibt es das nicht mehr.
common-not-found = Nicht gefunden
common-over-all = Gilt für den ganzen Abschnitt { $stage }.
common-range = { $low } bis { $high }
common-spotter-has-it = Der Helfer hat das Telefon.
common-handed-over = Übergeben
