# The aircraft: figures, things, settings, changes.
