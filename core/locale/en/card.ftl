# The flight card.
