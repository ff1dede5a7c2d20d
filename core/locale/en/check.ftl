# Checks, stages and gates.
check-goes-by = What it goes by
check-why = Why
check-judged = How it is judged: { $judged }
check-basis = Basis: { $basis }
check-recorded-with = { $detail }. Recorded { $when }
check-recorded = Recorded { $when }
check-alone = { "." } Nobody came to see it: { $why }
common-raise-finding = Raise a finding
check-step-spoken = { $check }: { $word } { $by } { $unit }
check-reading = Reading
check-less-by = Less by
check-more-by = More by
check-last-time = Last time { $last }
check-starts-from = Starts from { $start }, which is no reading: touch once more to move it, or enter what you read
check-between = Between { $low } and { $high }
check-below = Below
common-caution = Caution
check-above = Above
check-limit-waits = The limit waits for it
check-record-value = Record { $value }
check-record = Record
check-enter-first = Enter the reading first
check-record-result = Record this result
check-keep-result = Keep this result
check-another-day = Another day
check-go-there = Go there
check-enter-it = Enter it
check-cannot-compute = Cannot compute yet
check-charge-range = { $used } mAh used, { $low } to { $high } mAh predicted from { $from }
check-why-differs = Why it differs
check-record-explanation = Record the explanation
check-complete-landing = Complete the landing
check-in-the-way = In the way
check-things-in-the-way =
    { $count ->
        [one] { $count } thing is
       *[other] { $count } things are
    } in the way
check-second-person = Second person
check-witness = Second person's name
check-why-alone = Or why nobody came
check-witness-point = A witness point: the work goes on without a second person, with caution.
common-remark = Remark
common-before = Before
check-times =
    { $count ->
        [one] { $count } time
       *[other] { $count } times
    }
check-seen-by = , seen by { $witness }
check-rests-on = Rests on: { $subjects }.{ " " }
check-holds-day = the day
common-motor-runs =
    { $count ->
        [one] { $count } motor run
       *[other] { $count } motor runs
    }
check-holds-hours = { $hours } h with the motor on
check-holds-days =
    { $days ->
        [one] { $days } day
       *[other] { $days } days
    }
check-ends-with = { " " }Ends with: { $events }.
check-holds-unchanged = Holds until something it rests on changes.{ $until }
check-holds-for-one = Holds for { $limit }.{ $until }
check-holds-for = Holds for { $limits }, whichever ends first.{ $until }
stage-part = { $name }, part { $part } of 10
stage-checks = Checks
stage-fly-hint = { $rpm } rpm, { $minutes } min
stage-gate = Gate
stage-released-by = Released by { $by }, { $day }
stage-lapsed-over = Lapsed over: { $why }
stage-way-back = The way back
stage-way-count =
    { $count ->
        [one] { $count } check
       *[other] { $count } checks
    }
stage-release = Release { $stage }
stage-read-cautions =
    { $count ->
        [one] Read { $count } caution, then release
       *[other] Read { $count } cautions, then release
    }
cautions-title = Before the release
cautions-stands-on = It stands on these cautions
cautions-none = No caution is under it any more.
cautions-found = { $found }{ $alone }. Judged: { $judged }
stage-next-check = Next check
check-read-on = It is read on a run: { $run }. Draw up its card, land, then come back here.
check-to-its-run = To its run
lists-complete = All described
lists-to-declare = To declare
lists-idle = Carries nothing
lists-idle-asked = 0 A: is that so? Enter what it carries, or say that it is so
lists-declare = That is all: { $what }
lists-declare-idle =
    That is all: { $what }, { $idle ->
        [one] { $idle } of them carries nothing
       *[other] { $idle } of them carry nothing
    }
lists-counted = { $list } ({ $count })
lists-judged = { "." } Listed: { $lists }
check-does-not-agree = Does not agree
