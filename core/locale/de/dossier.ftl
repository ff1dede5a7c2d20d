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
dossier-grade = Stufe
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
dossier-lapsed = Erloschen
dossier-recurring = Wiederkehrende Arbeit
dossier-seen-by = { $when }, gesehen von { $name }
dossier-carried = Mitgeführt: { $restriction }
dossier-flown = { $check }, { $speed }
dossier-worked-back = { $place } { $temperature } beim Aufsetzen, zurückgerechnet
dossier-read = { $place } { $temperature }
dossier-log-file = { $name }: { $rows } Zeilen gelesen, { $left_out } ausgelassen, { $faults } Fehler; SHA-256 { $sha256 }
