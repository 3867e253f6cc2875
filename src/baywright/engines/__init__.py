"""Engines: search, optimisation and counting over a space. They never see a file or a book.

The contract is in ``contract``, the engines by name in ``registry``. Nothing is imported here,
so that whoever needs the contract alone does not load every solver.
"""
