# States and entries, as every screen says them.
standing-to-do = To do
standing-incomplete = Incomplete
standing-holds-caution = Holds, with caution
standing-holds = Holds
standing-stale = Stale
standing-not-right = Not right
standing-not-predicted = Not as predicted
standing-wanted = Still wanted: { $what }
standing-explain = Say why the charge used lies outside its prediction
reason-changed = { $subject } changed: { $what }
reason-happened = It ended with: { $event }
reason-day-over = It holds for the day it was done on
reason-runs =
    It holds for { $count ->
        [one] { $count } motor run
       *[other] { $count } motor runs
    }
reason-hours = It holds for { $hours } h with the motor on
reason-days =
    { $days ->
        [one] It holds for { $days } day
       *[other] It holds for { $days } days
    }
reason-paper-over = { $paper } was good to { $day }
reason-rests-on = It rests on '{ $check }'
reason-plan-changed = It was done before '{ $plan }, edition { $edition }', which asks for something else
reason-to-prove = It is to prove the fix of '{ $finding }'
blocker-unnamed = Names of the aircraft, its builder and its pilot
blocker-order = { $figure } must lie above: { $above }
blocker-finding = A finding
blocker-gate = Gate of { $stage }
lacking-thing = No { $kind } described yet: add it under Aircraft
lacking-count = { $kind }: { $wanted } are wanted, { $described } described so far under Aircraft
lacking-number = { $name }: '{ $label }' is missing; enter it under Aircraft
lacking-figure = '{ $title }' is missing; enter it under Aircraft
lacking-flight = Fly '{ $check }' and jot its landing down first
lacking-other-load = Two readings under load are wanted, one light and one at the highest current; so far there is only one near { $near }
lacking-resting-pack = Let { $pack } rest, then add a pack reading of it: lowest and highest cell after this flight
finding-open = Open
finding-fixed = Fixed, awaiting proof
finding-proven = Proven
finding-carried = Carried
until-runs =
    for { $count ->
        [one] { $count } motor run
       *[other] { $count } motor runs
    }
until-date = until { $day }
until-left = { $until }, { $left } left
left-flights =
    { $count ->
        [one] { $count } flight
       *[other] { $count } flights
    }
left-hours = { $hours } h with the motor on
left-days =
    { $count ->
        [one] { $count } day
       *[other] { $count } days
    }
