# Plans, what differs between them and what is wrong in them.
plan-counts =
    { $checks ->
        [one] { $checks } check
       *[other] { $checks } checks
    } for { $aircraft }, in { $stages ->
        [one] { $stages } stage
       *[other] { $stages } stages
    }.
plan-edition = Edition { $edition }, id { $id }
plan-own = A plan of your own
plan-own-how = Save a copy, change it in a text editor on any machine, then open it here. What would change and what would lapse is shown before it takes effect. Nothing recorded is lost by it.
plan-newer = Edition { $edition } of the plan came with the app
plan-newer-how = What it changes, and what would lapse by it, is shown first. Until you bring it into force, { $edition } holds.
plan-came-with = edition { $edition }, with the app
plan-so-far = In force so far
plan-open = Open a plan file
plan-save = Save a copy of this plan
plan-in-force = Plan in force
plan-file-inside = plan file
plan-open-another = Open another file
plan-faults =
    { $count ->
        [one] { $count } fault keeps
       *[other] { $count } faults keep
    } this plan out.
plan-mend = Mend it where it says, save it, and open it again.
plan-line = Line { $line }, column { $column }
plan-fault = Fault
plan-file = Plan file
plan-is-in-force = It is the plan in force
plan-not-yet = Not yet
plan-adopt = Bring this plan into force
plan-file-named = Plan file { $name }
plan-nothing-falls = Nothing lapses and nothing goes stale by it.
plan-falls =
    { $gates ->
        [one] { $gates } gate lapses
       *[other] { $gates } gates lapse
    } by it, and { $checks ->
        [one] { $checks } check goes
       *[other] { $checks } checks go
    } stale.
plan-differences = Edition { $edition }. { $added } new, { $changed } changed, { $removed } no longer there
plan-gates-lapse = Gates that would lapse
plan-lapses = Lapses
plan-gone = No longer there
plan-checks-anew = Checks that would want doing anew
plan-results-stay = Its results stay readable
plan-worth-mending = Worth mending in it
plan-more = and { $count } more
plan-new = New
plan-changed = Changed
plan-landing-first = Jot down the landing of '{ $check }' first
plan-finding-keeps = Finding { $number }, '{ $title }', is proven by '{ $proof }' of { $stage }, which this plan has not: close it first, or keep that check
difference-point = { $what }: was { $old }, now { $new }
difference-plan = Plan
difference-id = Id
difference-title = Title
difference-notice = Notice
difference-question = Question
difference-answers = Answers
difference-answer-ids = Ids of the answers
difference-unit = Unit
difference-plausible = Plausible
difference-step = Step
difference-start = Starts at
difference-required = Required
difference-only-for = Only for
difference-above = Lies above
difference-adjustable = Kept in the ledger of settings
difference-why = Why
difference-figure = Figure
difference-part = Part
difference-event = Event
difference-text = Text
difference-setting = Setting
difference-caution-above = Caution above
difference-stop-above = Stop above
difference-heated-by = Heated by
difference-is-winding = a winding
difference-basis = Basis
difference-temperature = Temperature
difference-caution = Caution
difference-stage = Stage
difference-check = Check
difference-purpose = Purpose
difference-job = Part of the job
difference-after = Comes after
difference-cautions = Cautions
difference-gate = Gate
difference-order = Order
difference-do = What to do
difference-judged = How it is judged
difference-group = Group
difference-not-right = Not right is
difference-a-stop = a stop
difference-a-caution = a caution
difference-mandatory = Wanted for the gate
difference-witness = Second person
difference-without = Without that person
difference-goes-on = it goes on
difference-stops = it stops
difference-caution-proves = A caution proves a fix
difference-called-by = Called for by
difference-rests-on = Rests on
difference-holds = Holds
difference-before-flights = Due before flights from
difference-kind = Kind
difference-look = look and say
difference-computed = computed, { $what }
difference-computed-supply-load = load on each supply
difference-computed-supply-window = voltage window of each consumer
difference-computed-receiver-endurance = how long the receiver pack lasts
difference-computed-regulator-heat = heat of each regulator
difference-computed-wire-runs = drop, heat and fuse of each wire
difference-computed-centre-of-gravity = centre of gravity and ballast
difference-computed-governor-room = governor's room at the end of the pack
difference-computed-hover-room = hover power on the hottest day
difference-computed-blade-balance = balance of the main blades
difference-computed-frequency-placement = drive speeds against natural frequencies
difference-computed-ladder-agreement = hovers against their predictions
difference-computed-hot-day-heat = last hover's heat on the hottest day
difference-computed-pack-life = whether a pack should be retired
difference-computed-pack-trend = growth of each pack's resistance
difference-computed-landing-charge = charge left after the last hover
difference-computed-pack-ripple = ripple on the main pack leads
difference-computed-trial-weight = weight after a run with a trial weight
difference-computed-blade-speed = highest head speed against the blades' rating
difference-computed-head-speed-steps = steps between the head speeds of the hovers
difference-computed-drive-load = planned current against what the drive can hold
difference-reading = a reading
difference-stop-below = Stop below
difference-caution-below = Caution below
difference-head-speed = Head speed
difference-minutes = Minutes
difference-knock-off = Call it off at
difference-temperatures = Temperatures
difference-predict = Held against a prediction
difference-reserve = Has to land with the reserve left
difference-full-cell = a full cell and { $plus } V
difference-named = '{ $title }'
difference-times = { $times } times '{ $title }'
difference-day = the day
difference-flights =
    { $flights ->
        [one] { $flights } flight
       *[other] { $flights } flights
    }
