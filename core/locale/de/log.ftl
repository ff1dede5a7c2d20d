# Aufzeichnungen und ihre Bilder.
