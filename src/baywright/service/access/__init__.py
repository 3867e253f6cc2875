"""Access: reach what has to be changed, change it, and put everything back."""
