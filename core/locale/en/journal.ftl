# The journal.
journal-intro = Nothing is erased. A slip is withdrawn by a later entry, and both stay readable.
journal-not-full = Not full: { $why }
journal-entries =
    { $count ->
        [one] { $count } entry
       *[other] { $count } entries
    }
journal-entries-of = { $own } of { $count } entries
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
journal-search = Search: a check, a part, a word
journal-search-hint = Every word must be in the entry
journal-found =
    { $count ->
        [0] Found in no entry
        [one] Found in { $count } entry
       *[other] Found in { $count } entries
    }
journal-searched = { $searched } of { $of } searched
journal-more =
    { $rest ->
        [one] Show further: { $rest } more
       *[other] Show further: { $rest } more
    }
journal-months = All entries, by month and day
journal-days =
    { $count ->
        [one] { $count } day
       *[other] { $count } days
    }
