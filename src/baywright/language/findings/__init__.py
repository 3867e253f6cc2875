"""What can be said of a draft without understanding its sentences: one file for each finding."""
