# Was länger dauert als eine Berührung: eine Datei, die hereinkommt, eine Aufzeichnung, die gelesen wird.
reading-takes-in = Die Datei kommt herein
reading-reads = Aufzeichnung wird gelesen
reading-stop = Anhalten
reading-writes = Dokument wird geschrieben
reading-written = { $written } MB geschrieben
reading-leaving-stopped = Wer anhält, lässt kein Dokument zurück. Was festgehalten ist, bleibt, wie es ist.
reading-back-spoken = Zurück. Hält es an
reading-nothing-recorded = Noch ist nichts festgehalten. Wer anhält, lässt alles, wie es war.
reading-stop-plot = Kein Bild zeichnen
reading-plot = Für ihr Bild lesen
reading-plot-note = Angehalten; die Werte unten sind vollständig
reading-size = { $done } von { $of } MB
reading-rows =
    { $rows ->
        [one] eine Zeile
       *[other] { $rows } Zeilen
    }
reading-unpacks = Geprüft
