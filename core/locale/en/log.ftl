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
log-next-detail =
    { $speed } rpm: { $middle } A, { $low } to { $high }, from { $hovers ->
        [one] { $hovers } hover
       *[other] { $hovers } hovers
    } with this one in it
log-next = Next: { $check }
log-too-little = Too little was read so far to see a drift.
log-nothing-drifted = Nothing has drifted.
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
log-drift-method = A cumulative sum after Hawkins (1987): five in a hundred that something is told to drift that does not, over a hundred readings. It wants readings taken in the same way: a pack as warm and as full, the same test point. Hover power is brought to standard air at sea level, heat is told above the air of its day.
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
log-time-column = Time, column { $column } ({ $name })
log-guess = Guess
log-no-time = No column holds the time
log-rows-apart = Rows are taken 0.1 s apart
log-attach = Attach this log
log-begins = begins { $sample }
log-leave-out = Leave out
log-column = Column { $column }
log-unit-of-column = Unit of column { $column }
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
log-no-plot = No plot is in view
log-controller-rating = the controller's continuous rating
