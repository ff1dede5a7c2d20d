# The aircraft: figures, things, settings, changes.
aircraft-built-by = built by { $builder }
aircraft-built-and-flown-by = built by { $builder }, flown by { $pilot }
aircraft-not-named = not named yet
aircraft-kind = What kind of aircraft
aircraft-figures = Figures
aircraft-settings = Settings
aircraft-changes =
    { $count ->
        [one] { $count } change
       *[other] { $count } changes
    }, with reason and flights
aircraft-plan = Plan
aircraft-edition = edition { $edition }
aircraft-record-change = Record a change
aircraft-known = Known
aircraft-must-lie-above = { $detail }. It must lie above: { $below }
aircraft-if-it-has = If it has one
aircraft-add = Add a { $kind }
aircraft-one-more-like = One more like { $name }
aircraft-went-in = What went in
aircraft-on = on { $supply }
aircraft-name = The aircraft's name
aircraft-builder-name = Builder's name
aircraft-pilot-name = Pilot's name, if another person flies
aircraft-pilot-name-note = The pilot's name stands under every gate that is released. The names stay on this phone.
aircraft-record-names = Record the names
aircraft-names = Names
aircraft-answer-decides = The answer decides which checks there are.
aircraft-basis = Where it comes from
aircraft-why-changes = Why it changes
aircraft-not-entered-yet = not entered yet
aircraft-above = Must lie above
aircraft-rests = These checks rest on it: { $checks }.
aircraft-record = Record it
aircraft-derived = Other figures on file give this value. Count or measure it all the same, and correct it where it is not so
aircraft-record-as = Record it: { $basis }
aircraft-thing-name = Name
aircraft-last-day = Last day, if it has an end
aircraft-last-day-how = As 2027-06-30 or 30.6.2027
aircraft-paper-note = Its number, and where it is kept
aircraft-paper-told = The board tells of it 30 days before it ends. After its last day the check that rests on the papers holds no more.
aircraft-stir-servos = Stir all servos together, unloaded, and read the highest current that this supply gives.
aircraft-was-on-it = It was there before
aircraft-new-on-it = It is new
aircraft-only-written-wrong = Only written down wrong
aircraft-changed-on-it = Changed on the aircraft
aircraft-never-on-it = Never was there
aircraft-taken-off = Taken off
aircraft-will-not-come = It will not come
aircraft-fitted-now = It is fitted now
aircraft-keeps = What was proved stands
aircraft-sends-back =
    { $count ->
        [one] { $count } check is to be done again
       *[other] { $count } checks are to be done again
    }
aircraft-gone = It is gone
aircraft-if-gone = If it is gone: finding { $number }, { $title }
aircraft-instead = What took its place, or why nothing has to
aircraft-new = New { $kind }
aircraft-first = The { $kind } first
aircraft-fly-first = { $others }. Fly that first: one change a flight.
aircraft-waits = Something else waits to be flown
aircraft-now = Now
aircraft-new-value = New value
aircraft-why = Why
aircraft-goes-stale = Evidence that rests on what was touched goes stale and is asked for again.
aircraft-record-the-change = Record the change
aircraft-change = A change
aircraft-find = Find a figure, a part, a setting
aircraft-found-nothing = Nothing here has these words. Fewer letters find more.
