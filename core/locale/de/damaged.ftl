# Aufzeichnungen, deren Datei beschädigt ist.
damaged-title = Die Datei ist beschädigt
damaged-verdict = Die Datei mit allem, was festgehalten ist, ist beschädigt. Nichts davon wird weggeworfen.
damaged-or-newer = Diese Aufzeichnung stammt von einem neueren Liftgate, oder ihre Datei ist beschädigt. Bringe zuerst die App auf den neuen Stand.
damaged-counts =
    { $legible ->
        [0] Kein Eintrag lässt sich lesen.
        [one] { $legible } Eintrag lässt sich lesen und stimmt mit seiner Prüfsumme überein.
       *[other] { $legible } Einträge lassen sich lesen und stimmen mit ihrer Prüfsumme überein.
    } { $missing ->
        [0] {""}
        [one] { $missing } Eintrag nicht.
       *[other] { $missing } Einträge nicht.
    }
damaged-why = Was gefunden wurde
damaged-missing = Fehlt
damaged-entry = Eintrag { $first }
damaged-entries = Einträge { $first } bis { $last }
damaged-more = und { $rest } weitere Stellen
damaged-last = Ob nach dem letzten lesbaren noch Einträge kamen, weiß niemand
damaged-then = Wenn du weitermachst
damaged-set-aside = Die beschädigte Datei wird beiseitegelegt, wie sie ist, Byte für Byte, und lässt sich von der Seite der Sicherung aus speichern.
damaged-gates = Es geht weiter mit jedem Eintrag, der sich lesen lässt. Was fehlt, behält seinen Platz. Freigaben, die davor erteilt wurden, sind neu zu erteilen: sieh dir jede vorher an.
damaged-backup = Hast du eine Sicherung, lies sie danach ein: was fehlt, kommt mit ihr zurück.
damaged-newer = War ein neueres Liftgate auf diesem Telefon, bringe stattdessen die App auf den neuen Stand.
damaged-go-on = Mit dem weitermachen, was lesbar ist
damaged-repaired = Es geht weiter. Die beschädigte Datei ist als Nummer { $number } beiseitegelegt.
damaged-first = Die Datei ist beschädigt: mache zuerst mit dem weiter, was lesbar ist.
