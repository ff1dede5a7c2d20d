# Akkus.
packs-order = Der geladene Akku mit der längsten Ruhe steht zuerst, hier und auf der Karte.
packs-title = Akkus
packs-charged = Geladen
packs-charged-spoken = { $pack }: geladen
packs-put-back = { $pack }: eingeladen, falls abgelesen
packs-unknown = Ladung unbekannt
packs-flown = Geflogen, seither nicht geladen
packs-read-full = Zellen voll gemessen, niedrigste { $low } V
packs-read-low = Zellen gemessen, nicht voll: niedrigste { $low } V
packs-too-high = Überladen: eine Zelle mit { $high } V
packs-not-all-back = Geladen, { $short } vom Entnommenen fehlen
packs-lowest-cell = { $pack }: niedrigste Zelle in Ruhe
packs-highest-cell = { $pack }: höchste Zelle in Ruhe
packs-cells-read = Zellen gemessen
packs-cells-read-spoken = { $pack }: Zellen gemessen
packs-retired = Ausgemustert: { $state }
packs-retired-how = Er wird nicht mehr geflogen und nicht mehr geladen. An einen Ort bringen, an dem er brennen kann, ohne zu schaden, und entladen, wie sein Hersteller es sagt. Ist er weg, auf seiner Seite eintragen.
packs-damaged = { $pack }: beschädigt, und sofort ausgemustert
packs-wants-storage =
    { $days ->
        [one] Er steht seit { $days } Tag, und das nutzt ihn ab: auf Lagerladung bringen, { $low } bis { $high } V je Zelle (übliche Praxis, ohne Quelle)
       *[other] Er steht seit { $days } Tagen, und das nutzt ihn ab: auf Lagerladung bringen, { $low } bis { $high } V je Zelle (übliche Praxis, ohne Quelle)
    }
packs-stood =
    { $days ->
        [one] { $pack } nach { $days } Tag
       *[other] { $pack } nach { $days } Tagen
    }
packs-not-stored = Nicht auf Lagerladung: { $packs }
pack-state-storage = Auf Lagerladung
pack-state-swollen = Aufgebläht
pack-state-dented = Eingedellt oder aufgeschnitten
pack-state-wet = War nass
pack-state-crashed = War in einem Absturz
packs-charged-at = geladen { $when },{" "}
packs-flown-at =
    { $charged }geflogen { $when }, { $count ->
        [one] { $count } Motorlauf
       *[other] { $count } Motorläufe
    }
packs-not-flown = { $charged }noch nicht geflogen
packs-how-many = { $charged } von { $count } geladen
