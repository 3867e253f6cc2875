"""Sheets: short papers about a machine or a build, by templates and with proof, like the guide."""
