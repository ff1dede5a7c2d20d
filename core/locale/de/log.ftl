# Aufzeichnungen und ihre Bilder.
log-lies-above = über
log-lies-below = unter
log-proposal-cause = : { $cause }?
log-proposal = { $what } { $way } der Vorhersage bei { $speed } U/min{ $cause }
log-flown-in = { $speed } U/min bei { $air }
log-predicted-and-read = Vorhergesagt und abgelesen
log-as-predicted = Wie vorhergesagt
log-above = Darüber
log-below = Darunter
log-speed-read = { $measured } { $unit } abgelesen; { $predicted } eingestellt, { $low } bis { $high } liegt nahe daran
log-value-read = { $measured } { $unit } abgelesen; { $predicted } vorhergesagt, { $low } bis { $high }
log-what-charge = Entnommene Ladung
log-what-power = Leistung im Schwebeflug
log-what-current = Strom im Schwebeflug
log-what-voltage = Spannung unter Last
log-what-head-speed = Rotordrehzahl
log-why = Woran es liegen kann
log-why-note = was die Zahlen stützen, das Wahrscheinlichste zuerst
log-nothing-explains = Nichts Abgelesenes erklärt es. Wind, Messgerät und Hand am Knüppel hinterlassen hier keine Spur.
log-raised = Aufgenommen
log-make-finding = Als Befund aufnehmen
log-make-finding-of = Als Befund aufnehmen: { $title }
log-may-leave = Das darf liegen bleiben: dann wird nichts festgehalten, und es bleibt hier stehen. Eine redliche Ablesung von zwanzig liegt außerhalb.
log-cause-drag = Reibung im Antrieb
log-cause-speed = falsche Übersetzung oder Drehzahl
log-cause-pack = müder Akku
log-cause-little-air = zu wenig Luft
log-cause-hot-air = heiße Luft
log-percent = { $share } %
log-drag-words = { $more } mehr als vorhergesagt bei der abgelesenen Rotordrehzahl. Den Antrieb von Hand drehen: Riemen, Lager, Zahnspiel, Spurlauf
log-faster = schneller
log-slower = langsamer
log-explains-little = das erklärt wenig vom Rest
log-explains = das erklärt { $share } davon
log-speed-words = { $off } { $way } als eingestellt; { $share }. Übersetzung, Polpaare und Einstellung der Drehzahlregelung prüfen
log-pack-ratio = mindestens { $ratio } seines Innenwiderstands im Neuzustand
log-pack-extra = { $extra } mehr Strom für die gleiche Leistung
log-pack-words = { $words }. Innenwiderstand des Akkus ablesen, warm und voll fliegen
log-little-air-words = { $part }: Erwärmung { $rose } der vorhergesagten, bei nicht mehr Leistung. Nach verdecktem Einlass, Lüfter und losem Kühlkörper sehen
log-hot-air-words = { $above } über jeder bisher geflogenen Luft: die Vorhersage reicht über das Geflogene hinaus
log-next-detail = { $speed } U/min: { $middle } A, { $low } bis { $high }, { $from }
log-next-with =
    aus { $hovers ->
        [one] { $hovers } Schwebeflug
       *[other] { $hovers } Schwebeflügen
    }, diesen eingerechnet
log-next-without =
    { $hovers ->
        [0] nur aus den Angaben
        [one] aus { $hovers } Schwebeflug
       *[other] aus { $hovers } Schwebeflügen
    }, ohne diesen: was erklärt oder zum Befund wurde, zählt nicht mit
log-next = Als Nächstes: { $check }
log-too-little = Bisher zu wenig abgelesen, um eine Drift zu sehen.
log-nothing-drifted-of =
    { $tested ->
        [one] Von { $tested } Wert ist nichts abgedriftet; { $few } zu selten abgelesen, um es zu sagen.
       *[other] Von { $tested } Werten ist nichts abgedriftet; { $few } zu selten abgelesen, um es zu sagen.
    }
