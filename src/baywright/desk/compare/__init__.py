"""Comparing builds and books: what is the same, more, less, new, gone, or only there if."""
