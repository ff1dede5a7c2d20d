# The page that shows another person what was proved.
dossier-title = { $aircraft }: dossier
dossier-built = Built by { $builder }. Plan: { $plan }, edition { $edition }. Printed { $printed }.
dossier-count =
    The journal behind this page has { $count ->
        [one] { $count } entry
       *[other] { $count } entries
    }. Its head digest is
dossier-chain = The chain was walked when this page was printed; a journal that was cut short afterwards shows another count and another head.
dossier-findings = Findings
dossier-none-raised = None raised.
dossier-number = No.
dossier-finding = Finding
dossier-state = State
dossier-fix = Fix
dossier-proof = Proved by repeating
dossier-stages = Stages
dossier-check = Check
dossier-result = Result
dossier-when = When
dossier-flights = Flights and runs
dossier-what = What
dossier-pack = Pack
dossier-spotter = Spotter
dossier-time = Time
dossier-used = Used
dossier-temperatures = Temperatures
dossier-noted = Noted
dossier-logs = Logs
dossier-figure = Figure
dossier-value = Value
dossier-held-against = Held against
dossier-journal = Journal
dossier-who = Who
dossier-withdrawn = withdrawn: { $why }
dossier-released = Released by { $by }, { $when }
dossier-ready = Ready, not released
dossier-shut = Shut
dossier-recurring = Recurring work
dossier-seen-by = { $when }, seen by { $name }
dossier-carried = Carried: { $restriction }
dossier-flown = { $check }, { $speed }
dossier-worked-back = { $place } { $temperature } at touchdown, worked back
dossier-read = { $place } { $temperature }
dossier-log-file = { $name }: { $rows } rows read, { $left_out } left out, { $faults } faults; SHA-256 { $sha256 }
dossier-cut-off = This page was cut off: what is missing at its end was never written.
dossier-in-the-way = In the way of the next flight
dossier-carried-heading = Flown with a restriction
dossier-nothing-carried = No finding is carried.
dossier-gates = Gates
dossier-stage = Stage
dossier-gate = Gate
dossier-holds = Checks that hold
dossier-figures = The aircraft's figures
dossier-basis = Where it comes from
dossier-contents = Contents
dossier-how-to-check = How anyone checks that
dossier-release-digest = Digest of the release, which closes over all that it stood on:
dossier-showed = What showed it
dossier-ladder = Hovers: predicted and read
dossier-ladder-how = Each line is the charge that was predicted before the flight, for the time that was flown, with its interval of 95 %; the ring is what was read. It is full where the two agree. Below stands the head speed.
dossier-predicted = Predicted
dossier-what-was-read = Read
dossier-settings = Settings
dossier-no-settings = None was changed.
dossier-setting = Setting
dossier-changed = From and to
dossier-why = Why
dossier-flown-on = Flown on it
dossier-packs = Flight packs
dossier-no-packs = None is described.
dossier-described = Described as
dossier-life = Life
dossier-readings = Read of it
dossier-parts = Parts
dossier-part = Part
dossier-last-work = Last work on it
dossier-fitted = Fitted and described
dossier-no-plot = The file of this log is missing or damaged: it has no plot, and its figures stand as they were recorded.
dossier-trends = Trends over its life
dossier-chain-heading = The chain, and how to check it
dossier-chain-how = The entries stand in this file as they are stored, one line of JSON each. Python 3 walks them, on any computer and without a network: save these lines as check_chain.py, and run 'python3 check_chain.py' with the name of this file behind it.
dossier-chain-says = It prints the count and the head digest. Where they are the ones above, this file holds together: no entry in it was altered, left out or put in. Where they are also the ones that the builder's phone shows on its page 'The dossier', it is the journal on that phone, and nothing was cut off.
dossier-page = The dossier
dossier-row-note = What was proved, how and when, as one page for another person
dossier-for-whom = One page for a person who was not there: a buyer, an inspector, the next builder. It opens in any browser, prints on A4, and needs no network.
dossier-holds-heading = What is in it
dossier-check-it = It carries every entry as it is stored, with the lines that check their chain on any computer. Of the pilot's code nothing leaves the phone.
dossier-not-recorded = Saving it records nothing: the page says of which entries it is.
dossier-save = Save the dossier
dossier-file-word = dossier
dossier-foot = { $title }. Entries: { $count }, head { $head }
dossier-flown-by = Flown by { $pilot }.
dossier-carried-line = { $number }. { $title }: { $restriction } ({ $until }; answered for by { $by })
dossier-holds-of = { $holds } of { $wanted }
dossier-lapsed-since = Lapsed; it was released by { $by }, { $when }
dossier-entry-number = entry { $number }
dossier-alone = nobody else saw it: { $why }
dossier-due-from = Due before flights from '{ $stage }' on
dossier-optional = Optional, not done
dossier-renewed = Done anew since the release, which stood on { $entry }
dossier-not-for-this = not for this aircraft: { $checks }
dossier-not-called-for = only after an event that has not happened: { $checks }
dossier-came-upon = Found by looking
dossier-to-prove = To be proved by repeating '{ $check }'
dossier-proved = Proved
dossier-again-caution = Repeated, and still a caution
dossier-not-proved = Repeated, and not right
dossier-no-ladder = No flight was predicted and read yet.
dossier-interval = { $middle } ({ $low } to { $high })
dossier-agrees = Agrees
dossier-explained = Differs, explained: { $why }
dossier-differs = Differs
dossier-air = air { $air }
dossier-expected = predicted { $low } to { $high }
dossier-past = past { $limit }
dossier-as-it-should = As it should be
dossier-not-so = Not so: { $why }
dossier-called-off = Called off: { $why }
dossier-mark-finding = finding { $number }
dossier-no-work = None recorded: as built
dossier-end = End of the page: all { $count } entries are in it.
dossier-flown-so-far =
    { $runs ->
        [one] { $runs } motor run
       *[other] { $runs } motor runs
    }, { $time } h with the motor on. { $findings ->
        [0] No finding was raised.
        [one] { $findings } finding was raised.
       *[other] { $findings } findings were raised.
    }
