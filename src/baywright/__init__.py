"""Baywright: hold the facts of a machine once, and prove what is said about it."""

__version__ = "0.1.0"
