# Zustände und Einträge, wie jede Seite sie nennt.
standing-to-do = Offen
standing-incomplete = Unvollständig
standing-holds-caution = Gilt, mit Vorsicht
standing-holds = Gilt
standing-stale = Verfallen
standing-not-right = Nicht in Ordnung
standing-not-predicted = Nicht wie vorhergesagt
standing-wanted = Es fehlt noch: { $what }
standing-explain = Erklären, warum die entnommene Ladung außerhalb der Vorhersage liegt
reason-changed = { $subject } geändert: { $what }
reason-happened = Es endete mit: { $event }
reason-day-over = Es gilt nur für den Tag der Prüfung
reason-runs =
    Es gilt für { $count ->
        [one] { $count } Motorlauf
       *[other] { $count } Motorläufe
    }
reason-hours = Es gilt für { $hours } h mit laufendem Motor
reason-days =
    { $days ->
        [one] Es gilt für { $days } Tag
       *[other] Es gilt für { $days } Tage
    }
reason-paper-over = { $paper } galt bis { $day }
reason-rests-on = Es beruht auf ‚{ $check }‘
reason-plan-changed = Die Prüfung ist älter als ‚{ $plan }, Ausgabe { $edition }‘, und dieser Plan verlangt anderes
reason-to-prove = Sie soll die Behebung von ‚{ $finding }‘ beweisen
blocker-unnamed = Namen des Modells, des Erbauers und des Piloten
blocker-order = { $figure } muss größer sein als: { $above }
blocker-finding = Ein Befund
blocker-gate = Freigabe von { $stage }
lacking-thing = Noch nichts beschrieben unter { $kind }: unter Modell hinzufügen
lacking-count = { $kind }: { $wanted } sind verlangt, { $described } bisher unter Modell beschrieben
lacking-number = { $name }: ‚{ $label }‘ fehlt; unter Modell eingeben
lacking-figure = ‚{ $title }‘ fehlt; unter Modell eingeben
lacking-flight = Zuerst ‚{ $check }‘ fliegen und die Landung eintragen
lacking-other-load = Verlangt sind zwei Messungen unter Last, eine leichte und eine beim höchsten Strom; bisher gibt es nur eine bei etwa { $near }
lacking-resting-pack = { $pack } ruhen lassen, dann eine Akkumessung davon hinzufügen: niedrigste und höchste Zelle nach diesem Flug
finding-open = Offen
finding-fixed = Behoben, Beweis fehlt
finding-proven = Bewiesen
finding-carried = Mitgeführt
until-runs =
    für { $count ->
        [one] { $count } Motorlauf
       *[other] { $count } Motorläufe
    }
until-date = bis { $day }
until-left = { $until }, noch { $left }
left-flights =
    { $count ->
        [one] { $count } Flug
       *[other] { $count } Flüge
    }
left-hours = { $hours } h mit laufendem Motor
left-days =
    { $count ->
        [one] { $count } Tag
       *[other] { $count } Tage
    }
