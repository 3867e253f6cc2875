"""The shapes of clauses: patterns over the letters of their pieces, each with what it claims."""
