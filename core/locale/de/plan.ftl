# Pläne, ihre Unterschiede und ihre Fehler.
plan-counts =
    { $checks ->
        [one] { $checks } Prüfung
       *[other] { $checks } Prüfungen
    } bei { $aircraft }, in { $stages ->
        [one] { $stages } Abschnitt
       *[other] { $stages } Abschnitten
    }.
plan-edition = Ausgabe { $edition }, Kennung { $id }
plan-own = Ein eigener Plan
plan-own-how = Eine Kopie sichern, auf irgendeinem Rechner in einem Texteditor ändern und hier öffnen. Was sich ändern und was erlöschen würde, wird gezeigt, bevor es gilt. Nichts Eingetragenes geht dadurch verloren.
plan-newer = Ausgabe { $edition } des Plans kam mit der App
plan-newer-how = Was sie ändert und was dadurch verfiele, wird zuerst gezeigt. Bis du sie in Kraft setzt, gilt { $edition }.
plan-came-with = Ausgabe { $edition }, mit der App
plan-so-far = Bisher in Kraft
plan-open = Plandatei öffnen
plan-save = Eine Kopie dieses Plans sichern
plan-in-force = Geltender Plan
plan-file-inside = Plandatei
plan-open-another = Andere Datei öffnen
plan-faults =
    { $count ->
        [one] { $count } Fehler hält
       *[other] { $count } Fehler halten
    } diesen Plan draußen.
plan-mend = An der genannten Stelle beheben, sichern und wieder öffnen.
plan-line = Zeile { $line }, Spalte { $column }
plan-fault = Fehler
plan-file = Plandatei
plan-is-in-force = Es ist der geltende Plan
plan-not-yet = Noch nicht
plan-adopt = Diesen Plan in Kraft setzen
plan-file-named = Plandatei { $name }
plan-nothing-falls = Dadurch erlischt nichts, und nichts verfällt.
plan-falls =
    Dadurch { $gates ->
        [one] { $gates } Freigabe erlischt
       *[other] { $gates } Freigaben erlöschen
    }, und { $checks ->
        [one] { $checks } Prüfung verfällt
       *[other] { $checks } Prüfungen verfallen
    }.
