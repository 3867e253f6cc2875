"""Engines: search, optimisation and counting over a space. They never see a file or a book."""