left-of = noch { $parts }
left-or = {" "}oder{" "}
result-right = In Ordnung
flight-used = , { $mah } mAh
flight-words = { $rpm } U/min{ $minutes }{ $used }
time-seconds = { $seconds } s
time-minutes = { $minutes } min
author-pilot = Pilot
author-spotter = Helfer { $name }
entry-a-finding = ein Befund
entry-emergency = Im Notfall anrufen: { $call }; der Platz: { $address }
entry-named = { $name }, gebaut von { $builder }
entry-named-pilot = { $name }, gebaut von { $builder }, geflogen von { $pilot }
entry-plan = Geltender Plan: { $plan }, Ausgabe { $edition }
entry-aircraft-begun = Weiteres Modell begonnen, geltender Plan: { $plan }, Ausgabe { $edition }
entry-thing-described = { $kind } { $name } beschrieben
entry-thing-removed = { $kind } { $name } entfernt
entry-thing-changed-on-it = , am Modell geändert
entry-thing-instead = , an seiner Stelle: { $what }
entry-changed = Geändert: { $what }
entry-happened = Geschehen: { $event }
entry-setting-from = { $title }: von { $before } auf { $after }
entry-card = Karte: { $check }, { $pack }
entry-handed-over = Telefon bei { $spotter }
entry-motor-on = Motor an
entry-mark = { $mark } bei { $time }
entry-touchdown = Aufgesetzt bei { $time }
entry-motor-off = Motor aus bei { $time }
entry-resumed = Aufsetzen zurückgenommen: noch im Flug
entry-handed-back = Telefon zurück beim Piloten
entry-unmarked = Zurückgenommen: { $mark }
entry-unmarked-unknown = Ein Merker zurückgenommen
entry-charged-with = { $pack } geladen, { $mah } mAh eingeladen
entry-cells-read = { $pack }: Zellen gemessen, { $low } bis { $high }
entry-charged = { $pack } geladen
entry-code-refused = Ein falscher Code wurde versucht
entry-wait-begun = Kein Code zur Hand: Die Wartezeit bis zum Öffnen ohne Code begann
entry-opened-without = Ohne den Code des Piloten geöffnet, nach der Wartezeit
entry-code-set = Code des Piloten gesetzt
entry-code-removed = Code des Piloten entfernt
entry-landing-used = , { $used } mAh entnommen
entry-landing-hottest = , höchstens { $hottest }
entry-landing = Landung{ $used }{ $hottest }{ $so }{ $was }
entry-landing-confirmed = , auffällig und als gemessen bestätigt
entry-landing-waived = Landung nicht eingetragen: { $reason }
entry-log = Aufzeichnung angehängt: { $name }, { $rows } Zeilen
entry-explained = Erklärt: { $why }
entry-finding = Befund, { $grade }: { $title }
entry-fixed = ‚{ $finding }‘ behoben: { $what }
entry-carried = ‚{ $finding }‘ mitgeführt: { $restriction }
entry-gate-released = { $stage } freigegeben von { $by }
entry-withdrawn = Zurückgezogen: { $entry }. { $reason }
entry-withdrawn-unknown = Zurückgezogen. { $reason }
lack-witness = der Name der zweiten Person
lack-witness-or-why = der Name der zweiten Person, oder warum niemand kam
lack-charge-used = Entnommene Ladung
lack-longer-flight = geflogen { $flown } von { $wanted }, die diese Prüfung verlangt
lack-read-too-late = { $place }, erst { $time } nach dem Aufsetzen gemessen: zu spät, um zu zählen
lack-agreement = Übereinstimmung: Gemessen sind { $read }, und { $with } sagt { $on_file }
lack-pack-capacity = was der Akku fasst
fault-found = Nicht in Ordnung gefunden
fault-past-limit = { $value } liegt jenseits des Grenzwerts
fault-past-stop = { $place } liegt mit { $temperature } über dem Halt
fault-under-reserve = Gelandet mit { $left } % im Akku, unter der Reserve von { $reserve } %
doubt-over-pack = { $used } ist mehr, als { $pack } fasst: { $holds }
doubt-under-reserve = Damit bleiben { $left } % in { $pack }, unter der Reserve von { $reserve } %
doubt-no-charge = { $used } nach { $time } mit laufendem Motor
doubt-under-lifting = { $used } nach { $time } mit laufendem Motor, und dieses Modell zu heben braucht mindestens { $least }
doubt-below-air = { $place } { $read }, kälter als die Luft mit { $air }
doubt-no-warmer = Nichts ist wärmer als die Luft mit { $air }, nach { $time } mit laufendem Motor
deed-entered = eingegeben als { $value }
deed-set = gestellt auf { $value }
deed-added = { $name } hinzugefügt
deed-changed = { $name } geändert
deed-removed = { $name } entfernt
subject-mass = Masse und wo sie sitzt
subject-wiring = Verkabelung
subject-supplies = Versorgungen und Verbraucher
subject-packs = Flugakkus
subject-frequencies = Eigenfrequenzen
subject-heat = Temperaturreihen
subject-pack-readings = Akkumessungen
subject-load-readings = Messungen unter Last
subject-trial-runs = Läufe mit Probegewicht
subject-papers = Papiere
blocker-unanswered = { $what }, bei { $check }
unanswered-stop = { $place } { $read }, über dem Halt von { $limit }
entry-mark-answered = { $mark }, beantwortet: { $words }
entry-mark-answered-unknown = Etwas Gemerktes beantwortet: { $words }
answer-gust = Eine Böe
answer-pilots-input = Meine Steuereingabe
answer-looked-at = Nachgesehen, nichts gefunden
answer-finding = Befund { $number }: { $title }
lack-not-called-off = ein Lauf, der nicht abgebrochen wird. Dieser wurde es: { $why }
lack-judgement = wie der Lauf war
fault-not-so = Nicht, wie es sein soll: { $why }
unanswered-judgement = Wie der Lauf war
entry-landing-not-so = , nicht so: { $why }
entry-landing-called-off = , abgebrochen: { $why }
marks-many = { $mark }, { $count }-mal gemerkt, zuerst bei { $time }
lack-run-of = ein Lauf von { $run } unmittelbar davor
entry-restarted = Das Telefon wurde im Flug neu gestartet: wie lange geflogen wurde, weiß es nicht
entry-flown-told = Motor lief { $time }, sagt der Pilot
unanswered-time = Wie lange der Motor lief
unanswered-long-time = Wie lange der Motor lief: das Telefon zählte { $time }
entry-flown-without-phone = Motor lief { $time } ohne das Telefon, gelandet { $ago } davor, sagt der Pilot; zugesehen hat { $spotter }
reason-clock-behind = Das Telefon wurde neu gestartet, und seine Uhr geht nach: niemand weiß, wie viele Tage vergangen sind. Die Uhr des Telefons stellen
lack-flown-time = wie lange der Motor lief
lack-list-declared = dass alles beschrieben ist: { $list }
entry-list-declared = Alles beschrieben: { $list }, { $count }
entry-illegible = Hier stand ein Eintrag, der sich nicht mehr lesen lässt
entry-repaired =
    Die Datei war beschädigt; es geht weiter mit dem, was sich lesen ließ. { $entries ->
        [0] Jeder Eintrag ließ sich lesen
        [one] { $entries } Eintrag ließ sich nicht lesen
       *[other] { $entries } Einträge ließen sich nicht lesen
    }{ $logs ->
        [0] {""}
        [one] {""}, { $logs } Log auch nicht
       *[other] {""}, { $logs } Logs auch nicht
    }
blocker-record-damaged = Einträge, die sich nicht mehr lesen lassen
entry-photo = Foto: { $of }
