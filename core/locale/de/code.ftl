# Der Code des Piloten.
