"""Drawings: SVG from facts and figures, legible in grey, in dark and read aloud."""