log-nothing-drifted = Nichts ist abgedriftet.
log-drifted =
    { $count ->
        [one] { $count } Wert ist
       *[other] { $count } Werte sind
    } abgedriftet.
log-tested =
    { $count ->
        [one] { $count } Wert
       *[other] { $count } Werte
    } mit { $fewest } Ablesungen oder mehr
log-last-of-each = die letzte Ablesung von jedem
log-read-once = bisher einmal abgelesen
log-also-read = Ebenfalls abgelesen
log-drift-method = Ein Sprung und eine Steigung in den Tagesmitteln nach verallgemeinerten kleinsten Quadraten, mit einem Gedächtnis von Tag zu Tag und einer Jahreszeit, die vorher niemand kennt (nach Johnson und Bagshaw 1974): höchstens fünf von hundert, dass etwas als Drift gemeldet wird, was keine ist, über hundert Ablesungen. Es braucht Ablesungen auf gleiche Weise: ein Akku gleich warm und gleich voll, derselbe Testpunkt. Schwebeleistung ist auf Normalluft in Meereshöhe gebracht, Wärme ist über der Luft ihres Tages angegeben. Von Hand gelesene Widerstände haben keinen Tag: eine Jahreszeit erscheint in ihnen als Drift.
log-trends = Verlauf
log-pack-resistance = { $pack }, Innenwiderstand
log-as-read = wie abgelesen
log-leads-resistance = { $pack } mit Kabeln, Widerstand
log-by-the-logs = aus den Aufzeichnungen
log-above-air = { $place }, über der Luft
log-hover-power = Schwebeleistung in Normalluft
log-shakes = Bemerktes Schütteln und Geräusche
log-each-minute = je Flugminute
log-last-of =
    Letzte von { $count ->
        [one] { $count } Ablesung
       *[other] { $count } Ablesungen
    }, { $least } bis { $greatest }
log-no-drift = keine Drift
log-cannot-tell = zu wenig, um es zu sagen
log-before-drift =
    { $count ->
        [one] { $count } weitere Ablesung
       *[other] { $count } weitere Ablesungen
    }, bevor eine Drift erkennbar ist
log-drifted-by = abgedriftet: { $change }{ $width } { $unit } seit { $since }
log-flights = { $flights } Flüge
log-trends-note = was abdriftet, Flug für Flug
log-trends-row = Verlauf über die Lebenszeit
log-at = Bei { $time }
log-from-to = { $from } bis { $to }
log-plot-spoken = Verlaufsbild. { $spoken }
log-range-spoken = { $from } bis { $to }: { $ranges }
log-least-greatest = { $least } bis { $greatest }
log-limit-stop = Halt { $value } { $unit }
log-limit-caution = Vorsicht { $value } { $unit }
log-limit = Grenzwert { $value } { $unit }
log-limit-set = eingestellt { $rpm } { $unit }
log-no-values = hier keine Werte
log-limit-above = darüber: { $limit }
log-limit-below = darunter: { $limit }
log-closer = Näher
log-closer-spoken = Bild: halbe Zeit
log-wider = Weiter
log-wider-spoken = Bild: doppelte Zeit
log-all-in-view = Alles ist im Bild
log-earlier = Früher
log-earlier-spoken = Bild: ein halbes Fenster zurück
log-later = Später
log-later-spoken = Bild: ein halbes Fenster weiter
log-whole = Alles
log-whole-spoken = Bild: die ganze Aufzeichnung
log-cursor-back = Zeiger zurück
log-cursor-back-spoken = Zeiger einen Schritt zurück
log-cursor-on = Zeiger weiter
log-cursor-on-spoken = Zeiger einen Schritt weiter
log-cursor-off = Kein Zeiger
log-cursor-off-spoken = Den Zeiger wegnehmen
log-cursor = Zeiger
log-cursor-spoken = Einen Zeiger in die Mitte setzen
log-on-top-spoken = { $label } zuoberst zeigen
log-on-top = Zuoberst im Bild
log-none = keine
log-turns = Umdrehungen, die sie je Rotorumdrehung zählt
log-file-gone = Die Datei ist nicht mehr zur Hand. Nichts davon wurde festgehalten.
log-pick-again = Noch einmal wählen
log-log = Aufzeichnung
log-known = Diese Art von Datei ist bekannt.
log-say-once = Einmal sagen, was ihre Spalten sind.
log-left-out-note = Ausgelassene Spalten werden nicht gelesen. Die Datei selbst bleibt ganz erhalten.
log-no-time = Keine Spalte ist die Zeit. Ist es doch eine, unten benennen.
log-attach = Diese Aufzeichnung anhängen
log-begins = beginnt mit { $sample }
log-period = Abstand der Zeilen
log-columns =
    { $count ->
        [one] eine Spalte
       *[other] { $count } Spalten
    }
