# The flight card.
card-tests = This flight tests { $count } changes at once
card-call-off = Call it off at
card-limits = Limits at landing
card-caution-above = { $expected }Caution above { $limit }. { $basis }
common-stop = Stop
card-above = { $place } above { $limit }
card-to = { " " }to { $name }
card-hand-over = Hand over{ $to }
card-expected = Expected { $middle }, { $low } to { $high }.{ " " }
card-settled = { $pack }, { $minutes } min{ $air }
card-head-speed = Head speed
card-not-entered = not entered
card-carried = Carried: { $finding }
card-due = Due before this flight
card-cautions-where = How to look, and why, is on the page of each check.
check-seen-right = Seen, and right
card-seen-right-spoken = { $check }: seen, and right
common-last = last
card-pack-and-air = Pack and air
common-to-enter = To enter
packs-none = No pack described yet
card-pack = Pack
card-not-charged = No charge was written down since it was flown
card-planned = Planned time, motor on
card-air = Air temperature
card-spotter-name = Spotter's name
card-spotter-name-if = Spotter's name, if not flying alone
card-spotter = Spotter
card-reserve = with { $percent } % left, at { $current } A, { $from }
card-reserve-over = { "." } Planned are { $minutes } min: that eats into the reserve
card-reserve-allows = The pack's reserve allows
card-too-short = A shorter run than the { $wanted } that this check wants is no evidence for it
card-pack-too-small = The reserve leaves less than the { $wanted } that this check wants: a larger pack, or a plan of your own with minutes that fit
card-air-spoken = Air { $air }
card-air-last = Air, as last time
common-step-spoken = { $label }: { $word } by { $by } { $unit }
common-less = less
common-more = more
common-starts-from = starts from { $start }
card-no-prediction = Nothing to predict the charge from yet: the figures of rotor, mass and pack are missing.
card-charge = Charge it should use
card-charge-range = { $low } to { $high } mAh, from { $from }
card-landing-after = Landing after { $time }, { $pack }
card-landing-add = Add a reading, the charge used or a note
card-last-flight = Last flight
card-due-first =
    { $count ->
        [one] { $count } thing is
       *[other] { $count } things are
    } due first
card-choose-pack = Choose the pack first
card-enter-air = Enter the air temperature first
card-enter-spotter = Enter the spotter's name first
card-bench = On the bench
card-bench-how = All blades off, tied down, nobody in line with what turns. This card is for no flight.
