"""The steps that bring a database to the tables of this release."""
