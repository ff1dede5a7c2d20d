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
