"""Upgrades: from a machine that stands to what is needed, each state in between legal."""
