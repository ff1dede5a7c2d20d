# Packs.
