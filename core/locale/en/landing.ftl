# The landing entry.
landing-temperatures = Temperatures
landing-in-this-order = in this order, within the first minute
landing-anything-else = Anything else
landing-other-places = Other places
landing-if-read = if you read them
landing-more-than = Was it more than a landing?
landing-record = Record the landing
landing-title = Landing
landing-temperatures-spoken = { $place }: { $which } temperatures
landing-cooler = Cooler
landing-hotter = Hotter
landing-number-of = { $number } of { $count }, one touch each
landing-once-more = once more, as it cools
landing-reads = { $place } reads
landing-after-touchdown = { $time } after touchdown. Touch it to leave it out
landing-read = Read
landing-leave-out = Leave out { $what }
landing-read-so-far = Read after this landing
landing-read-again-spoken = Read { $place } once more
landing-again = { $place } again
landing-second-reading = A second reading, half a minute later, tells how hot it was at touchdown
landing-within = , ± { $within }
landing-past-stop-look = { "." } Past its stop: look before the next flight
landing-past-caution-note = { "." } Past its caution
landing-at-touchdown = { $place } at touchdown
landing-worked-back =
    worked back from { $count ->
        [one] { $count } reading
       *[other] { $count } readings
    }{ $within }{ $over }
landing-flown = Motor on, { $rpm } rpm, { $pack }
landing-not-asked = , not asked for here
landing-last = last { $last }{ $wanted }
landing-starts-at = starts at { $start }{ $wanted }
landing-past-stop = Past its stop, { $limit }
landing-past-caution = Past its caution, { $limit }
landing-in-fahrenheit = { " " }In Fahrenheit it would be { $meant }.
landing-meant = { " " }{ $meant } was meant?
landing-usual = { $low } to { $high } is usual here.{ $meant } Read it again
landing-charge-step-spoken = Charge used: { $word } by 50 milliampere hours
landing-charge-used = Charge used
landing-predicted = { $low } to { $high } mAh was predicted
landing-nothing-noted = Nothing was noted in flight.
landing-noted-heading = Noted in flight
landing-noted = Noted
landing-to-answer = Before the next card
landing-answers-hold = each wants an answer
landing-slip-how = If it was misread, read it again or leave it out below
landing-raise-stop = Raise it as a stop
landing-raise-spoken = Raise a finding: { $what }
landing-nothing-why = Nothing to it, because
landing-nothing-typed = Nothing to it, as typed
landing-nothing-spoken = { $what }: nothing to it. { $words }
landing-answered = Answered: { $words }
landing-is-a-finding = A finding
landing-is-finding = It is finding { $number }
landing-mark-finding = A finding
