# Der heißere Tag.
