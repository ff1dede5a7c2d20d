# Logs and their plots.
log-lies-above = above
log-lies-below = below
log-proposal-cause = : { $cause }?
log-proposal = { $what } { $way } its prediction at { $speed } rpm{ $cause }
log-flown-in = { $speed } rpm in { $air }
log-predicted-and-read = Predicted and read
log-as-predicted = As predicted
log-above = Above
log-below = Below
log-speed-read = { $measured } { $unit } read; { $predicted } set, { $low } to { $high } is near it
log-value-read = { $measured } { $unit } read; { $predicted } predicted, { $low } to { $high }
log-what-charge = Charge
log-what-power = Power in hover
log-what-current = Current in hover
log-what-voltage = Voltage under load
log-what-head-speed = Head speed
log-why = Why it may be
log-why-note = what the figures support, likeliest first
log-nothing-explains = Nothing that was read explains it. Wind, the meter and the hand on the sticks leave no trace here.
log-raised = Raised
log-make-finding = Make it a finding
log-make-finding-of = Make it a finding: { $title }
log-may-leave = You may leave it: nothing is recorded then, and this stays here. One honest reading in twenty lies outside.
log-cause-drag = drag in the drive
log-cause-speed = wrong ratio or head speed
log-cause-pack = tired pack
log-cause-little-air = too little air
log-cause-hot-air = hot air
log-percent = { $share } %
log-drag-words = { $more } more than predicted at the head speed that was read. Turn the drive by hand: belt, bearings, gear mesh, blade tracking
log-faster = faster
log-slower = slower
log-explains-little = that explains little of the rest
log-explains = that explains { $share } of it
log-speed-words = { $off } { $way } than set; { $share }. Check the ratio, the pole pairs and the governor's setting
log-pack-ratio = at least { $ratio } of its resistance when new
log-pack-extra = { $extra } more current for the same power
log-pack-words = { $words }. Read the pack's resistance, and fly it warm and full
log-little-air-words = { $part } rose { $rose } of what was predicted, at no more power. Look for a blocked inlet, a fan, a loose heat sink
log-hot-air-words = { $above } above any air flown in before: the prediction reaches beyond what was flown
log-next-detail = { $speed } rpm: { $middle } A, { $low } to { $high }, { $from }
log-next-with =
    from { $hovers ->
        [one] { $hovers } hover
       *[other] { $hovers } hovers
    } with this one in it
log-next-without =
    { $hovers ->
        [0] from the figures alone
        [one] from { $hovers } hover
       *[other] from { $hovers } hovers
    } without this one: what was explained or became a finding is left out
log-next = Next: { $check }
log-too-little = Too little was read so far to see a drift.
log-nothing-drifted = Nothing has drifted.
log-nothing-drifted-of =
    { $tested ->
        [one] Nothing has drifted of { $tested } figure; { $few } too few to tell.
       *[other] Nothing has drifted of { $tested } figures; { $few } too few to tell.
    }
log-drifted =
    { $count ->
        [one] { $count } figure has
       *[other] { $count } figures have
    } drifted.
log-tested =
    { $count ->
        [one] { $count } figure
       *[other] { $count } figures
    } with { $fewest } readings or more
log-last-of-each = the last reading of each
log-read-once = read once so far
log-also-read = Also read
log-drift-method = A step and a slope in the means of days by generalised least squares, with a memory from day to day and a season that nobody knows beforehand (after Johnson and Bagshaw 1974): at most five in a hundred that something is told to drift that does not, over a hundred readings. It wants readings taken in the same way: a pack as warm and as full, the same test point. Hover power is brought to standard air at sea level, heat is told above the air of its day. Resistances read by hand have no day: a season shows in them as a drift.
log-trends = Trends
log-pack-resistance = { $pack }, resistance
log-as-read = as read
log-leads-resistance = { $pack } and leads, resistance
log-by-the-logs = by the logs
log-above-air = { $place }, above the air
log-hover-power = Hover power in standard air
log-shakes = Shakes and sounds noted
log-each-minute = for each minute flown
log-last-of =
    Last of { $count ->
        [one] { $count } reading
       *[other] { $count } readings
    }, { $least } to { $greatest }
log-no-drift = no drift
log-cannot-tell = too few to tell
log-before-drift =
    { $count ->
        [one] { $count } reading more
       *[other] { $count } readings more
    } before a drift can be told
