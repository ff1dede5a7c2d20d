# Die Flugkarte.
card-tests = Dieser Flug prüft { $count } Änderungen auf einmal
card-call-off = Abbruch bei
card-limits = Grenzwerte bei der Landung
card-caution-above = { $expected }Vorsicht über { $limit }. { $basis }
common-stop = Halt
card-above = { $place } über { $limit }
card-to = {" "}an { $name }
card-hand-over = Übergeben{ $to }
card-expected = Erwartet { $middle }, { $low } bis { $high }.{" "}
card-settled = { $pack }, { $minutes } min{ $air }
card-head-speed = Rotordrehzahl
card-not-entered = nicht eingegeben
card-carried = Mitgeführt: { $finding }
card-due = Fällig vor diesem Flug
card-cautions-where = Wie zu prüfen ist und warum, steht auf der Seite jeder Prüfung.
check-seen-right = Gesehen, in Ordnung
card-seen-right-spoken = { $check }: gesehen, in Ordnung
common-last = zuletzt
card-pack-and-air = Akku und Luft
common-to-enter = Einzugeben
packs-none = Noch kein Akku beschrieben
card-pack = Akku
card-not-charged = Seit dem Flug ist keine Ladung eingetragen
card-planned = Geplante Zeit mit Motor
card-air = Lufttemperatur
card-spotter-name = Name des Helfers
card-spotter-name-if = Name des Helfers, wenn nicht allein geflogen wird
card-spotter = Helfer
card-reserve = mit { $percent } % Rest, bei { $current } A, { $from }
card-reserve-over = { "." } Geplant sind { $minutes } min: das geht an die Reserve
card-reserve-allows = Die Reserve des Akkus erlaubt
card-too-short = Ein kürzerer Lauf als die { $wanted }, die diese Prüfung verlangt, ist kein Nachweis für sie
card-pack-too-small = Die Reserve lässt weniger als die { $wanted }, die diese Prüfung verlangt: ein größerer Akku, oder ein eigener Plan mit passenden Minuten
card-air-spoken = Luft { $air }
card-air-last = Luft, wie zuletzt
common-step-spoken = { $label }: { $word } um { $by } { $unit }
common-less = weniger
common-more = mehr
common-starts-from = beginnt bei { $start }
card-no-prediction = Noch nichts, woraus sich die Ladung vorhersagen ließe: Die Angaben zu Rotor, Masse und Akku fehlen.
card-charge = Erwartete entnommene Ladung
card-charge-range = { $low } bis { $high } mAh, aus { $from }
card-landing-after = Landung nach { $time }, { $pack }
card-landing-add = Eine Messung, die entnommene Ladung oder eine Notiz nachtragen
card-last-flight = Letzter Flug
card-due-first =
    { $count ->
        [one] { $count } Punkt ist
       *[other] { $count } Punkte sind
    } zuerst fällig
card-choose-pack = Zuerst den Akku wählen
card-enter-air = Zuerst die Lufttemperatur eingeben
card-enter-spotter = Zuerst den Namen des Helfers eingeben
card-bench = Auf der Werkbank
card-bench-how = Alle Blätter ab, festgebunden, niemand in der Ebene dessen, was dreht. Diese Karte ist für keinen Flug.
