"""Sizing: physics as free functions, each with its equation, source and range of validity."""
