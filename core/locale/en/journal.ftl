# The journal.
