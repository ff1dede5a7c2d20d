# Fotos als Nachweis.

photo-heading = Fotos
photo-number = Foto { $number }, { $when }
photo-title = Foto { $number }
photo-take = Foto aufnehmen
photo-add = Foto anhängen
photo-attached = Foto angehängt: { $of }
photo-of-aircraft = Der Hubschrauber
photo-size = { $width } × { $height } Bildpunkte, { $megabytes } MB
photo-spoken = Foto: { $of }
photo-look = Das Foto ansehen
photo-recorded = Angehängt { $when }
photo-taken = Aufgenommen { $day }, { $time }, nach der Uhr der Kamera
photo-digest = SHA-256 der Datei, wie sie kam
photo-kept = Die Datei wird Byte für Byte behalten und kommt in jede Sicherung. Das Dossier trägt eine kleine Kopie. Widerrufen zählt es nicht mehr und wird trotzdem behalten.
photo-save = Das Foto sichern, wie es kam
photo-file-word = foto-{ $number }
photo-gone = Die Datei des Fotos ist nicht mehr hier oder nicht mehr die angehängte. Vielleicht hat sie eine Sicherung.
photo-unreadable = Das Foto ist behalten, wie es kam, lässt sich hier aber nicht zeigen.
photo-not-jpeg = { $name } ist keine JPEG-Datei. Kameras schreiben sie als „maximal kompatibel“: stell das in der Kamera ein oder sichere das Bild erst als JPEG.
photo-too-long = { $name } ist länger als { $most } MB: sichere es erst kleiner.
photo-too-many-pixels = { $name } hat { $count } Millionen Bildpunkte: sichere es erst kleiner.
photo-broken = { $name } lässt sich nicht lesen: vielleicht kam es abgeschnitten. Nimm es neu auf oder wähle ein anderes.