log-columns-read = Gelesen
log-columns-left = Ausgelassen
log-columns-too = Und diese: { $names }
log-no-place = Stelle nicht gesagt
log-time-written = Wie sie geschrieben ist
log-column-done = Das ist sie
log-leave-out = Auslassen
log-column = Spalte { $column }
log-unit-of-column = Einheit von Spalte { $column }
log-turns-named = { $turns } Umdrehungen je Rotorumdrehung
log-turns-motor = ; { $turns } für die Drehzahl des Motors
log-turns-hint = 1 für die Drehzahl des Rotors selbst{ $motor }
log-where-column = Wo Spalte { $column } gemessen wird
log-none-attached-yet = An diesem Flug hängt keine Aufzeichnung. Jede Texttabelle, die ein Aufzeichner schrieb, genügt.
log-pick = Aufzeichnung wählen
log-review = Auswertung
log-says = Was sie sagt
log-touch-one = eine berühren zeigt, wo
log-the-file = Die Datei
log-pick-another = Andere Aufzeichnung wählen
log-further = Weiteres
log-another-day = Anderer Tag
log-another-day-note = die Wärme an einem heißeren Tag
log-nothing-past = Nichts in dieser Aufzeichnung liegt jenseits seines Grenzwerts.
log-past =
    { $count ->
        [one] { $count } Wert liegt
       *[other] { $count } Werte liegen
    } jenseits eines Grenzwerts.
log-read-counts =
    { $rows ->
        [one] { $rows } Zeile
       *[other] { $rows } Zeilen
    } gelesen, { $missed } Fehler, { $left_out ->
        [one] { $left_out } Zeile
       *[other] { $left_out } Zeilen
    } ausgelassen
