# Was jede Seite hat.
aircraft-unnamed = Dieses Modell
aircraft-unnamed-inside = diesem Modell
common-back = Zurück
common-gone = Im geltenden Plan gibt es das nicht mehr.
common-not-found = Nicht gefunden
common-over-all = Gilt für den ganzen Abschnitt { $stage }.
common-range = { $low } bis { $high }
common-mend-first = Zuerst die Zahl berichtigen
common-spotter-has-it = Der Helfer hat das Telefon.
common-handed-over = Übergeben

common-month =
    { $month ->
        [1] Januar
        [2] Februar
        [3] März
        [4] April
        [5] Mai
        [6] Juni
        [7] Juli
        [8] August
        [9] September
        [10] Oktober
        [11] November
       *[12] Dezember
    }
common-month-short =
    { $month ->
        [1] Jan
        [2] Feb
        [3] Mär
        [4] Apr
        [5] Mai
        [6] Jun
        [7] Jul
        [8] Aug
        [9] Sep
        [10] Okt
        [11] Nov
       *[12] Dez
    }
