# What was recorded, and what is refused and why.
desk-empty = { $label } is empty: enter it first
desk-no-number = { $label }: '{ $text }' is no number; enter digits, like { $example }
desk-not-whole = { $label }: { $value } is no whole number; things are counted one by one
desk-out-of-range = { $label }: { $value } cannot be right; it lies between { $low } and { $high }. Read it again and enter it anew