log-drifted-by = drifted: { $change }{ $width } { $unit } since { $since }
log-flights = { $flights } flights
log-trends-note = what drifts, flight by flight
log-trends-row = Trends over its life
log-at = At { $time }
log-from-to = { $from } to { $to }
log-plot-spoken = Plot. { $spoken }
log-range-spoken = { $from } to { $to }: { $ranges }
log-least-greatest = { $least } to { $greatest }
log-limit-stop = stop { $value } { $unit }
log-limit-caution = caution { $value } { $unit }
log-limit = limit { $value } { $unit }
log-limit-set = set { $rpm } { $unit }
log-no-values = no values here
log-limit-above = above: { $limit }
log-limit-below = below: { $limit }
log-closer = Closer
log-closer-spoken = Plot: half the time
log-wider = Wider
log-wider-spoken = Plot: twice the time
log-all-in-view = All of it is in view
log-earlier = Earlier
log-earlier-spoken = Plot: half a window back
log-later = Later
log-later-spoken = Plot: half a window on
log-whole = All of it
log-whole-spoken = Plot: the whole log
log-cursor-back = Cursor back
log-cursor-back-spoken = Cursor a step back
log-cursor-on = Cursor on
log-cursor-on-spoken = Cursor a step on
log-cursor-off = No cursor
log-cursor-off-spoken = Take the cursor away
log-cursor = Cursor
log-cursor-spoken = Put a cursor in the middle
log-on-top-spoken = Plot { $label } on top
log-on-top = On top of the plot
log-none = none
log-turns = Turns it counts for one of the rotor
log-file-gone = The file is no longer at hand. Nothing was recorded of it.
log-pick-again = Pick it again
log-log = Log
log-known = This kind of file is known.
log-say-once = Say once what its columns are.
log-left-out-note = Columns that are left out are not read. The file itself is kept whole.
log-no-time = No column is the time. If one is, name it below.
log-attach = Attach this log
log-begins = begins { $sample }
log-period = Rows are apart
log-columns =
    { $count ->
        [one] one column
       *[other] { $count } columns
    }
log-columns-read = Read
log-columns-left = Left out
log-columns-too = And these: { $names }
log-no-place = place not said
log-time-written = How it is written
log-column-done = That is it
log-leave-out = Leave out
log-column = Column { $column }
log-unit-of-column = Unit of column { $column }
log-turns-named = { $turns } turns for one of the rotor
log-turns-motor = ; { $turns } for the motor's speed
log-turns-hint = 1 for the rotor's own speed{ $motor }
log-where-column = Where column { $column } is measured
log-none-attached-yet = No log is attached to this flight. Any table of text that a recorder wrote will do.
log-pick = Pick a log
log-review = Review
log-says = What it says
log-touch-one = touch one to see where
log-the-file = The file
log-pick-another = Pick another log
log-further = Further
log-another-day = Another day
log-another-day-note = the heat on a hotter day
log-nothing-past = Nothing in this log is past its limit.
log-past =
    { $count ->
        [one] { $count } figure is
       *[other] { $count } figures are
    } past a limit.
log-read-counts =
    { $rows ->
        [one] { $rows } row
       *[other] { $rows } rows
    } read, { $missed ->
        [one] { $missed } fault
       *[other] { $missed } faults
    }, { $left_out ->
        [one] { $left_out } row
       *[other] { $left_out } rows
    } left out
