# Akkus.
packs-order = Der geladene Akku mit der längsten Ruhe steht zuerst, hier und auf der Karte.
packs-title = Akkus
packs-charged = Geladen
packs-charged-spoken = { $pack }: geladen
packs-put-back = { $pack }: eingeladen, falls abgelesen
packs-unknown = Ladung unbekannt
packs-flown = Geflogen, seither nicht geladen
packs-charged-at = geladen { $when },{" "}
packs-flown-at =
    { $charged }geflogen { $when }, { $count ->
        [one] { $count } Motorlauf
       *[other] { $count } Motorläufe
    }
packs-not-flown = { $charged }noch nicht geflogen
packs-how-many = { $charged } von { $count } geladen
