# Befunde.
