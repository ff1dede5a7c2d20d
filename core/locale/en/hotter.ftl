# The hotter day.
