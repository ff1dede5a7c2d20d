# The spotter's screen and calls.
spotter-flight = Flight
spotter-title = { $title }, { $rpm } rpm
spotter-planned = planned { $time }
spotter-take-back = Take back { $mark }
spotter-wrong-codes =
    { $count ->
        [one] { $count } wrong code was tried
       *[other] { $count } wrong codes were tried
    }
spotter-next-try = After wrong codes: the next one in { $time }
spotter-no-code = No code at hand
spotter-no-code-note = Opens half an hour later, and the pilot will see it
spotter-open-without = Open without the code
spotter-wait-over = The wait is over
spotter-waiting = Waiting to open without the code
spotter-wait-left = { $time } left
spotter-code = The pilot's code
spotter-open = Open
spotter-ready = Ready. Everyone clear of the rotor?
spotter-motor-on = Motor on
spotter-down = Down, motor off
spotter-hand-back = Back to the pilot
spotter-touchdown = Touchdown
spotter-still-flying = Still flying
spotter-call-half-minute-over = Half a minute over. { $end }
spotter-call-minute-over = One minute over. { $end }
spotter-call-minutes-over = { $minutes } minutes over. { $end }
spotter-call-half-time = Half time
spotter-call-minute-left = One minute left
spotter-call-time = Time. { $end }
spotter-stop-above = { $place }: stop above { $limit }
spotter-emergency = In an emergency call { $call }: { $address }
spotter-flown-on = Flown on { $pack }
spotter-not-full = Not full: { $why }
spotter-call-land = Land now
spotter-call-motor-off = Motor off now
spotter-motor-off = Motor off
spotter-still-on = Motor still on
