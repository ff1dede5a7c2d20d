# Was eine Berechnung sagt.
