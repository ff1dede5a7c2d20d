# What a computed check says.
