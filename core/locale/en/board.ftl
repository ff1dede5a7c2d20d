# What stands before the next flight.
board-stages = Stages
board-this-phone = This phone
board-no-flight-wanted = None of the plan's flights is mandatory for { $name }: no gate asks for one.
board-no-flight = The plan holds no flight for { $name }.
board-nothing-stands = Nothing stands between { $name } and { $flight }.
board-pilot-decides = The pilot decides, every time.
board-things-stand =
    { $count ->
        [one] { $count } thing stands
       *[other] { $count } things stand
    } between { $name } and { $flight }.
board-things-stand-at-least =
    { $count ->
        [one] At least { $count } thing stands
       *[other] At least { $count } things stand
    } between { $name } and { $flight }.
board-fly-again = To fly again: { $why }
board-flight-at = '{ $title }' at { $rpm } rpm
board-flight = '{ $title }'
board-landing-of = Landing of { $check }
board-to-jot-down = To jot down
board-in-the-way = In the way, in this order
board-more = and { $rest } more after these
board-to-answer = To answer
board-to-enter = To enter
board-out-of-order = Out of order
board-carried-too-long = Carried too long
finding-word = Finding
board-prove = Prove it: { $check }
gate-shut = Shut
gate-ready = Ready
gate-released = Released
gate-lapsed = Lapsed
gate-recurring = Recurring
board-checks-hold = { $holds } of { $wanted } checks hold
board-again-detail = Their evidence holds again. See each, then decide once
board-again =
    { $count ->
        [one] { $count } gate
       *[other] { $count } gates
    } to release again
events-title = Something happened
board-due-soon = Due soon
board-soon = Soon
papers-none = None is written down: of none it is told before it ends.
papers-good = Good
papers-over = Over
papers-no-end = Without an end
papers-today = Today is its last day
papers-last-day = Its last day is { $day }
papers-last-day-was = Its last day was { $day }
papers-ends =
    { $days ->
        [one] Its last day is { $day }: tomorrow
       *[other] Its last day is { $day }, in { $days } days
    }
board-carried-finding = { $title }, { $carried }
board-flown-with = Flown with
board-last-recorded = Last recorded
board-nothing-changed = Nothing else changed by it
board-last-recorded-spoken = Last recorded: { $what }
board-jot-landing = Jot down the landing
findings-title = Findings
aircraft-title = Aircraft
journal-title = Journal
board-none-open = none open
board-open = { $open } open
board-flight-due =
    { $flight }, { $count ->
        [one] { $count } check is
       *[other] { $count } checks are
    } due
board-draw-card = Draw up the card
board-answer = Answer
board-enter = Enter
board-correct = Correct
board-do = Do
board-prove-fix = Prove the fix
board-see-to = See to
board-decide = Decide
release-none = No lapsed gate can be released now: see the board for what is in the way.
release-title = Gates to release again
release-intro = What these gates stand on holds again. Read what took the ground from each and what renewed it. Each is its own decision and its own entry in the journal.
release-gates =
    Release { $count ->
        [one] { $count } gate
       *[other] { $count } gates
    }
release-pilot-decides = The pilot decides
release-lapsed-over = Lapsed over
release-own-checks = Its own checks
release-all-hold = All hold as they were
release-done-anew = Done anew
blocker-no-pack = A pack that may be flown
clock-is-behind = The phone's clock is behind the last entry
clock-set-it = Set the phone's clock. Until then nothing is released
clock-behind-how = It shows { $now }; an entry was made at { $last } already. Set the phone's clock. Until then nothing is released, and after a restart of the phone nothing that holds for days counts. Where the clock is right, an entry was made while it was ahead: withdraw that entry in the journal
