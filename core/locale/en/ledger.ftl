# The ledger of settings.
ledger-not-flown = Not flown yet
ledger-to-fly = To fly
ledger-next-tests = The next flight tests { $count } changes at once
ledger-nothing = Nothing was set so far.
ledger-changes = Changes, newest first
ledger-title = Settings so far
ledger-first-value = first value
ledger-not-alone = Not alone
ledger-together = Flown first together with: { $with }
ledger-from-to = { $before } to { $after }
ledger-flown-on =
    Flown on it: { $count ->
        [one] { $count } motor run
       *[other] { $count } motor runs
    }
ledger-head-speed = Head speed { $before } to { $after } rpm
ledger-nobody-can-say = { $what }. If it flies otherwise, nobody can say which of them did it.
ledger-tested = This flight tested { $count } changes at once
ledger-tested-one = Tested
