"""The terminal: one module for each command, loaded only when it is asked for."""

from baywright.cli.app import main

__all__ = ["main"]
