"""Service: how a part is reached, what a fault looks like, and what is lost with a thing."""
