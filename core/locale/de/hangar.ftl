# Die Modelle eines Journals, und was sie teilen.
hangar-title = Halle
hangar-intro = Jedes Modell hat seine eigenen Stufen und Nachweise. Akkus, der Code und die Notfallseite sind für alle gleich.
hangar-aircraft =
    { $count ->
        [one] 1 Modell
       *[other] { $count } Modelle
    }
hangar-in-the-way =
    { $count ->
        [0] Nichts im Weg
        [one] 1 im Weg
       *[other] { $count } im Weg
    }
hangar-line = { $sentence } Zuerst: { $next }
hangar-begin = Weiteres Modell
hangar-shares = Teilt Akkus, Code und dieses Telefon; weist alles selbst nach
hangar-new-intro = Am Anfang ist nichts nachgewiesen; es gilt derselbe Plan wie hier. Was danach eingetragen wird, gehört zu dem Modell, das gerade zu sehen ist.
hangar-begin-it = Beginnen
hangar-packs = Akkus der anderen Modelle
hangar-pack-elsewhere = Zu übernehmen
hangar-packs-to-take-over = { $count } zu übernehmen
hangar-packs-note = Ein Akku, den zwei Modelle fliegen, ist ein Akku: Ladungen, Flüge und Messungen zählen für beide. Nur übernehmen, wenn Zellen, Stecker und Masse passen.
