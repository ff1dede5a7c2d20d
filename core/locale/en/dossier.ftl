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
dossier-grade = Grade
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
dossier-lapsed = Lapsed
dossier-recurring = Recurring work
dossier-seen-by = { $when }, seen by { $name }
dossier-carried = Carried: { $restriction }
dossier-flown = { $check }, { $speed }
dossier-worked-back = { $place } { $temperature } at touchdown, worked back
dossier-read = { $place } { $temperature }
dossier-log-file = { $name }: { $rows } rows read, { $left_out } left out, { $faults } faults; SHA-256 { $sha256 }
