# Die Flugkarte.
