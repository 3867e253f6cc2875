"""The review of a book: what in it contradicts, can never be, goes without saying or is open."""
