"""Files: books and builds, read with the place of every value and written with their comments."""
