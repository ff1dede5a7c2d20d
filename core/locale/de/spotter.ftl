# Die Seite des Helfers und seine Ansagen.
spotter-flight = Flug
spotter-title = { $title }, { $rpm } U/min
spotter-planned = geplant { $time }
spotter-take-back = { $mark } zurücknehmen
spotter-wrong-codes =
    { $count ->
        [one] { $count } falscher Code wurde versucht
       *[other] { $count } falsche Codes wurden versucht
    }
spotter-next-try = Nach falschen Codes: der nächste in { $time }
spotter-no-code = Kein Code zur Hand
spotter-no-code-note = Öffnet eine halbe Stunde später, und der Pilot sieht es
spotter-open-without = Ohne den Code öffnen
spotter-wait-over = Die Wartezeit ist um
spotter-waiting = Wartet auf das Öffnen ohne Code
spotter-wait-left = noch { $time }
spotter-code = Der Code des Piloten
spotter-open = Öffnen
spotter-ready = Bereit. Alle vom Rotor weg?
spotter-motor-on = Motor an
spotter-down = Gelandet, Motor aus
spotter-hand-back = Zurück an den Piloten
spotter-touchdown = Aufgesetzt
spotter-still-flying = Fliegt noch
spotter-call-half-minute-over = Eine halbe Minute darüber. { $end }
spotter-call-minute-over = Eine Minute darüber. { $end }
spotter-call-minutes-over = { $minutes } Minuten darüber. { $end }
spotter-call-half-time = Halbzeit
spotter-call-minute-left = Noch eine Minute
spotter-call-time = Zeit. { $end }
spotter-stop-above = { $place }: Halt über { $limit }
spotter-emergency = Im Notfall { $call } anrufen: { $address }
spotter-flown-on = Geflogen mit { $pack }
spotter-not-full = Nicht voll: { $why }
spotter-call-land = Jetzt landen
spotter-call-motor-off = Jetzt Motor aus
spotter-motor-off = Motor aus
spotter-still-on = Motor läuft noch
