# Das Journal.
journal-intro = Nichts wird gelöscht. Ein Versehen wird durch einen späteren Eintrag zurückgezogen, und beide bleiben lesbar.
journal-not-full = Nicht voll: { $why }
journal-rest = und { $rest } davor, alle davon in der Akte
journal-entries =
    { $count ->
        [one] { $count } Eintrag
       *[other] { $count } Einträge
    }
journal-withdrawn = Zurückgezogen
journal-entry-of = Eintrag { $number } von { $count }
journal-add-to-landing = Zu dieser Landung nachtragen
journal-why-withdrawn = Warum er zurückgezogen wird
journal-withdraw = Diesen Eintrag zurückziehen
journal-entry = Eintrag
journal-seen-by = Gesehen von { $name }.
journal-put-back = Wieder eintragen
journal-take-back = Zurücknehmen
journal-withdrawn-heading = Eingetragen und zurückgezogen
journal-withdrawn-detail = Eingetragen { $recorded }, zurückgezogen { $withdrawn }: { $why }
