"""Changes: what becomes of everything said about a machine when its facts become others."""
