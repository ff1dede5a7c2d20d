# Das Blatt, das anderen zeigt, was bewiesen wurde.
dossier-title = { $aircraft }: Nachweis
dossier-built = Gebaut von { $builder }. Plan: { $plan }, Ausgabe { $edition }. Gedruckt am { $printed }.
dossier-count =
    Das Journal hinter diesem Blatt hat { $count ->
        [one] { $count } Eintrag
       *[other] { $count } Einträge
    }. Der letzte Prüfwert seiner Kette ist
dossier-chain = Die Kette wurde beim Drucken abgeschritten; ein danach gekürztes Journal zeigt eine andere Zahl und einen anderen Prüfwert.
dossier-findings = Befunde
dossier-none-raised = Keine aufgenommen.
dossier-number = Nr.
dossier-finding = Befund
dossier-state = Stand
dossier-fix = Behebung
dossier-proof = Bewiesen durch Wiederholen von
dossier-stages = Abschnitte
dossier-check = Prüfung
dossier-result = Ergebnis
dossier-when = Wann
dossier-flights = Flüge und Läufe
dossier-what = Was
dossier-pack = Akku
dossier-spotter = Helfer
dossier-time = Dauer
dossier-used = Entnommen
dossier-temperatures = Temperaturen
dossier-noted = Bemerkt
dossier-logs = Aufzeichnungen
dossier-figure = Größe
dossier-value = Wert
dossier-held-against = Gehalten gegen
dossier-journal = Einträge im Journal
dossier-who = Wer
dossier-withdrawn = zurückgezogen: { $why }
dossier-released = Erteilt von { $by }, { $when }
dossier-ready = Bereit, nicht erteilt
dossier-shut = Gesperrt
dossier-recurring = Wiederkehrende Arbeit
dossier-seen-by = { $when }, gesehen von { $name }
dossier-carried = Mitgeführt: { $restriction }
dossier-flown = { $check }, { $speed }
dossier-worked-back = { $place } { $temperature } beim Aufsetzen, zurückgerechnet
dossier-read = { $place } { $temperature }
dossier-log-file = { $name }: { $rows } Zeilen gelesen, { $left_out } ausgelassen, { $faults } Fehler; SHA-256 { $sha256 }
dossier-cut-off = Dieses Blatt ist abgeschnitten: was an seinem Ende fehlt, wurde nie geschrieben.
dossier-in-the-way = Was vor dem nächsten Flug steht
dossier-carried-heading = Geflogen unter Auflage
dossier-nothing-carried = Kein Befund wird mitgeführt.
dossier-gates = Freigaben
dossier-stage = Abschnitt
dossier-gate = Freigabe
dossier-holds = Prüfungen, die gelten
dossier-figures = Größen des Modells
dossier-basis = Woher sie kommt
dossier-contents = Inhalt
dossier-how-to-check = Wie das jeder nachprüft
dossier-release-digest = Prüfwert der Freigabe, der alles umfasst, worauf sie stand:
dossier-showed = Woran er sich zeigte
dossier-ladder = Schweben: vorausgesagt und gelesen
dossier-ladder-how = Jeder Strich ist die Ladung, die vor dem Flug für die geflogene Zeit vorausgesagt war, mit ihrem Bereich von 95 %; der Ring ist, was gelesen wurde. Er ist gefüllt, wo beides zusammenpasst. Darunter steht die Kopfdrehzahl.
dossier-predicted = Vorausgesagt
dossier-what-was-read = Gelesen
dossier-settings = Einstellungen
dossier-no-settings = Keine wurde geändert.
dossier-setting = Einstellung
dossier-changed = Von und auf
dossier-why = Warum
dossier-flown-on = Damit geflogen
dossier-packs = Flugakkus
dossier-no-packs = Keiner ist beschrieben.
dossier-described = Beschrieben als
dossier-life = Leben
dossier-readings = An ihm gelesen
dossier-parts = Teile
dossier-part = Teil
dossier-last-work = Letzte Arbeit daran
dossier-fitted = Eingebaut und beschrieben
dossier-no-plot = Die Datei dieser Aufzeichnung fehlt oder ist beschädigt: sie hat kein Bild, und ihre Werte stehen, wie sie festgehalten wurden.
dossier-trends = Verlauf über das Leben
dossier-chain-heading = Die Kette, und wie man sie nachprüft
dossier-chain-how = Die Einträge stehen in dieser Datei, wie sie gespeichert sind, je eine Zeile JSON. Python 3 schreitet sie ab, auf jedem Rechner und ohne Netz: diese Zeilen als check_chain.py sichern und ‚python3 check_chain.py‘ mit dem Namen dieser Datei dahinter starten.
dossier-chain-says = Es schreibt die Zahl und den letzten Prüfwert. Sind es die von oben, so hält diese Datei in sich zusammen: kein Eintrag darin wurde geändert, ausgelassen oder eingeschoben. Sind es auch die, die das Telefon des Erbauers auf seiner Seite ‚Der Nachweis‘ zeigt, so ist es das Journal auf diesem Telefon, und nichts wurde abgeschnitten.
dossier-page = Der Nachweis
dossier-row-note = Was bewiesen ist, wie und wann, als ein Blatt für andere
dossier-for-whom = Ein Blatt für jemanden, der nicht dabei war: Käufer, Prüferin, der nächste Erbauer. Es öffnet sich in jedem Browser, druckt auf A4 und braucht kein Netz.
dossier-holds-heading = Was darin steht
dossier-check-it = Es trägt jeden Eintrag, wie er gespeichert ist, mit den Zeilen, die ihre Kette auf jedem Rechner nachprüfen. Vom Code des Piloten verlässt nichts das Telefon.
dossier-not-recorded = Das Sichern hält nichts fest: das Blatt sagt selbst, von welchen Einträgen es ist.
dossier-save = Den Nachweis sichern
dossier-file-word = nachweis
dossier-foot = { $title }. Einträge: { $count }, Prüfwert { $head }
dossier-flown-by = Geflogen von { $pilot }.
dossier-carried-line = { $number }. { $title }: { $restriction } ({ $until }; verantwortet von { $by })
dossier-holds-of = { $holds } von { $wanted }
dossier-lapsed-since = Erloschen; erteilt war sie von { $by }, { $when }
dossier-entry-number = Eintrag { $number }
dossier-alone = niemand sonst sah es: { $why }
dossier-due-from = Fällig vor Flügen ab ‚{ $stage }‘
dossier-optional = Freiwillig, nicht gemacht
dossier-renewed = Seit der Freigabe erneuert; sie stand auf { $entry }
dossier-not-for-this = nicht für dieses Modell: { $checks }
dossier-not-called-for = nur nach einem Ereignis, das nicht eingetreten ist: { $checks }
dossier-came-upon = Beim Hinsehen gefunden
dossier-to-prove = Zu beweisen durch Wiederholen von ‚{ $check }‘
dossier-proved = Bewiesen
dossier-again-caution = Wiederholt und noch immer Vorsicht
dossier-not-proved = Wiederholt und nicht in Ordnung
dossier-no-ladder = Noch kein Flug wurde vorausgesagt und gelesen.
dossier-interval = { $middle } ({ $low } bis { $high })
dossier-agrees = Stimmt überein
dossier-explained = Weicht ab, erklärt: { $why }
dossier-differs = Weicht ab
dossier-air = Luft { $air }
dossier-expected = vorausgesagt { $low } bis { $high }
dossier-past = über { $limit }
dossier-as-it-should = Wie es sein soll
dossier-not-so = Nicht so: { $why }
dossier-called-off = Abgebrochen: { $why }
dossier-mark-finding = Befund { $number }
dossier-no-work = Keine festgehalten: wie gebaut
dossier-end = Ende des Blattes: alle { $count } Einträge stehen darin.
dossier-flown-so-far =
    { $runs ->
        [one] { $runs } Motorlauf
       *[other] { $runs } Motorläufe
    }, { $time } h mit laufendem Motor. { $findings ->
        [0] Kein Befund wurde aufgenommen.
        [one] { $findings } Befund wurde aufgenommen.
       *[other] { $findings } Befunde wurden aufgenommen.
    }
