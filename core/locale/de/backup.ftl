# Die Sicherung: gemacht, eingelesen, und was beiseitegelegt ist.
backup-title = Sicherung
backup-what = Eine Sicherung ist eine einzige Datei mit allem, was festgehalten ist: jeder Eintrag, und jeder Log, wie er kam. Bewahre sie dort auf, wo dieses Telefon nicht ist. Sie bringt alles zurück, auf dieses Telefon oder ein anderes, und jeder kann sie ohne Liftgate lesen.
backup-holds-code = Behalte sie für dich
backup-holds-code-how = Wer die Datei hat, kann alles darin lesen und den Code des Piloten herausfinden. Um zu zeigen, was bewiesen ist, speichere den Nachweis.
backup-save = Sicherung speichern
backup-bring-in = Sicherung einlesen
backup-file-word = sicherung
backup-none = Noch keine Sicherung gemacht.
backup-none-note = Noch keine. Eine von einem anderen Telefon wird hier eingelesen
backup-last = Letzte Sicherung: { $when }.
backup-not-in-it =
    { $entries ->
        [0] Alles, was festgehalten ist, steht darin.
        [one] { $entries } Eintrag steht in keiner, darunter { $runs ->
            [0] kein Motorlauf
            [one] { $runs } Motorlauf
           *[other] { $runs } Motorläufe
        }.
       *[other] { $entries } Einträge stehen in keiner, darunter { $runs ->
            [0] kein Motorlauf
            [one] { $runs } Motorlauf
           *[other] { $runs } Motorläufe
        }.
    }
backup-asks =
    { $runs ->
        [one] { $runs } Motorlauf steht in keiner Sicherung
       *[other] { $runs } Motorläufe stehen in keiner Sicherung
    }
backup-holds-all = { $last } Alles steht darin
backup-since =
    { $last } { $entries ->
        [one] { $entries } Eintrag seither
       *[other] { $entries } Einträge seither
    }
backup-file-named = { $name }, ausgewählt
backup-refused = Diese Datei lässt sich nicht einlesen.
backup-nothing-changed = Auf diesem Telefon wurde nichts geändert.
backup-was-checked = Jeder Eintrag und jede Datei darin wurde mit ihrer Prüfsumme verglichen.
backup-compared-new = Auf diesem Telefon ist noch nichts festgehalten: hier geht es mit der Sicherung weiter.
backup-compared-same = Die Sicherung enthält, was dieses Telefon enthält.
backup-compared-ahead = Die Sicherung enthält alles von diesem Telefon, und mehr.
backup-compared-behind = Die Sicherung ist älter als das, was auf diesem Telefon ist.
backup-compared-other = Die Sicherung ist eine andere: sie hat mit diesem Telefon nichts gemeinsam.
backup-compared-forked =
    Die Sicherung und dieses Telefon stimmen in { $common ->
        [one] dem ersten Eintrag
       *[other] den ersten { $common } Einträgen
    } überein und gehen von da an verschiedene Wege.
backup-in-file = In der Datei
backup-on-phone = Auf diesem Telefon
backup-holds =
    { $entries ->
        [one] { $entries } Eintrag
       *[other] { $entries } Einträge
    }
backup-holds-until =
    { $entries ->
        [one] { $entries } Eintrag
       *[other] { $entries } Einträge
    }, der letzte von { $last }
backup-gained = Gewonnen
backup-entries-gained =
    { $entries ->
        [one] { $entries } Eintrag, den dieses Telefon nicht hat
       *[other] { $entries } Einträge, die dieses Telefon nicht hat
    }
backup-lost = Verloren
backup-entries-lost =
    { $entries ->
        [one] { $entries } Eintrag, der nur auf diesem Telefon ist
       *[other] { $entries } Einträge, die nur auf diesem Telefon sind
    }
backup-lost-from = Ab { $from }
backup-left-out = Ausgelassen
backup-logs-left-out =
    { $logs ->
        [one] { $logs } Aufzeichnung eines Flugs, die beschädigt war, bevor diese Sicherung gemacht wurde
       *[other] { $logs } Aufzeichnungen von Flügen, die beschädigt waren, bevor diese Sicherung gemacht wurde
    }
backup-logs-left-out-why = Die Einträge, die sie anhängen, sind da. Eine ältere Sicherung enthält sie vielleicht noch ganz.
backup-old-is-kept = Was jetzt hier ist, wird auf diesem Telefon beiseitegelegt und bleibt dort, bis du es hergibst.
backup-lay-in = Mit der Sicherung weitermachen
backup-is-same = Es steht nichts darin, was nicht hier ist.
backup-laid-in =
    { $entries ->
        [one] Die Sicherung ist eingesetzt: { $entries } Eintrag. Was vorher hier war, ist beiseitegelegt.
       *[other] Die Sicherung ist eingesetzt: { $entries } Einträge. Was vorher hier war, ist beiseitegelegt.
    }
backup-set-aside = Auf diesem Telefon beiseitegelegt
backup-aside-title = Beiseitegelegt
backup-aside-named = Beiseitegelegt: Nummer { $number }
backup-megabytes = { $megabytes } MB
backup-aside-what = Eine andere Aufzeichnung hat den Platz dieser hier eingenommen. Sie ist, wie sie war, Byte für Byte. Speichere sie, um sie an einem Rechner ansehen zu lassen, oder vergleiche sie mit dem, was jetzt auf dem Telefon ist: sie kann ihren Platz wieder einnehmen.
backup-aside-file-word = beiseite-{ $number }
backup-save-aside = So speichern, wie sie ist
backup-save-aside-log = Das Protokoll daneben speichern
backup-compare = Vergleichen und zurückholen
backup-let-go = Für immer hergeben
backup-let-go-caution = Was hergegeben ist, kommt nicht zurück.
backup-gone-for-good = Nummer { $number } ist weg.
backup-no-container = Das ist keine Sicherung, oder nur ein Teil davon: der Behälter (ZIP) lässt sich nicht öffnen. Hole die Datei noch einmal von dort, wo sie liegt.
backup-not-ours = Das ist keine Sicherung von Liftgate: ‚{ $file }‘ fehlt darin oder ist etwas anderes. Wähle eine andere Datei.
backup-newer = Diese Sicherung stammt von einem neueren Liftgate. Bringe die App auf den neuen Stand und lies sie dann noch einmal ein.
backup-damaged = Diese Sicherung ist beschädigt: ‚{ $file }‘ ist nicht, was die Prüfsumme sagt. Nimm eine ältere, oder hole diese noch einmal von dort, wo sie liegt.
backup-damaged-line = Diese Sicherung ist beschädigt: Zeile { $line } von ‚{ $file }‘ ist nicht, was die Prüfsumme sagt. Nimm eine ältere, oder hole diese noch einmal von dort, wo sie liegt.
backup-too-much = Diese Datei soll das Telefon füllen: ‚{ $file }‘ enthält mehr als jede Aufzeichnung. Nichts davon wurde behalten.
backup-storage = Der Speicher des Telefons sagt: { $words }. Auf diesem Telefon wurde nichts geändert. Schaffe Platz und versuche es noch einmal.
