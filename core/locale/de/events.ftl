# Ereignisse.
