"""Faults: what is seen of each, what can be behind what is seen, and what to check next."""
