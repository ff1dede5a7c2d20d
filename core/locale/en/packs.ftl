# Packs.
packs-order = The charged pack that has rested longest stands first, here and on the card.
packs-title = Packs
packs-charged = Charged
packs-charged-spoken = { $pack }: charged
packs-put-back = { $pack }: put back, if you read it
packs-unknown = Charge not known
packs-flown = Flown, not charged since
packs-charged-at = charged { $when },{ " " }
packs-flown-at =
    { $charged }flown { $when }, { $count ->
        [one] { $count } motor run
       *[other] { $count } motor runs
    }
packs-not-flown = { $charged }not flown yet
packs-how-many = { $charged } of { $count } charged