log-figure-time = Flugzeit
log-figure-highest = höchster Wert
log-figure-lowest = niedrigster Wert
log-figure-mean = Mittel im Flug
log-figure-hover-mean = Mittel im Schwebeflug
log-figure-past = Zeit jenseits des Grenzwerts
log-past-above = über { $limit }: { $basis }
log-past-below = unter { $limit }: { $basis }
log-figure-charge = Im Flug entnommene Ladung
log-figure-energy = Im Flug entnommene Energie
log-figure-resistance = Widerstand von Akku und Kabeln
log-figure-sag = Unter Last verlorene Spannung
log-figure-ripple = Welligkeit
log-figure-speed-error = im Schwebeflug, gegen die Einstellung
log-figure-droop = tiefster Einbruch unter Last
log-figure-settles = würde sich einstellen bei
log-figure-time-constant = Zeitkonstante
log-figure-drop-out = Nichts aufgezeichnet
log-state-stop = Halt
log-state-caution = Vorsicht
log-state-within = Innerhalb
log-bytes = { $bytes } Bytes, SHA-256 { $sha256 }
log-row-counts = { $found } gefunden, { $read } gelesen, { $left_out } ausgelassen, { $repeated } wiederholt, { $out_of_order } ungeordnet, { $restarts } Neuanfänge
log-kept = Erhalten, wie sie war
log-rows = Zeilen
log-fault = Fehler
log-no-file = Die Datei selbst ist nicht mehr hier: kein Bild lässt sich zeichnen.
log-where-from = Woher es kommt
log-none-attached = keine angehängt
log-of-flight = Aufzeichnung dieses Flugs
log-gone-pick-again = Die Datei ist nicht mehr zur Hand: noch einmal wählen
log-attached = Aufzeichnung angehängt: { $rows } Zeilen von { $name }
log-flight-gone = Diesen Flug gibt es nicht mehr
log-all-as-predicted = Alles war wie vorhergesagt: es gibt nichts aufzunehmen
log-finding-raised = Befund aufgenommen: { $title }
log-finding-there = Daraus wurde schon Befund { $number }
log-no-plot = Kein Bild ist in Sicht
log-controller-rating = die Dauerbelastung des Motorreglers
log-quantity-time = Zeit
log-quantity-pack-voltage = Akkuspannung
log-quantity-pack-current = Akkustrom
log-quantity-power = Leistung
log-quantity-charge = Entnommene Ladung
log-quantity-head-speed = Rotordrehzahl
log-quantity-throttle = Gas
log-quantity-ripple = Welligkeit, Spitze zu Spitze
log-quantity-receiver-voltage = Empfängerspannung
log-quantity-receiver-current = Empfängerstrom
log-quantity-temperature = Temperatur
log-quantity-vibration = Erschütterung
log-quantity-height = Höhe
log-quantity-speed = Geschwindigkeit
log-quantity-other = Etwas anderes
log-unit-ratio = Anteil
log-form-seconds = Sekunden
log-form-milliseconds = Millisekunden
log-form-microseconds = Mikrosekunden
log-form-minutes = Minuten
log-form-clock = Uhrzeit, h:m:s
log-form-year-first = Datum, Jahr zuerst, und Uhrzeit
log-form-day-first = Datum, Tag zuerst, und Uhrzeit
log-form-month-first = Datum, Monat zuerst, und Uhrzeit
log-form-evenly = Zeilen in gleichem Abstand
log-row = Zeile { $row }
log-row-column = Zeile { $row }, Spalte { $column }
log-row-column-named = Zeile { $row }, Spalte { $column } ({ $name })
log-row-fault = { $place }: { $kind }
log-row-fault-found = { $place }: { $kind }: „{ $found }“
log-row-not-a-number = keine Zahl, leer gelassen
log-row-no-time = keine Zeit, Zeile ausgelassen
log-row-too-few = weniger Felder als Spalten, der Rest leer gelassen
log-row-too-many = mehr Felder als Spalten, diese ausgelassen
log-row-torn = die Datei endet hier, was abgerissen sein kann, ausgelassen
log-row-too-long = keine Textzeile, ausgelassen
log-row-open-quote = ein Anführungszeichen, das nie schließt, Zeile ausgelassen
log-row-time-jump = die Zeit springt und kommt zurück, Zeile ausgelassen
log-no-table-empty = Die Datei ist leer: die Datei wählen, die der Aufzeichner als Text schrieb, eine Zeile für jeden Augenblick
log-no-table = Keine Zeilen mit Zahlen gefunden; die Datei beginnt mit „{ $begins }“: die Datei wählen, die der Aufzeichner als Text schrieb, eine Zeile für jeden Augenblick
log-no-rows-at-all = Keine Zeile war zu gebrauchen: es gibt keine. Die Datei wählen, die der Aufzeichner als Text schrieb, eine Zeile für jeden Augenblick
log-no-rows = Keine Zeile war zu gebrauchen; die erste davon: { $first }. Prüfen, welche Spalte die Zeit ist und wie sie geschrieben ist
log-stopped = Das Einlesen wurde abgebrochen; nichts davon wurde behalten
log-unreadable = Die Datei ließ sich nach { $bytes } Bytes nicht weiterlesen: { $reason }
log-map-no-columns = Noch ist keine Spalte benannt: von mindestens einer sagen, was sie ist
log-map-too-many = { $columns } Spalten sind mehr als { $most }: einige auslassen
log-map-no-time-column = Spalte { $column } gibt es in dieser Datei nicht, sie hat { $width }
log-map-time-twice = Zeilen in gleichem Abstand brauchen keine Zeitspalte: das eine oder das andere wählen
log-map-no-time = Sagen, welche Spalte die Zeit ist, oder um wie viele Sekunden die Zeilen auseinanderliegen (0,000001 bis 3600)
log-map-no-column = Spalte { $column } ({ $label }) gibt es in dieser Datei nicht, sie hat { $width }
log-map-also-time = Spalte { $column } ({ $label }) kann nicht die Zeit und noch etwas anderes sein
log-map-unit = { $quantity } wird nicht in { $unit } geschrieben: die Einheit wählen
log-map-ratio = Das Verhältnis von Spalte { $column } ({ $label }) ist eine Zahl und nicht null
log-map-twice = Die Spalten { $first } und { $second } sind beide { $quantity }: eine auslassen
log-lack-flight = In dieser Aufzeichnung ist kein Flug zu finden: nie stieg die Last fünf Sekunden lang wie im Schwebeflug; die Einheiten der Spalten prüfen
log-lack-load = Keine Spalte ist als Akkustrom, Leistung oder Rotordrehzahl benannt: ohne eine davon ist in der Aufzeichnung kein Flug zu finden
log-lack-least-step = Der kleinste Schritt einer Ablesung liegt über null
log-lack-readings = Ein Verlauf nimmt bis zu { $most } Ablesungen, jede eine Zahl
log-lack-false-alarm = Die Wahrscheinlichkeit eines Fehlalarms liegt zwischen 0,0001 und 0,5, über 10 bis 1000 Ablesungen
log-lack-threshold = Eine Schwelle liegt zwischen 0,5 und 20, eine Verschiebung zwischen -2 und 10
log-lack-run-length = Die Lauflänge ist nicht zu berechnen
log-note-flights = { $count } Flüge in dieser Aufzeichnung
log-note-above = über { $value }: { $basis }
log-note-below = unter { $value }: { $basis }
log-note-not-covered = { $share } % der Aufzeichnung haben zu lange keine Werte für eine Schätzung und zählen nicht mit
log-note-estimated = die ganze Aufzeichnung, auch am Boden; { $seconds } s ohne Werte sind zwischen den Werten davor und danach angenommen
log-note-all-of-it = die ganze Aufzeichnung, auch am Boden
log-note-counted = aus dem Strom; der Aufzeichner zählte { $mah } mAh, was nicht dazu passt
log-note-counter-right = wie der Aufzeichner zählte, was zu seinem Strom passt, wo beide aufgezeichnet sind; allein aus dem Strom { $mah } mAh
log-note-counter-restarts =
    { $count ->
        [one] { $note }; sein Zähler begann einmal neu
       *[other] { $note }; sein Zähler begann { $count }-mal neu
    }
log-note-as-counted = wie der Aufzeichner zählte
log-note-resistance = Akku und Leitungen, in der ersten Sekunde einer Last (wie IEC 61960-3 für Gleichstrom); was sich über viele Sekunden aufbaut, steckt nicht darin. Nur mit anderen Aufzeichnungen vergleichbar, nicht mit einem Messgerät
log-note-sag = beim größten Strom, { $current } A, in einer Sekunde; nach vielen Sekunden mehr
log-note-ripple = Grenzwert { $limit } V bei { $cells } Zellen, übliche Praxis; ein langsamer Aufzeichner liest zu wenig
log-note-hover-speed = { $hover } im Schwebeflug, { $set } eingestellt
log-note-droop = { $share } % der { $hover } im Schwebeflug, über eine Dreiviertelsekunde
log-note-rise = wo der Anstieg dieses Flugs enden würde
log-note-rise-short = zu kurz geflogen für einen sicheren Wert; wo der Anstieg dieses Flugs enden würde
log-note-nothing = nichts wurde aufgezeichnet
log-note-empty = diese Spalte war leer
log-note-of-many = { $note }; eine der längsten von { $count } Lücken
