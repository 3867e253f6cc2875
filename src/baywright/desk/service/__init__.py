"""Service: what is lost with a thing, and the spares that bring it back."""
