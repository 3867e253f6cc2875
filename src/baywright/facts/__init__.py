"""Facts: the typed content of a platform book."""
