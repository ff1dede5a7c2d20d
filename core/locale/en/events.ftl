# Events.
events-intro = Touch what happened. The checks that it ends are asked for again, and no others.
events-remark = Remark, before you touch it
events-so-far = So far
events-since =
    { $when }, { $count ->
        [one] { $count } motor run since
       *[other] { $count } motor runs since
    }
events-asked-again =
    { $count ->
        [one] { $count } check is
       *[other] { $count } checks are
    } asked for again
