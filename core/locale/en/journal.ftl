# The journal.
journal-intro = Nothing is erased. A slip is withdrawn by a later entry, and both stay readable.
journal-not-full = Not full: { $why }
journal-rest = and { $rest } before these, all of them in the dossier
journal-entries =
    { $count ->
        [one] { $count } entry
       *[other] { $count } entries
    }
journal-withdrawn = Withdrawn
journal-entry-of = Entry { $number } of { $count }
journal-add-to-landing = Add to this landing
journal-why-withdrawn = Why it is withdrawn
journal-withdraw = Withdraw this entry
journal-entry = Entry
journal-seen-by = Seen by { $name }.
journal-put-back = Put back
journal-take-back = Take back
journal-withdrawn-heading = Recorded and withdrawn
journal-withdrawn-detail = Recorded { $recorded }, withdrawn { $withdrawn }: { $why }
