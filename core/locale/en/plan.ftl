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
difference-unit = Unit
difference-plausible = Plausible
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
difference-reading = a reading
difference-stop-below = Stop below
difference-caution-below = Caution below
difference-head-speed = Head speed
difference-minutes = Minutes
difference-knock-off = Call it off at
difference-temperatures = Temperatures
difference-predict = Held against a prediction
difference-named = '{ $title }'
difference-times = { $times } times '{ $title }'
difference-day = the day
difference-flights = { $flights } flights
difference-hours = { $hours } h
difference-days = { $days } days
difference-until = until { $events }
difference-until-changed = until changed
difference-or = { " " }or{ " " }
difference-yes = yes
difference-no = no
difference-nothing = nothing
difference-flown-run = flown, run
difference-flown-hover = flown, hover
difference-flown-flight = flown, flight
