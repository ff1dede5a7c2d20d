# A record whose file is damaged.
damaged-title = The record is damaged
damaged-verdict = The file that holds the record is damaged. Nothing of it is thrown away.
damaged-or-newer = This record was written by a newer Liftgate, or its file is damaged. Bring the app up to date first.
damaged-counts =
    { $legible ->
        [0] No entry can be read.
        [one] { $legible } entry can be read and proves itself.
       *[other] { $legible } entries can be read and prove themselves.
    } { $missing ->
        [0] {""}
        [one] { $missing } entry cannot.
       *[other] { $missing } entries cannot.
    }
damaged-why = What was found
damaged-missing = Missing
damaged-entry = Entry { $first }
damaged-entries = Entries { $first } to { $last }
damaged-more = and { $rest } more stretches
damaged-last = Whether entries came after the last one that can be read, nobody knows
damaged-then = If you go on
damaged-set-aside = The damaged file is set aside as it is, byte for byte, and can be saved from the page of the backup.
damaged-gates = The record goes on with every entry that can be read. What is missing keeps its place. Gates that were released before it have to be released again: look at each before you do.
damaged-backup = If you have a backup, bring it in afterwards: what is missing comes back with it.
damaged-newer = If a newer Liftgate was on this phone, bring the app up to date instead.
damaged-go-on = Go on with what can be read
damaged-repaired = The record goes on. The damaged file is set aside as number { $number }.
damaged-first = The record is damaged: go on with what can be read first.
