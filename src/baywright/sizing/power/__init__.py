"""Power: what a build draws, what its supplies and feeds carry, and what is left after a loss."""
