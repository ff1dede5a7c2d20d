# Akkus.
