# The aircraft of one journal, and what they share.
hangar-title = Hangar
hangar-intro = Each aircraft has its own stages and proofs. Packs, the code and the emergency page are the same for all.
hangar-aircraft =
    { $count ->
        [one] 1 aircraft
       *[other] { $count } aircraft
    }
hangar-in-the-way =
    { $count ->
        [0] Nothing in the way
        [one] 1 in the way
       *[other] { $count } in the way
    }
hangar-line = { $sentence } First: { $next }
hangar-begin = Another aircraft
hangar-shares = Shares packs, code and this phone; proves everything itself
hangar-new-intro = It begins with nothing proved, under the plan that is in force here. What you record from then on is of the aircraft in view.
hangar-begin-it = Begin it
hangar-packs = Packs of the other aircraft
hangar-pack-elsewhere = To take over
hangar-packs-to-take-over = { $count } to take over
hangar-packs-note = A pack that two aircraft fly is one pack: charges, flights and readings count for both. Take one over only if its cells, plug and mass fit.
