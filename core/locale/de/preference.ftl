# Sprache und Einheiten.
