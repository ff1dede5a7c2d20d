# Prüfungen, Abschnitte und Freigaben.
check-goes-by = Woran es gemessen wird
check-why = Warum
check-judged = Wie beurteilt wird: { $judged }
check-basis = Grundlage: { $basis }
check-recorded-with = { $detail }. Eingetragen { $when }
check-recorded = Eingetragen { $when }
check-alone = { "." } Niemand kam zum Ansehen: { $why }
common-raise-finding = Befund melden
check-step-spoken = { $check }: { $word } { $by } { $unit }
check-reading = Messwert
check-less-by = Weniger um
check-more-by = Mehr um
check-last-time = Zuletzt { $last }
check-starts-from = Beginnt bei { $start }, das ist noch kein Messwert: noch einmal antippen oder den abgelesenen Wert eingeben
check-between = Zwischen { $low } und { $high }
check-below = Unter
common-caution = Vorsicht
check-above = Über
check-limit-waits = Der Grenzwert wartet darauf
check-record-value = { $value } eintragen
check-record = Eintragen
check-enter-first = Zuerst den Messwert eingeben
check-record-result = Dieses Ergebnis eintragen
check-keep-result = Dieses Ergebnis festhalten
check-another-day = Ein anderer Tag
check-go-there = Dorthin
check-enter-it = Eingeben
check-cannot-compute = Noch nicht zu berechnen
check-charge-range = { $used } mAh entnommen, { $low } bis { $high } mAh vorhergesagt aus { $from }
check-why-differs = Warum es abweicht
check-record-explanation = Erklärung eintragen
check-complete-landing = Landung vervollständigen
check-in-the-way = Im Weg
check-things-in-the-way =
    { $count ->
        [one] { $count } Punkt ist
       *[other] { $count } Punkte sind
    } im Weg
check-second-person = Zweite Person
check-witness = Name der zweiten Person
check-why-alone = Oder warum niemand kam
check-witness-point = Ein Punkt mit Zeugen: Die Arbeit geht ohne zweite Person weiter, mit Vorsicht.
common-remark = Bemerkung
common-before = Vorher
check-times = { $count }-mal
check-seen-by = , gesehen von { $witness }
check-rests-on = Beruht auf: { $subjects }.{" "}
check-holds-day = den Tag
common-motor-runs =
    { $count ->
        [one] { $count } Motorlauf
       *[other] { $count } Motorläufe
    }
check-holds-hours = { $hours } h mit laufendem Motor
check-holds-days =
    { $days ->
        [one] { $days } Tag
       *[other] { $days } Tage
    }
check-ends-with = {" "}Endet mit: { $events }.
check-holds-unchanged = Gilt, bis sich etwas ändert, worauf es beruht.{ $until }
check-holds-for-one = Gilt für { $limit }.{ $until }
check-holds-for = Gilt für { $limits }, je nachdem, was zuerst endet.{ $until }
stage-part = { $name }, Teil { $part } von 10
stage-checks = Prüfungen
stage-fly-hint = { $rpm } U/min, { $minutes } min
stage-gate = Freigabe
stage-released-by = Freigegeben von { $by }, { $day }
stage-lapsed-over = Erloschen durch: { $why }
stage-way-back = Der Weg zurück
stage-way-count =
    { $count ->
        [one] { $count } Prüfung
       *[other] { $count } Prüfungen
    }
stage-release = { $stage } freigeben
stage-read-cautions =
    { $count ->
        [one] { $count } Vorsicht lesen, dann freigeben
       *[other] { $count }-mal Vorsicht lesen, dann freigeben
    }
cautions-title = Vor der Freigabe
cautions-stands-on = Sie stützt sich auf diese Vorsicht
cautions-none = Keine Vorsicht steht mehr darunter.
cautions-found = { $found }{ $alone }. Maßstab: { $judged }
stage-next-check = Nächste Prüfung
check-read-on = Das wird bei einem Lauf abgelesen: { $run }. Dessen Karte ausfüllen, landen, dann hierher zurück.
check-to-its-run = Zu diesem Lauf
lists-complete = Alle beschrieben
lists-to-declare = Zu bestätigen
lists-idle = Führt nichts
lists-idle-asked = 0 A: Stimmt das? Eintragen, was fließt, oder bestätigen, dass es so ist
lists-declare = Das ist alles: { $what }
lists-declare-idle =
    Das ist alles: { $what }, { $idle ->
        [one] { $idle } davon führt nichts
       *[other] { $idle } davon führen nichts
    }
lists-counted = { $list } ({ $count })
lists-judged = { "." } Erfasst: { $lists }
check-does-not-agree = Stimmt nicht überein
