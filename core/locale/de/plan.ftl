# Pläne, ihre Unterschiede und ihre Fehler.
