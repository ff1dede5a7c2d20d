# Das Journal.
journal-intro = Nichts wird gelöscht. Ein Versehen wird durch einen späteren Eintrag zurückgezogen, und beide bleiben lesbar.
journal-not-full = Nicht voll: { $why }
journal-entries =
    { $count ->
        [one] { $count } Eintrag
       *[other] { $count } Einträge
    }
journal-entries-of = { $own } von { $count } Einträgen
journal-withdrawn = Zurückgezogen
journal-entry-of = Eintrag { $number } von { $count }
journal-add-to-landing = Zu dieser Landung nachtragen
journal-why-withdrawn = Warum er zurückgezogen wird
journal-withdraw = Diesen Eintrag zurückziehen
journal-entry = Eintrag
journal-seen-by = Gesehen von { $name }.
journal-put-back = Wieder eintragen
journal-take-back = Widerrufen
journal-withdrawn-heading = Eingetragen und zurückgezogen
journal-withdrawn-detail = Eingetragen { $recorded }, zurückgezogen { $withdrawn }: { $why }
journal-search = Suchen: eine Prüfung, ein Teil, ein Wort
journal-search-hint = Jedes Wort muss im Eintrag stehen
journal-found =
    { $count ->
        [0] In keinem Eintrag gefunden
        [one] In { $count } Eintrag gefunden
       *[other] In { $count } Einträgen gefunden
    }
journal-searched = { $searched } von { $of } durchsucht
journal-more =
    { $rest ->
        [one] Weitere zeigen: noch { $rest }
       *[other] Weitere zeigen: noch { $rest }
    }
journal-months = Alle Einträge, nach Monat und Tag
journal-days =
    { $count ->
        [one] { $count } Tag
       *[other] { $count } Tage
    }
