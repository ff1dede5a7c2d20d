# What every screen has.
aircraft-unnamed = This aircraft
aircraft-unnamed-inside = this aircraft
common-back = Back
common-gone = This is no longer there under the plan in force.
common-not-found = Not found
common-over-all = Over all of { $stage }.
common-range = { $low } to { $high }
common-spotter-has-it = The spotter has the phone.
common-handed-over = Handed over
