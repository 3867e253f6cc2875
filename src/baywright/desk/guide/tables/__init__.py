"""The tables of a guide; each file holds those of one matter."""
