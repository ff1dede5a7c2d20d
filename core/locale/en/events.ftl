# Events.
