# Logs and their plots.