plan-differences = Ausgabe { $edition }. { $added } neu, { $changed } geändert, { $removed } nicht mehr da
plan-gates-lapse = Freigaben, die erlöschen würden
plan-lapses = Erlischt
plan-gone = Nicht mehr da
plan-checks-anew = Prüfungen, die neu zu machen wären
plan-results-stay = Die Ergebnisse bleiben lesbar
plan-worth-mending = Daran zu verbessern
plan-more = und { $count } weitere
plan-new = Neu
plan-changed = Geändert
plan-landing-first = Zuerst die Landung von ‚{ $check }‘ eintragen
plan-finding-keeps = Befund { $number }, ‚{ $title }‘, wird durch ‚{ $proof }‘ aus { $stage } bewiesen, das dieser Plan nicht hat: zuerst schließen, oder diese Prüfung behalten
difference-point = { $what }: war { $old }, jetzt { $new }
difference-plan = Plan
difference-id = Kennung
difference-title = Titel
difference-notice = Hinweis
difference-question = Frage
difference-answers = Antworten
difference-answer-ids = Kennungen der Antworten
difference-unit = Einheit
difference-plausible = Glaubhaft
difference-step = Schritt
difference-start = Beginnt bei
difference-required = Verlangt
difference-only-for = Nur für
difference-above = Liegt über
difference-adjustable = Im Einstellungsbuch geführt
difference-why = Warum
difference-figure = Wert
difference-part = Teil
difference-event = Ereignis
difference-text = Wortlaut
difference-setting = Einstellung
difference-caution-above = Vorsicht über
difference-stop-above = Halt über
difference-heated-by = Erwärmt durch
difference-is-winding = eine Wicklung
difference-basis = Grundlage
difference-temperature = Temperatur
difference-caution = Vorsichtshinweis
difference-stage = Abschnitt
difference-check = Prüfung
difference-purpose = Zweck
difference-job = Teil der Arbeit
difference-after = Folgt auf
difference-cautions = Vorsichtshinweise
difference-gate = Freigabe
difference-order = Reihenfolge
difference-do = Was zu tun ist
difference-judged = Wie geurteilt wird
difference-group = Gruppe
difference-not-right = Nicht in Ordnung heißt
difference-a-stop = Halt
difference-a-caution = Vorsicht
difference-mandatory = Verlangt für die Freigabe
difference-witness = Zweite Person
difference-without = Ohne diese Person
difference-goes-on = geht es weiter
difference-stops = geht es nicht weiter
difference-caution-proves = Vorsicht beweist eine Behebung
difference-called-by = Verlangt durch
difference-rests-on = Beruht auf
difference-holds = Gilt
difference-before-flights = Fällig vor Flügen ab
difference-kind = Art
difference-look = hinsehen und sagen
difference-computed = berechnet, { $what }
difference-computed-supply-load = Last an jeder Versorgung
difference-computed-supply-window = Spannungsbereich jedes Verbrauchers
difference-computed-receiver-endurance = wie lange der Empfängerakku reicht
difference-computed-regulator-heat = Wärme jedes Reglers
difference-computed-wire-runs = Abfall, Wärme und Sicherung jeder Leitung
difference-computed-centre-of-gravity = Schwerpunkt und Ballast
difference-computed-governor-room = Reserve der Drehzahlregelung am Ende des Akkus
difference-computed-hover-room = Schwebeleistung am heißesten Tag
difference-computed-blade-balance = Auswuchtung der Hauptblätter
difference-computed-frequency-placement = Drehzahlen des Antriebs gegen Eigenfrequenzen
difference-computed-ladder-agreement = Schwebeflüge gegen ihre Vorhersagen
difference-computed-hot-day-heat = Wärme des letzten Schwebeflugs am heißesten Tag
difference-computed-pack-life = ob ein Akku ausgemustert werden soll
difference-computed-pack-trend = Anstieg des Widerstands jedes Akkus
difference-computed-landing-charge = Restladung nach dem letzten Schwebeflug
difference-computed-pack-ripple = Welligkeit an den Leitungen des Hauptakkus
difference-computed-trial-weight = Gewicht nach einem Lauf mit Probegewicht
difference-computed-blade-speed = höchste Rotordrehzahl gegen die Angabe der Blätter
difference-computed-head-speed-steps = Schritte zwischen den Rotordrehzahlen der Schwebeflüge
difference-computed-drive-load = geplanter Strom gegen das, was der Antrieb hält
difference-reading = eine Ablesung
difference-stop-below = Halt unter
difference-caution-below = Vorsicht unter
difference-head-speed = Rotordrehzahl
difference-minutes = Minuten
difference-knock-off = Abbrechen bei
difference-temperatures = Temperaturen
difference-predict = Gegen eine Vorhersage gehalten
difference-reserve = Muss mit der Reserve landen
difference-full-cell = eine volle Zelle und { $plus } V
difference-named = ‚{ $title }‘
difference-times = { $times } mal ‚{ $title }‘
difference-day = den Tag
difference-flights = { $flights } Flüge
difference-hours = { $hours } h
difference-days =
    { $days ->
        [one] { $days } Tag
       *[other] { $days } Tage
    }
difference-until = bis { $events }
difference-until-changed = bis zur Änderung
difference-or = { " " }oder{ " " }
difference-yes = ja
difference-no = nein
difference-nothing = nichts
difference-flown-run = geflogen, am Boden
difference-flown-hover = geflogen, im Schwebeflug
difference-flown-flight = geflogen, im Rundflug
plan-reason-format = Dieses Liftgate liest Pläne der Form { $known }: die App erneuern oder einen älteren Plan nehmen
plan-reason-missing-key = Hier fehlt ‚{ $key }‘
plan-reason-unknown-key = ‚{ $key }‘ gibt es hier nicht; diese Stelle hat { $known }
plan-reason-unknown-word = ‚{ $word }‘ geht hier nicht; möglich sind { $known }
plan-reason-wants-answers = Hier steht eine Antwort, oder mehrere in [ ]
plan-reason-wants-holds = Hier steht until-changed, session oder { "{" } flights = 10, hours = 5.0, days = 90, events = ["eine-kennung"] { "}" } oder einiges davon
plan-reason-wants-limit = Hier steht eine Zahl, { "{" } figure = "eine-kennung", times = 1.0 { "}" } oder { "{" } full_cell_plus = 0.03 { "}" }
plan-reason-parser = Das ist an dieser Stelle kein gültiges TOML, oder der Wert hat nicht die Form, die hier stehen muss. Der Leser der Datei sagt auf Englisch: { $words }
plan-reason-no-stage = Der Plan hat keinen Abschnitt (stage)
plan-reason-few-choices = ‚{ $question }‘ braucht mindestens zwei Antworten (choices)
plan-reason-twice = ‚{ $id }‘ steht unter { $what ->
        [choice] choices
       *[other] { $what }
    } weiter oben schon einmal
