"""Proofreading a draft: read, judged, checked for what needs no grammar, written down."""
