# Typed errors of the journal, the arithmetic and the logs.