plan-reason-no-id = ‚{ $text }‘ ist keine Kennung: Wörter aus Kleinbuchstaben und Ziffern nehmen, mit Bindestrichen verbunden
plan-reason-not-there = Unter { $what } gibt es in diesem Plan kein ‚{ $id }‘
plan-reason-no-answer = ‚{ $question }‘ hat in diesem Plan keine Antwort ‚{ $answer }‘
plan-reason-tells-nothing = Einige der Antworten nennen: keine und alle unterscheiden nichts
plan-reason-range = Der glaubhafte Bereich geht von { $low } bis { $high }: low muss unter high liegen
plan-reason-circle =
    { $what ->
        [figure] Diese Werte liegen jeder über dem anderen
        [stage] Diese Abschnitte warten aufeinander
       *[other] Diese Prüfungen beruhen aufeinander
    }: { $way }
plan-reason-other-unit = ‚{ $figure }‘ ist in { $is } angegeben, hier gilt { $wanted }
plan-reason-job = Die Arbeit hat zehn Teile: job liegt zwischen 1 und 10
plan-reason-empty-gate = ‚{ $stage }‘ hat eine Freigabe (gate) und keine verlangte Prüfung: sie ginge ohne jeden Nachweis auf
plan-reason-no-gate = ‚{ $stage }‘ hat keine Freigabe (gate), auf die etwas warten könnte
plan-reason-flown-before-flights = Was vor jedem Flug fällig ist, kann nicht selbst geflogen werden: es würde auf sich selbst warten
plan-reason-no-witness = Ein Zeugenpunkt ist eine Prüfung am Boden mit witness = true: wer wäre sonst gekommen?
plan-reason-no-subject = Auf ‚{ $text }‘ beruht kein Nachweis: mass, wiring, supplies, packs, frequencies, heat, pack-readings, load-readings, trial-runs, papers nehmen, oder part:, setting:, figure: oder check: mit einer Kennung
plan-reason-not-how-long = ‚{ $word }‘ sagt nicht, wie lange: until-changed, session oder flights, hours, days nehmen
plan-reason-holds-for-nothing = Ein Nachweis muss für etwas gelten: flights, hours oder days über null, oder bis zu events
plan-reason-other-kind = ‚{ $check }‘ hat ein ‚{ $key }‘, ist aber nicht von dieser Art
plan-reason-kind-lacks = ‚{ $check }‘ ist von der Art { $key } und hat kein ‚{ $key }‘
plan-reason-step = Ein Schritt (step) liegt über null
plan-reason-start = Der Anfang (start) liegt außerhalb des glaubhaften Bereichs
plan-reason-no-basis = ‚{ $check }‘ misst und sagt nicht, woher die Grenzwerte kommen: basis
plan-reason-no-limit = ‚{ $check }‘ hat keinen Grenzwert: eine Prüfung, die nicht scheitern kann, ist keine
plan-reason-limit-outside = Der Grenzwert liegt außerhalb des glaubhaften Bereichs und wäre nie zu überschreiten
plan-reason-limits-fall = Grenzwerte steigen von stop_below über caution_below und caution_above bis stop_above
plan-reason-times = times liegt über null
plan-reason-full-cell = full_cell_plus ist ein Grenzwert einer Messung in V, höchstens 1 V von einer vollen Zelle
plan-reason-minutes = Geplante Minuten liegen zwischen 0,1 und 30
plan-reason-head-speed = Eine Rotordrehzahl liegt über null
lint-stops-later = ‚{ $title }‘ kann das Modell am Boden halten und steht dahinter: an den Anfang damit
lint-group-too-long = { $checks } Prüfungen in einer Gruppe; in Listen über { $most } wird übersprungen: teilen
lint-not-above = ob die Rotordrehzahl über der des Schwebeflugs davor liegt, steht nicht fest: dem Wert ein ‚above‘ geben
lint-no-basis = die Grenzwerte sagen nicht, woher sie kommen: die Quelle nennen, oder dass es keine gibt
lint-limit-not-told = ‚judged‘ sagt nichts vom Grenzwert { $limit }
lint-nothing-below = keine glaubhafte Ablesung liegt unter { $limit }
lint-nothing-above = keine glaubhafte Ablesung liegt über { $limit }
lint-no-stop = gilt als Halt und hat keinen: einen Halt angeben, oder als Vorsicht einstufen
lint-turns-without-caution = ein Rotor oder Antrieb dreht sich, und kein Vorsichtshinweis steht darüber
lint-hazard = dabei geht es um { $hazard }, und kein Vorsichtshinweis darüber sagt es
lint-hazard-rotor = einen drehenden Rotor
lint-hazard-drive = einen Antrieb, der von Hand gedreht wird
lint-hazard-voltage = Akkuspannung
lint-hazard-heat = Hitze
lint-hazard-lifting = das Heben des Modells
lint-hard-part = ‚{ $part }‘ liest sich wie Schuljahr { $grade }: kürzere Sätze und Wörter nehmen
lint-hard-text = der Text liest sich wie Schuljahr { $grade }; { $most } ist das Höchste
lint-never-runs-out = vor Flügen fällig und nie abgelaufen: es würde einmal danach gefragt
lint-not-every-aircraft = der Grenzwert wartet auf den Wert ‚{ $figure }‘, den nicht jedes Modell hat, zu dem diese Prüfung gehört
lint-unused = keine Prüfung hat mit { $what ->
        [trait] dieser Frage
        [part] diesem Teil
        [setting] dieser Einstellung
        [caution] diesem Vorsichtshinweis
       *[event] diesem Ereignis
    } zu tun: streichen oder verwenden
