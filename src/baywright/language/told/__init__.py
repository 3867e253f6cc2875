"""Sentences that a book tells word for word: one file for each of its sections."""
