# Das Journal.
