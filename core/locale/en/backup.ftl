# The backup: made, brought in, and what was set aside.
backup-title = Backup
backup-what = A backup is one file with the whole record: every entry, and every log as it came. Keep it where this phone is not. It brings the record back on this phone or on another one, and anyone can read it without Liftgate.
backup-holds-code = Keep it to yourself
backup-holds-code-how = Whoever has the file can read all of it, and can find out the pilot's code. To show what was proved, save the dossier.
backup-save = Save a backup
backup-bring-in = Bring a backup in
backup-file-word = backup
backup-none = No backup was made yet.
backup-none-note = None yet. One from another phone is brought in here
backup-last = Last backup: { $when }.
backup-not-in-it =
    { $entries ->
        [0] Everything recorded is in it.
        [one] { $entries } entry is in none, with { $runs ->
            [0] no motor run
            [one] { $runs } motor run
           *[other] { $runs } motor runs
        } in it.
       *[other] { $entries } entries are in none, with { $runs ->
            [0] no motor run
            [one] { $runs } motor run
           *[other] { $runs } motor runs
        } in them.
    }
backup-asks =
    { $runs ->
        [one] { $runs } motor run is in no backup
       *[other] { $runs } motor runs are in no backup
    }
backup-holds-all = { $last } Everything is in it
backup-since =
    { $last } { $entries ->
        [one] { $entries } entry since
       *[other] { $entries } entries since
    }
backup-file-named = { $name }, picked
backup-refused = This file cannot be brought in.
backup-nothing-changed = Nothing on this phone was changed.
backup-was-checked = Every entry and every file in it was held against its digest.
backup-compared-new = Nothing was recorded on this phone yet: the backup's record goes on here.
backup-compared-same = The backup holds what this phone holds.
backup-compared-ahead = The backup has all of this phone's record, and more.
backup-compared-behind = The backup is older than this phone's record.
backup-compared-other = The backup is another record: it has nothing in common with this phone's.
backup-compared-forked =
    The backup and this phone's record are the same for { $common ->
        [one] the first entry
       *[other] the first { $common } entries
    }, and go different ways from there.
backup-in-file = In the file
backup-on-phone = On this phone
backup-holds =
    { $entries ->
        [one] { $entries } entry
       *[other] { $entries } entries
    }
backup-holds-until =
    { $entries ->
        [one] { $entries } entry
       *[other] { $entries } entries
    }, the last of { $last }
backup-gained = Gained
backup-entries-gained =
    { $entries ->
        [one] { $entries } entry that this phone does not have
       *[other] { $entries } entries that this phone does not have
    }
backup-lost = Lost
backup-entries-lost =
    { $entries ->
        [one] { $entries } entry that is on this phone alone
       *[other] { $entries } entries that are on this phone alone
    }
backup-lost-from = From { $from } on
backup-left-out = Left out
backup-logs-left-out =
    { $logs ->
        [one] { $logs } recorder's log that was damaged before this backup was made
       *[other] { $logs } recorders' logs that were damaged before this backup was made
    }
backup-logs-left-out-why = The entries that attach them are there. An older backup may hold them whole.
backup-old-is-kept = The record that is here now is set aside on this phone, and stays there until you let it go.
backup-lay-in = Go on with the backup
backup-is-same = There is nothing in it that is not here.
backup-laid-in =
    { $entries ->
        [one] The backup is in place: { $entries } entry. The record before it is set aside.
       *[other] The backup is in place: { $entries } entries. The record before it is set aside.
    }
backup-set-aside = Set aside on this phone
backup-aside-title = Set aside
backup-aside-named = Record { $number }, set aside
backup-megabytes = { $megabytes } MB
backup-aside-what = Another record took the place of this one. It is as it was, byte for byte. Save it to have it looked at on a computer, or compare it with what is on the phone now: it can take its place again.
backup-aside-file-word = set-aside-{ $number }
backup-save-aside = Save it as it is
backup-save-aside-log = Save the log beside it
backup-compare = Compare and bring back
backup-let-go = Let it go for good
backup-let-go-caution = What is let go cannot be brought back.
backup-gone-for-good = Record { $number } is gone.
backup-no-container = This is no backup, or only a part of one: the container (ZIP) cannot be opened. Fetch the file again from where it is kept.
backup-not-ours = This is no backup of Liftgate's: '{ $file }' is missing in it or is something else. Pick another file.
backup-newer = This backup was made by a newer Liftgate. Bring the app up to date, then bring the backup in again.
backup-damaged = This backup is damaged: '{ $file }' is not what its digest says. Take an older backup, or fetch this one again from where it is kept.
backup-damaged-line = This backup is damaged: line { $line } of '{ $file }' is not what its digest says. Take an older backup, or fetch this one again from where it is kept.
backup-too-much = This file was made to fill the phone: '{ $file }' holds more than any record. Nothing of it was kept.
backup-storage = The phone's storage said: { $words }. Nothing on this phone was changed. Free some space and try again.