left-of = { $parts } left
left-or = { " " }or{ " " }
result-right = Right
flight-used = , { $mah } mAh
flight-words = { $rpm } rpm{ $minutes }{ $used }
time-seconds = { $seconds } s
time-minutes = { $minutes } min
author-pilot = Pilot
author-spotter = Spotter { $name }
entry-a-finding = a finding
entry-emergency = In an emergency call { $call }; the site: { $address }
entry-named = { $name }, built by { $builder }
entry-named-pilot = { $name }, built by { $builder }, flown by { $pilot }
entry-plan = Plan in force: { $plan }, edition { $edition }
entry-aircraft-begun = Another aircraft begun, plan in force: { $plan }, edition { $edition }
entry-thing-described = { $kind } { $name } described
entry-thing-removed = { $kind } { $name } removed
entry-thing-changed-on-it = , changed on the aircraft
entry-thing-instead = , in its place: { $what }
entry-changed = Changed: { $what }
entry-happened = Happened: { $event }
entry-setting-from = { $title }: from { $before } to { $after }
entry-card = Card: { $check }, { $pack }
entry-handed-over = Phone to { $spotter }
entry-motor-on = Motor on
entry-mark = { $mark } at { $time }
entry-touchdown = Touchdown at { $time }
entry-motor-off = Motor off at { $time }
entry-resumed = Touchdown taken back: still flying
entry-handed-back = Phone back with the pilot
entry-unmarked = Taken back: { $mark }
entry-unmarked-unknown = A mark taken back
entry-charged-with = { $pack } charged, { $mah } mAh put back
entry-cells-read = { $pack }: cells read, { $low } to { $high }
entry-charged = { $pack } charged
entry-code-refused = A wrong code was tried
entry-wait-begun = No code at hand: the wait for the phone to open without it began
entry-opened-without = Opened without the pilot's code, after the wait
entry-code-set = Pilot's code set
entry-code-removed = Pilot's code removed
entry-landing-used = , { $used } mAh used
entry-landing-hottest = , hottest { $hottest }
entry-landing = Landing{ $used }{ $hottest }{ $so }{ $was }
entry-landing-confirmed = , odd and confirmed as read
entry-landing-waived = Landing not jotted down: { $reason }
entry-log = Log attached: { $name }, { $rows } rows
entry-explained = Explained: { $why }
entry-finding = Finding, { $grade }: { $title }
entry-fixed = Fixed '{ $finding }': { $what }
entry-carried = Carried '{ $finding }': { $restriction }
entry-gate-released = { $stage } released by { $by }
entry-withdrawn = Withdrawn: { $entry }. { $reason }
entry-withdrawn-unknown = Withdrawn. { $reason }
lack-witness = the second person's name
lack-witness-or-why = the second person's name, or why nobody came
lack-charge-used = Charge used
lack-longer-flight = flown { $flown } of the { $wanted } that this check wants
lack-read-too-late = { $place }, read { $time } after touchdown: too late to count
lack-agreement = agreement: { $read } was read, and { $with } on file says { $on_file }
lack-pack-capacity = what the pack holds
fault-found = Found not right
fault-past-limit = { $value } is past its limit
fault-past-stop = { $place } at { $temperature } is past its stop
fault-under-reserve = Landed with { $left } % in the pack, under the reserve of { $reserve } %
doubt-over-pack = { $used } is more than the { $holds } that { $pack } holds
doubt-under-reserve = That leaves { $left } % in { $pack }, under the reserve of { $reserve } %
doubt-no-charge = { $used } after { $time } with the motor on
doubt-under-lifting = { $used } after { $time } with the motor on, and lifting this aircraft takes { $least } at the least
doubt-below-air = { $place } { $read }, colder than the air at { $air }
doubt-no-warmer = Nothing is warmer than the air at { $air }, after { $time } with the motor on
deed-entered = entered as { $value }
deed-set = set to { $value }
deed-added = { $name } added
deed-changed = { $name } changed
deed-removed = { $name } removed
subject-mass = Mass and where it sits
subject-wiring = Wiring
subject-supplies = Supplies and consumers
subject-packs = Flight packs
subject-frequencies = Natural frequencies
subject-heat = Heat readings
subject-pack-readings = Pack readings
subject-load-readings = Readings under load
subject-trial-runs = Trial weight runs
subject-papers = Papers
blocker-unanswered = { $what }, in { $check }
unanswered-stop = { $place } { $read }, past its stop of { $limit }
entry-mark-answered = { $mark }, answered: { $words }
entry-mark-answered-unknown = A mark answered: { $words }
answer-gust = A gust
answer-pilots-input = My own input
answer-looked-at = Looked at, nothing found
answer-finding = Finding { $number }: { $title }
lack-not-called-off = a run that is not called off. This one was: { $why }
lack-judgement = how the run was
fault-not-so = Not as it should be: { $why }
unanswered-judgement = How the run was
entry-landing-not-so = , not so: { $why }
entry-landing-called-off = , called off: { $why }
marks-many = { $mark }, noted { $count } times, first at { $time }
lack-run-of = a run of { $run } just before it
entry-restarted = The phone was started anew in flight: how long it flew is not known to it
entry-flown-told = Motor on for { $time }, as the pilot says
unanswered-time = How long the motor was on
unanswered-long-time = How long the motor was on: the phone counted { $time }
entry-flown-without-phone = Motor on for { $time } without the phone, down { $ago } before, as the pilot says; watched by { $spotter }
reason-clock-behind = The phone was started anew and its clock is behind: nobody knows how many days have passed. Set the phone's clock
lack-flown-time = how long the motor was on
lack-list-declared = that all { $list } are described
entry-list-declared = All { $list } described: { $count }
entry-illegible = An entry stood here that cannot be read any more
entry-repaired =
    The file was damaged; the record goes on with what could be read. { $entries ->
        [0] Every entry could be read
        [one] { $entries } entry could not be read
       *[other] { $entries } entries could not be read
    }{ $logs ->
        [0] {""}
        [one] {""}, nor could { $logs } log
       *[other] {""}, nor could { $logs } logs
    }
blocker-record-damaged = Entries that cannot be read any more
entry-photo = Photo: { $of }
