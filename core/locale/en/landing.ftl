# The landing entry.
