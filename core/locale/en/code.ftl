# The pilot's code.
