# Packs.
packs-order = The charged pack that has rested longest stands first, here and on the card.
packs-title = Packs
packs-charged = Charged
packs-charged-spoken = { $pack }: charged
packs-put-back = { $pack }: put back, if you read it
packs-unknown = Charge not known
packs-flown = Flown, not charged since
packs-read-full = Cells read full, lowest { $low } V
packs-read-low = Cells read, not full: lowest { $low } V
packs-too-high = Over full: a cell of { $high } V
packs-not-all-back = Charged, { $short } of what went out not put back
packs-lowest-cell = { $pack }: lowest cell at rest
packs-highest-cell = { $pack }: highest cell at rest
packs-cells-read = Cells read
packs-cells-read-spoken = { $pack }: cells read
packs-retired = Retired: { $state }
packs-retired-how = It is flown and charged no more. Take it to where it can burn without harm, and discharge it as its maker says. When it is gone, say so on its page.
packs-damaged = { $pack }: damaged, and retired at once
packs-wants-storage =
    { $days ->
        [one] It has stood for { $days } day, and that wears it: bring it to storage charge, { $low } to { $high } V a cell (common practice, no source)
       *[other] It has stood for { $days } days, and that wears it: bring it to storage charge, { $low } to { $high } V a cell (common practice, no source)
    }
packs-stood =
    { $days ->
        [one] { $pack } after { $days } day
       *[other] { $pack } after { $days } days
    }
packs-not-stored = Not at storage charge: { $packs }
pack-state-storage = At storage
pack-state-swollen = Swollen
pack-state-dented = Dented or cut
pack-state-wet = Was wet
pack-state-crashed = Was in a crash
packs-charged-at = charged { $when },{ " " }
packs-flown-at =
    { $charged }flown { $when }, { $count ->
        [one] { $count } motor run
       *[other] { $count } motor runs
    }
packs-not-flown = { $charged }not flown yet
packs-how-many = { $charged } of { $count } charged
