# Das Modell: Angaben, Teile, Einstellungen, Änderungen.
aircraft-built-by = gebaut von { $builder }
aircraft-built-and-flown-by = gebaut von { $builder }, geflogen von { $pilot }
aircraft-not-named = noch ohne Namen
aircraft-kind = Was für ein Modell
aircraft-figures = Angaben
aircraft-settings = Einstellungen
aircraft-changes =
    { $count ->
        [one] { $count } Änderung
       *[other] { $count } Änderungen
    }, mit Grund und Flügen
aircraft-plan = Plan
aircraft-edition = Ausgabe { $edition }
aircraft-record-change = Änderung eintragen
aircraft-known = Bekannt
aircraft-must-lie-above = { $detail }. Es muss größer sein als: { $below }
aircraft-if-it-has = Falls vorhanden
aircraft-add = { $kind } hinzufügen
aircraft-one-more-like = Noch einmal wie { $name }
aircraft-went-in = Was eingegangen ist
aircraft-on = an { $supply }
aircraft-name = Name des Modells
aircraft-builder-name = Name des Erbauers
aircraft-pilot-name = Name des Piloten, wenn jemand anderes fliegt
aircraft-pilot-name-note = Der Name des Piloten steht unter jeder Freigabe. Die Namen bleiben auf diesem Telefon.
aircraft-record-names = Namen eintragen
aircraft-names = Namen
aircraft-answer-decides = Die Antwort entscheidet, welche Prüfungen es gibt.
aircraft-basis = Woher es kommt
aircraft-why-changes = Warum es sich ändert
aircraft-not-entered-yet = noch nicht eingegeben
aircraft-above = Muss größer sein als
aircraft-rests = Diese Prüfungen beruhen darauf: { $checks }.
aircraft-record = Eintragen
aircraft-derived = Andere eingetragene Werte ergeben diesen. Zähl oder miss trotzdem nach, und berichtige ihn, wo er nicht stimmt
aircraft-record-as = Eintragen: { $basis }
aircraft-thing-name = Name
aircraft-last-day = Letzter Tag, falls es endet
aircraft-last-day-how = Als 2027-06-30 oder 30.6.2027
aircraft-paper-note = Nummer und Aufbewahrungsort
aircraft-paper-told = Der Stand meldet es 30 Tage vor dem Ende. Nach dem letzten Tag gilt die Prüfung nicht mehr, die auf den Papieren beruht.
aircraft-stir-servos = Alle Servos zusammen unbelastet bewegen und den höchsten Strom ablesen, den diese Versorgung liefert.
aircraft-was-on-it = War schon da
aircraft-new-on-it = Ist neu
aircraft-only-written-wrong = Nur falsch notiert
aircraft-changed-on-it = Am Modell geändert
aircraft-never-on-it = War nie da
aircraft-taken-off = Abgebaut
aircraft-will-not-come = Kommt nicht mehr
aircraft-fitted-now = Ist jetzt eingebaut
aircraft-keeps = Was bewiesen ist, bleibt
aircraft-sends-back =
    { $count ->
        [one] { $count } Prüfung ist zu wiederholen
       *[other] { $count } Prüfungen sind zu wiederholen
    }
aircraft-gone = Nicht mehr da
aircraft-if-gone = Falls es weg ist: Befund { $number }, { $title }
aircraft-instead = Was an seine Stelle kam, oder warum nichts muss
aircraft-new = Neu: { $kind }
aircraft-first = Zuerst: { $kind }
aircraft-fly-first = { $others }. Zuerst das fliegen: eine Änderung je Flug.
aircraft-waits = Etwas anderes wartet darauf, geflogen zu werden
aircraft-now = Jetzt
aircraft-new-value = Neuer Wert
aircraft-why = Warum
aircraft-goes-stale = Nachweise, die auf dem Betroffenen beruhen, verfallen und werden neu verlangt.
aircraft-record-the-change = Die Änderung eintragen
aircraft-change = Eine Änderung
aircraft-find = Größe, Teil oder Einstellung finden
aircraft-found-nothing = Nichts hier hat diese Wörter. Weniger Buchstaben finden mehr.
