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
difference-unit = Einheit
difference-plausible = Glaubhaft
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
difference-reading = eine Ablesung
difference-stop-below = Halt unter
difference-caution-below = Vorsicht unter
difference-head-speed = Rotordrehzahl
difference-minutes = Minuten
difference-knock-off = Abbrechen bei
difference-temperatures = Temperaturen
difference-predict = Gegen eine Vorhersage gehalten
difference-named = ‚{ $title }‘
difference-times = { $times } mal ‚{ $title }‘
difference-day = den Tag
difference-flights = { $flights } Flüge
difference-hours = { $hours } h
difference-days = { $days } Tage
difference-until = bis { $events }
difference-until-changed = bis zur Änderung
difference-or = { " " }oder{ " " }
difference-yes = ja
difference-no = nein
difference-nothing = nichts
difference-flown-run = geflogen, am Boden
difference-flown-hover = geflogen, im Schwebeflug
difference-flown-flight = geflogen, im Rundflug
