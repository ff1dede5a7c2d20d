# Was vor dem nächsten Flug steht.
board-stages = Abschnitte
board-this-phone = Dieses Telefon
board-no-flight-wanted = Kein Flug des Plans ist für { $name } Pflicht: kein Tor verlangt einen.
board-no-flight = Der Plan enthält keinen Flug mit { $name }.
board-nothing-stands = Nichts steht zwischen { $name } und { $flight }.
board-pilot-decides = Der Pilot entscheidet, jedes Mal.
board-things-stand =
    { $count ->
        [one] { $count } Punkt steht
       *[other] { $count } Punkte stehen
    } zwischen { $name } und { $flight }.
board-things-stand-at-least =
    { $count ->
        [one] Mindestens { $count } Punkt steht
       *[other] Mindestens { $count } Punkte stehen
    } zwischen { $name } und { $flight }.
board-fly-again = Noch einmal zu fliegen: { $why }
board-flight-at = ‚{ $title }‘ bei { $rpm } U/min
board-flight = ‚{ $title }‘
board-landing-of = Landung von { $check }
board-to-jot-down = Einzutragen
board-in-the-way = Was im Weg steht, der Reihe nach
board-more = und { $rest } weitere danach
board-to-answer = Zu beantworten
board-to-enter = Einzugeben
board-out-of-order = Reihenfolge falsch
board-carried-too-long = Zu lange mitgeführt
finding-word = Befund
board-prove = Beweis durch: { $check }
gate-shut = Gesperrt
gate-ready = Bereit
gate-released = Erteilt
gate-lapsed = Erloschen
gate-recurring = Wiederkehrend
board-checks-hold = { $holds } von { $wanted } Prüfungen gelten
board-again-detail = Die Nachweise gelten wieder. Jeden ansehen, dann einmal entscheiden
board-again =
    { $count ->
        [one] { $count } Freigabe
       *[other] { $count } Freigaben
    } neu zu erteilen
events-title = Etwas ist geschehen
board-due-soon = Bald fällig
board-soon = Bald
papers-none = Keines ist aufgeschrieben: von keinem wird vor dem Ende gemeldet.
papers-good = Gültig
papers-over = Abgelaufen
papers-no-end = Ohne Ende
papers-today = Heute ist der letzte Tag
papers-last-day = Der letzte Tag ist der { $day }
papers-last-day-was = Der letzte Tag war der { $day }
papers-ends =
    { $days ->
        [one] Der letzte Tag ist der { $day }: morgen
       *[other] Der letzte Tag ist der { $day }, in { $days } Tagen
    }
board-carried-finding = { $title }, { $carried }
board-flown-with = Geflogen wird mit
board-last-recorded = Zuletzt eingetragen
board-nothing-changed = Sonst hat sich dadurch nichts geändert
board-last-recorded-spoken = Zuletzt eingetragen: { $what }
board-jot-landing = Landung eintragen
findings-title = Befunde
aircraft-title = Modell
journal-title = Journal
board-none-open = keiner offen
board-open = { $open } offen
board-flight-due =
    { $flight }, { $count ->
        [one] { $count } Prüfung
       *[other] { $count } Prüfungen
    } fällig
board-draw-card = Karte ausstellen
board-answer = Beantworten
board-enter = Eingeben
board-correct = Berichtigen
board-do = Ausführen
board-prove-fix = Behebung beweisen
board-see-to = Ansehen
board-decide = Entscheiden
release-none = Jetzt kann keine erloschene Freigabe erteilt werden: Der Stand zeigt, was im Weg steht.
release-title = Neu zu erteilende Freigaben
release-intro = Worauf diese Freigaben beruhen, gilt wieder. Bei jeder nachlesen, was ihr den Grund nahm und was ihn erneuert hat. Jede ist eine eigene Entscheidung und ein eigener Eintrag im Journal.
release-gates =
    { $count ->
        [one] { $count } Freigabe
       *[other] { $count } Freigaben
    } erteilen
release-pilot-decides = Der Pilot entscheidet
release-lapsed-over = Erloschen durch
release-own-checks = Eigene Prüfungen
release-all-hold = Alle gelten wie zuvor
release-done-anew = Neu gemacht
blocker-no-pack = Ein Akku, der geflogen werden darf
clock-is-behind = Die Uhr des Telefons geht dem letzten Eintrag nach
clock-set-it = Die Uhr des Telefons stellen. Bis dahin wird nichts freigegeben
clock-behind-how = Sie zeigt { $now }; ein Eintrag wurde schon am { $last } gemacht. Die Uhr des Telefons stellen. Bis dahin wird nichts freigegeben, und nach einem Neustart des Telefons zählt nichts, was für Tage gilt. Stimmt die Uhr, dann wurde ein Eintrag gemacht, als sie vorging: diesen Eintrag im Journal zurückziehen