dossier-stood-on =
    Sie stand auf { $count ->
        [one] { $count } Ergebnis
       *[other] { $count } Ergebnissen
    }: Einträge { $entries }.
dossier-life-line =
    { $runs ->
        [one] { $runs } Lauf
       *[other] { $runs } Läufe
    }, { $time } h mit laufendem Motor
dossier-ladder-spoken =
    { $count ->
        [one] { $count } Schwebeflug
       *[other] { $count } Schwebeflüge
    } mit vorausgesagter und gelesener Ladung; { $agree } davon stimmen überein
dossier-of-others =
    { $count ->
        [one] Ein Eintrag gehört
       *[other] { $count } Einträge gehören
    } zu anderen Modellen in diesem Journal. Die Kette läuft auch über sie, daher stehen ihre Zeilen hier; sonst ist keine Seite dieses Nachweises über sie.
dossier-kept-back =
    { $count ->
        [one] Ein Eintrag enthält
       *[other] { $count } Einträge enthalten
    } den Prüfwert des Pilotencodes. In den Zeilen ist er ausgelassen, damit niemand den Code daraus errät; die Kette läuft über den Prüfwert des Eintrags weiter.
dossier-holds-entries =
    { $count ->
        [one] { $count } Eintrag, in Worten und wie gespeichert
       *[other] { $count } Einträge, in Worten und wie gespeichert
    }
dossier-holds-runs =
    { $count ->
        [0] Noch kein Flug oder Lauf
        [one] { $count } Flug oder Lauf
       *[other] { $count } Flüge und Läufe
    }
dossier-holds-findings =
    { $count ->
        [0] Kein Befund
        [one] { $count } Befund, mit dem, was ihn zeigte und bewies
       *[other] { $count } Befunde, mit dem, was sie zeigte und bewies
    }
dossier-holds-logs =
    { $count ->
        [0] Keine Aufzeichnung
        [one] { $count } Aufzeichnung, mit ihrem Bild
       *[other] { $count } Aufzeichnungen, mit ihren Bildern
    }
dossier-head-of =
    { $count ->
        [one] { $count } Eintrag; der letzte Prüfwert seiner Kette
       *[other] { $count } Einträge; der letzte Prüfwert ihrer Kette
    }
dossier-photos-how = Die Fotos sind kleine Kopien; die Dateien stehen in der Sicherung, wie sie kamen, jede unter ihrer Prüfsumme
dossier-no-photo = Dieses Foto lässt sich nicht zeigen; vielleicht ist seine Datei in der Sicherung
dossier-photo-file = { $name }, { $bytes } Bytes, SHA-256 { $sha256 }