log-figure-time = Time in flight
log-figure-highest = highest
log-figure-lowest = lowest
log-figure-mean = mean in flight
log-figure-hover-mean = mean in hover
log-figure-past = time past its limit
log-past-above = above { $limit }: { $basis }
log-past-below = below { $limit }: { $basis }
log-figure-charge = Charge taken in flight
log-figure-energy = Energy taken in flight
log-figure-resistance = Resistance of pack and leads
log-figure-sag = Voltage lost under load
log-figure-ripple = Ripple
log-figure-speed-error = in hover, against what was set
log-figure-droop = deepest fall under load
log-figure-settles = would settle at
log-figure-time-constant = time constant
log-figure-drop-out = Nothing recorded
log-state-stop = Stop
log-state-caution = Caution
log-state-within = Within
log-bytes = { $bytes } bytes, SHA-256 { $sha256 }
log-row-counts = { $found } found, { $read } read, { $left_out } left out, { $repeated } repeated, { $out_of_order } out of order, { $restarts } restarts
log-kept = Kept as it was
log-rows = Rows
log-fault = Fault
log-no-file = The file itself is not here any more: no plot can be drawn.
log-where-from = Where it comes from
log-none-attached = none attached
log-of-flight = Log of this flight
log-gone-pick-again = The file is no longer at hand: pick it again
log-attached = Log attached: { $rows } rows of { $name }
log-flight-gone = This flight is no longer there
log-all-as-predicted = All was as predicted: there is nothing to raise
log-finding-raised = Finding raised: { $title }
log-finding-there = Finding { $number } was raised from it already
log-no-plot = No plot is in view
log-controller-rating = the controller's continuous rating
log-quantity-time = Time
log-quantity-pack-voltage = Pack voltage
log-quantity-pack-current = Pack current
log-quantity-power = Power
log-quantity-charge = Charge taken
log-quantity-head-speed = Head speed
log-quantity-throttle = Throttle
log-quantity-ripple = Ripple, peak to peak
log-quantity-receiver-voltage = Receiver voltage
log-quantity-receiver-current = Receiver current
log-quantity-temperature = Temperature
log-quantity-vibration = Vibration
log-quantity-height = Height
log-quantity-speed = Speed
log-quantity-other = Something else
log-unit-ratio = ratio
log-form-seconds = seconds
log-form-milliseconds = milliseconds
log-form-microseconds = microseconds
log-form-minutes = minutes
log-form-clock = clock, h:m:s
log-form-year-first = date, year first, and clock
log-form-day-first = date, day first, and clock
log-form-month-first = date, month first, and clock
log-form-evenly = rows evenly apart
log-row = row { $row }
log-row-column = row { $row }, column { $column }
log-row-column-named = row { $row }, column { $column } ({ $name })
log-row-fault = { $place }: { $kind }
log-row-fault-found = { $place }: { $kind }: "{ $found }"
log-row-not-a-number = not a number, left empty
log-row-no-time = no time, row left out
log-row-too-few = fewer fields than columns, the rest left empty
log-row-too-many = more fields than columns, those left out
log-row-torn = the file ends here, what may be torn left out
log-row-too-long = no text row, left out
log-row-open-quote = a quotation mark that never closes, row left out
log-row-time-jump = the time jumps and comes back, row left out
log-no-table-empty = the file is empty: choose the file that the recorder wrote as text with one row for each moment
log-no-table = no rows of numbers were found; the file begins "{ $begins }": choose the file that the recorder wrote as text with one row for each moment
log-no-rows-at-all = no row could be used: there are none. Choose the file that the recorder wrote as text with one row for each moment
log-no-rows = no row could be used; the first that could not: { $first }. Check which column is the time, and how it is written
log-stopped = the import was stopped; nothing was kept of it
log-unreadable = the file could not be read after { $bytes } bytes: { $reason }
log-map-no-columns = no column is named yet: say what at least one column is
log-map-too-many = { $columns } columns are more than { $most }: leave some out
log-map-no-time-column = column { $column } is not in this file, which has { $width }
log-map-time-twice = rows evenly apart need no time column: choose one or the other
log-map-no-time = say which column is the time, or how many seconds the rows are apart (0.000001 to 3600)
log-map-no-column = column { $column } ({ $label }) is not in this file, which has { $width }
log-map-also-time = column { $column } ({ $label }) cannot be the time and something else
log-map-unit = { $quantity } is not written in { $unit }: choose its unit
log-map-ratio = the ratio of column { $column } ({ $label }) must be a number, and not nought
log-map-twice = columns { $first } and { $second } are both { $quantity }: leave one out
log-lack-flight = no flight was found in this log: the load never rose as in a hover for five seconds; check the columns' units
log-lack-load = no column is named as pack current, power or head speed: without one of them a flight cannot be found in the log
log-lack-least-step = the least step of a reading must be above nought
log-lack-readings = a trend takes up to { $most } readings, each a number
log-lack-false-alarm = the chance of a false alarm must be from 0.0001 to 0.5, over 10 to 1000 readings
log-lack-threshold = a threshold is from 0.5 to 20, a shift from -2 to 10
log-lack-run-length = the run length is beyond reckoning
log-note-flights = { $count } flights in this log
log-note-above = above { $value }: { $basis }
log-note-below = below { $value }: { $basis }
log-note-not-covered = { $share } % of the log has no values for too long to estimate and is not counted
log-note-estimated = the whole log, ground included; { $seconds } s without values are taken as between the values on either side
log-note-all-of-it = the whole log, ground included
log-note-counted = by the current; the recorder counted { $mah } mAh, which does not agree
log-note-counter-right = as the recorder counted, which agrees with its current where both were recorded; by the current alone { $mah } mAh
log-note-counter-restarts =
    { $count ->
        [one] { $note }; its counter began anew once
       *[other] { $note }; its counter began anew { $count } times
    }
log-note-as-counted = as the recorder counted
log-note-resistance = pack and leads, within a second of a load (as IEC 61960-3 has it for direct current); what builds up over tens of seconds is not in it. To be compared with other logs alone, not with a meter
log-note-sag = at the greatest current, { $current } A, within a second; more after tens of seconds
log-note-ripple = limit { $limit } V for { $cells } cells, common practice; a slow recorder reads too little
log-note-hover-speed = { $hover } in hover, { $set } set
log-note-droop = { $share } % of the hover's { $hover }, over three quarters of a second
log-note-rise = where the rise of this flight would end
log-note-rise-short = flown too short for a sure figure; where the rise of this flight would end
log-note-nothing = nothing was recorded
log-note-empty = this column was empty
log-note-of-many = { $note }; one of the longest of { $count }
