# How long the motor was on, as the pilot tells it.

told-heading = How long the motor was on
told-both-kept = What the phone counted is kept beside it
told-not-right = The time is not right
told-as-counted = It was { $time }, as counted
told-long-why = Was the clock left running? Until it is said, only as much as the plan and the pack explain counts as motor time. The transmitter's timer or the recorder's log tells
told-doubted = { $planned }. Longer than can be: say how long it was
told-counted = { $planned }. As the pilot says; the phone counted { $counted }
told-not-counted = { $planned }. As the pilot says; no phone counted it
told-no-phone = Flown without the phone
told-no-phone-when = If the phone was dead, or a paper was used
told-no-phone-how = For a run that a paper or another clock timed. It is recorded with what this card says, pack, air and minutes among it; what holds before a hand-over holds for it too
told-ago = Minutes since it came down
told-ago-first = Enter how long ago it came down first: readings count by it
told-record = It was flown so
told-down-at = Or the time of day at which it came down, as 14:32
told-no-time-of-day = “{ $text }” is no time of day: write it as 14:32
told-that-is = That is { $ago } h ago
told-noted = Noted in flight, as the paper says
told-noted-at = { $what }: minutes after the motor came on
told-noted-when = Enter when “{ $what }” was noted, about
told-noted-late = “{ $what }” is noted later than the motor ran
told-read-after = Minutes from touchdown to the readings below
told-read-after-how = From a paper: enter it before each reading that was taken at another time. Left empty, a reading counts as read now