dossier-stood-on =
    It stood on { $count ->
        [one] { $count } result
       *[other] { $count } results
    }: entries { $entries }.
dossier-life-line =
    { $runs ->
        [one] { $runs } run
       *[other] { $runs } runs
    }, { $time } h with the motor on
dossier-ladder-spoken =
    { $count ->
        [one] { $count } hover
       *[other] { $count } hovers
    } with predicted and read charge; { $agree } of them agree
dossier-of-others =
    { $count ->
        [one] One entry is
       *[other] { $count } entries are
    } of other aircraft in this journal. The chain goes over them too, so their lines are here; no other page of this dossier is about them.
dossier-kept-back =
    { $count ->
        [one] One entry holds
       *[other] { $count } entries hold
    } the hash of the pilot's code. It is left out of the lines, so that nobody guesses the code from it; the chain goes on over the entry's digest.
dossier-holds-entries =
    { $count ->
        [one] { $count } entry, in words and as it is stored
       *[other] { $count } entries, in words and as they are stored
    }
dossier-holds-runs =
    { $count ->
        [0] No flight or run yet
        [one] { $count } flight or run
       *[other] { $count } flights and runs
    }
dossier-holds-findings =
    { $count ->
        [0] No finding
        [one] { $count } finding, with what showed and proved it
       *[other] { $count } findings, with what showed and proved them
    }
dossier-holds-logs =
    { $count ->
        [0] No recorder's log
        [one] { $count } recorder's log, with its plot
       *[other] { $count } recorder's logs, with their plots
    }
dossier-head-of =
    { $count ->
        [one] { $count } entry; the head of their chain
       *[other] { $count } entries; the head of their chain
    }
dossier-photos-how = The photos are small copies; the files stand in the backup as they came, each under its digest
dossier-no-photo = This photo cannot be shown; its file may be in the backup
dossier-photo-file = { $name }, { $bytes } bytes, SHA-256 { $sha256 }
