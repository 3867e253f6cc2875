"""A record of a running machine on a book: which part is in which place, and what is doubtful."""
