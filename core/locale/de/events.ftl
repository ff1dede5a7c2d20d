# Ereignisse.
events-intro = Berühren, was geschehen ist. Die Prüfungen, die dadurch enden, werden neu verlangt, und keine anderen.
events-remark = Bemerkung, vor dem Berühren
events-so-far = Bisher
events-since =
    { $when }, { $count ->
        [one] { $count } Motorlauf
       *[other] { $count } Motorläufe
    } seither
events-asked-again =
    { $count ->
        [one] { $count } Prüfung wird
       *[other] { $count } Prüfungen werden
    } neu verlangt
