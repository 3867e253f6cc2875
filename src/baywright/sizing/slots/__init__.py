"""Slots: bandwidth, lanes, shared links, locality, power and what stays free."""