difference-read-on = Abgelesen beim Lauf von
difference-agrees-with = Stimmt überein mit
difference-answered-by = Beantwortet von
difference-rung-above = Sprosse über
difference-flown-bench = Ein Lauf auf der Werkbank
plan-reason-read-on-no-run = „{ $check }“ ist keine Prüfung, die gelaufen oder geflogen wird
plan-reason-not-on-file = „{ $text }“ liegt nicht vor und kann diesem Messwert nicht gleichen: eine Angabe in derselben Einheit nennen, oder bei kg die Waagen
plan-reason-up-to = „{ $question }“ beantwortet eine Angabe: Jede Antwort außer der letzten braucht „up_to“, und die Werte steigen; ohne „from“ hat keine einen
plan-reason-no-rung = über „{ $check }“ liegt keine Sprosse: Es müssen zwei Prüfungen eines Abschnitts sein, die geflogen werden, die untere zuerst

# Worin ein Plan weniger verlangt als einer vor ihm.
looser-gone = wird nicht mehr verlangt
looser-optional = kein Tor wartet darauf
looser-another-kind = verlangt etwas anderes
looser-limit = eine Grenze ist eine andere oder liegt weiter außen
looser-fails-as-caution = nicht in Ordnung ist Vorsicht und kein Halt mehr
looser-witness = keine zweite Person, oder es geht ohne sie weiter
looser-holds-longer = gilt länger
looser-rests-on-less = weniger Änderungen beenden es
looser-fewer-aircraft = für weniger Fluggeräte
looser-order = nicht mehr an seinem Platz: vor jedem Flug, in seinem Lauf oder über seiner Stufe
looser-shorter = ein kürzerer Lauf
looser-reads-less = weniger wird gemessen oder an Bekanntes gehalten
looser-fewer-call-offs = weniger Gründe zum Abbruch
looser-fewer-cautions = ein Warnhinweis wird nicht gezeigt
looser-caution-proves = Vorsicht belegt eine Behebung
plan-loosens =
    { $count ->
        [one] Er verlangt an { $count } Stelle weniger.
       *[other] Er verlangt an { $count } Stellen weniger.
    } { $then }
plan-loosened-heading = Verlangt weniger als zuvor
plan-looser-in-force =
    { $count ->
        [one] Der gültige Plan verlangt an { $count } Stelle weniger als einer vor ihm
       *[other] Der gültige Plan verlangt an { $count } Stellen weniger als einer vor ihm
    }
plan-looser-word = Verlangt weniger
