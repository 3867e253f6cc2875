"""Orders: a list of parts becomes a build, or the repair with the fewest changes."""
