# Checks, stages and gates.
