# Was eingetragen wurde, was nicht angenommen wird und warum.
desk-empty = { $label } ist leer: zuerst eingeben
desk-no-number = { $label }: ‚{ $text }‘ ist keine Zahl; Ziffern eingeben, wie { $example }
desk-not-whole = { $label }: { $value } ist keine ganze Zahl; Dinge werden einzeln gezählt
desk-out-of-range = { $label }: { $value } kann nicht stimmen; es liegt zwischen { $low } und { $high }. Noch einmal ablesen und neu eingeben
