"""The question desk: what was asked and answered, kept, found again and held against new facts."""
