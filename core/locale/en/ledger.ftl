# The ledger of settings.
