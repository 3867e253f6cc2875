"""Sizing a build for people: the site as given, the page of limits, its charts and its JSON."""
