# What takes longer than a touch: a file that comes in, a log that is read.
reading-takes-in = Taking the file in
reading-reads = Reading the log
reading-stop = Stop
reading-writes = Writing the document
reading-written = { $written } MB written
reading-leaving-stopped = Stopping leaves no document behind. What is recorded stays as it is.
reading-back-spoken = Back. Stops it
reading-nothing-recorded = Nothing is recorded yet. Stopping leaves everything as it was.
reading-stop-plot = Draw no plot
reading-plot = Read it for its plot
reading-plot-note = You stopped it; the figures below are complete
reading-size = { $done } of { $of } MB
reading-rows =
    { $rows ->
        [one] one row
       *[other] { $rows } rows
    }
reading-unpacks = Checked
