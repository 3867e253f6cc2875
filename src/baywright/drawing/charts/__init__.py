"""Charts: curves over an axis, and limits side by side."""
