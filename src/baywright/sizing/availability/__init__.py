"""Availability: what stops a machine, how often, and the spares that keep it running."""
