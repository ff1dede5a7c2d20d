# What every screen has.