difference-hours = { $hours } h
difference-days =
    { $days ->
        [one] { $days } day
       *[other] { $days } days
    }
difference-until = until { $events }
difference-until-changed = until changed
difference-or = { " " }or{ " " }
difference-yes = yes
difference-no = no
difference-nothing = nothing
difference-flown-run = flown, run
difference-flown-hover = flown, hover
difference-flown-flight = flown, flight
plan-reason-format = this Liftgate reads plans of format { $known }: update the app, or take an older plan
plan-reason-missing-key = missing field `{ $key }`
plan-reason-unknown-key = unknown field `{ $key }`, this place has { $known }
plan-reason-unknown-word = unknown variant `{ $word }`, expected one of { $known }
plan-reason-wants-answers = use one answer, or several in [ ]
plan-reason-wants-holds = use until-changed, session, or { "{" } flights = 10, hours = 5.0, days = 90, events = ["an-id"] { "}" } or some of these
plan-reason-wants-limit = use a number, { "{" } figure = "an-id", times = 1.0 { "}" } or { "{" } full_cell_plus = 0.03 { "}" }
plan-reason-parser = { $words }
plan-reason-no-stage = the plan has no stage
plan-reason-few-choices = '{ $question }' needs at least two choices
plan-reason-twice = there is another { $what } '{ $id }' before this one
plan-reason-no-id = '{ $text }' is no id: use lower-case words and digits joined by hyphens
plan-reason-not-there = there is no { $what } '{ $id }' in this plan
plan-reason-no-answer = there is no choice of '{ $question }' '{ $answer }' in this plan
plan-reason-tells-nothing = name some of the answers: none and all of them tell nothing apart
plan-reason-range = the plausible range runs from { $low } to { $high }: low must lie below high
plan-reason-circle =
    { $what ->
        [figure] these figures lie above each other
        [stage] these stages wait for each other
       *[other] these checks rest on each other
    }: { $way }
