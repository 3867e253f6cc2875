"""The desk: one function for each thing people ask for, and the only door to all of it."""
