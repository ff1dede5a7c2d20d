# Language and units.
