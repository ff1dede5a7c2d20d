# Das Einstellungsbuch.
ledger-not-flown = Noch nicht geflogen
ledger-to-fly = Zu fliegen
ledger-next-tests = Der nächste Flug prüft { $count } Änderungen auf einmal
ledger-nothing = Bisher wurde nichts eingestellt.
ledger-changes = Änderungen, neueste zuerst
ledger-title = Einstellungen bisher
ledger-first-value = erster Wert
ledger-not-alone = Nicht allein
ledger-together = Zuerst geflogen zusammen mit: { $with }
ledger-from-to = { $before } auf { $after }
ledger-flown-on =
    Damit geflogen: { $count ->
        [one] { $count } Motorlauf
       *[other] { $count } Motorläufe
    }
ledger-head-speed = Rotordrehzahl { $before } auf { $after } U/min
ledger-nobody-can-say = { $what }. Fliegt es anders, kann niemand sagen, was davon es war.
ledger-tested = Dieser Flug prüfte { $count } Änderungen auf einmal
ledger-tested-one = Geprüft
