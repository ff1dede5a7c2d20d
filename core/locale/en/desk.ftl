# What was recorded, and what is refused and why.
