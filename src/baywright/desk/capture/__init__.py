"""Help to capture facts: a new book from answers, tables mapped onto it, what is missing."""
