# What every screen has.
aircraft-unnamed = This aircraft
aircraft-unnamed-inside = this aircraft
common-back = Back
common-gone = This is no longer there under the plan in force.
common-not-found = Not found
common-over-all = Over all of { $stage }.
common-range = { $low } to { $high }
common-mend-first = Put the number right first
common-spotter-has-it = The spotter has the phone.
common-handed-over = Handed over

common-month =
    { $month ->
        [1] January
        [2] February
        [3] March
        [4] April
        [5] May
        [6] June
        [7] July
        [8] August
        [9] September
        [10] October
        [11] November
       *[12] December
    }
common-month-short =
    { $month ->
        [1] Jan
        [2] Feb
        [3] Mar
        [4] Apr
        [5] May
        [6] Jun
        [7] Jul
        [8] Aug
        [9] Sep
        [10] Oct
        [11] Nov
       *[12] Dec
    }
