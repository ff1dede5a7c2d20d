# Was eingetragen wurde, was nicht angenommen wird und warum.