plan-reason-other-unit = '{ $figure }' is in { $is }, this wants { $wanted }
plan-reason-job = the job has ten parts: job must be 1 to 10
plan-reason-empty-gate = '{ $stage }' has a gate and no mandatory check: it would open on nothing
plan-reason-no-gate = '{ $stage }' has no gate that another could wait for
plan-reason-flown-before-flights = what is due before every flight cannot be flown itself: it would wait for itself
plan-reason-no-witness = a witness point is a check on the ground with witness = true: who would have come?
plan-reason-no-subject = '{ $text }' is nothing that evidence rests on: use mass, wiring, supplies, packs, frequencies, heat, pack-readings, load-readings, trial-runs, papers, or part:, setting:, figure: or check: with an id
plan-reason-not-how-long = '{ $word }' says not how long: use until-changed, session, or flights, hours, days
plan-reason-holds-for-nothing = evidence must hold for something: flights, hours or days above nought, or until events
plan-reason-other-kind = '{ $check }' has a '{ $key }' but is not of that kind
plan-reason-kind-lacks = '{ $check }' says not what to { $key }
plan-reason-step = a step must be above nought
plan-reason-start = the start lies outside the plausible range
plan-reason-no-basis = '{ $check }' measures, and says not where its limits come from: basis
plan-reason-no-limit = '{ $check }' has no limit: a check that cannot fail is none
plan-reason-limit-outside = the limit lies outside the plausible range, so it could never be passed
plan-reason-limits-fall = limits rise from stop_below over caution_below and caution_above to stop_above
plan-reason-times = times must be above nought
plan-reason-full-cell = full_cell_plus is a limit in V of what is read, at most 1 V from a full cell
plan-reason-minutes = planned minutes lie between 0.1 and 30
plan-reason-head-speed = a head speed lies above nought
lint-stops-later = '{ $title }' can stop the aircraft and stands after it: put it first
lint-group-too-long = { $checks } checks in one group; people skip in lists longer than { $most }: split it
lint-not-above = its head speed is not known to lie above the hover before it: give its figure an 'above'
lint-no-basis = its limits say not where they come from: name the source, or say there is none
lint-limit-not-told = 'judged' tells nothing of the limit { $limit }
lint-nothing-below = no plausible reading lies below { $limit }
lint-nothing-above = no plausible reading lies above { $limit }
lint-no-stop = it is graded a stop and has no stop: add one, or grade it a caution
lint-turns-without-caution = it turns a rotor or a drive and no caution stands over it
lint-hazard = it has to do with { $hazard }, and no caution over it says so
lint-hazard-rotor = a turning rotor
lint-hazard-drive = a drive that turns by hand
lint-hazard-voltage = pack voltage
lint-hazard-heat = heat
lint-hazard-lifting = lifting the aircraft
lint-hard-part = '{ $part }' reads at grade { $grade }: shorter sentences and words
lint-hard-text = its text reads at grade { $grade }; { $most } is the most
lint-never-runs-out = it is due before flights and never runs out: it would be asked for once
lint-not-every-aircraft = its limit waits for '{ $figure }', which not every aircraft has that has this check
lint-unused = no check has to do with this { $what }: drop it or use it
difference-read-on = Read on the run of
difference-agrees-with = Agrees with
difference-answered-by = Answered by
difference-rung-above = Rung above
difference-flown-bench = A run on the bench
plan-reason-read-on-no-run = '{ $check }' is no check that is run or flown
plan-reason-not-on-file = '{ $text }' is nothing on file that this reading could agree with: name a figure of the same unit, or the scales for one in kg
plan-reason-up-to = '{ $question }' is answered by a figure: each choice but the last wants 'up_to', and they rise; without 'from' none has it
plan-reason-no-rung = no rung is above '{ $check }': it wants two checks of one stage that are flown, the lower one first

# What a plan asks less of than one before it.
looser-gone = no longer asked for
looser-optional = no gate waits for it
looser-another-kind = asks for something else
looser-limit = a limit is another, or further out
looser-fails-as-caution = not right is a caution, no longer a stop
looser-witness = no second person, or goes on without
looser-holds-longer = holds longer
looser-rests-on-less = fewer changes end it
looser-fewer-aircraft = for fewer aircraft
looser-order = no longer in its place: before each flight, on its run, or above its rung
looser-shorter = a shorter run
looser-reads-less = less is read, or held against what is on file
looser-fewer-call-offs = fewer reasons to call off
looser-fewer-cautions = a caution is not shown
looser-caution-proves = a caution proves a fix
plan-loosens =
    { $count ->
        [one] It asks less in { $count } place.
       *[other] It asks less in { $count } places.
    } { $then }
plan-loosened-heading = Asks less than before
plan-looser-in-force =
    { $count ->
        [one] The plan in force asks less in { $count } place than one before it
       *[other] The plan in force asks less in { $count } places than one before it
    }
plan-looser-word = Asks less
