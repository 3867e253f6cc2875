"""Plain language: sentences with their places, what they claim, and what can be said of them."""
