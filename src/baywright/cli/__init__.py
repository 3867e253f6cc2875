"""The terminal: one module for each command, loaded only when it is asked for."""

from baywright.cli.program import app, main

__all__ = ["app", "main"]
