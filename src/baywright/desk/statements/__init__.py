"""Statements: what is said of a machine, each kept with the query it answers and its proof."""
