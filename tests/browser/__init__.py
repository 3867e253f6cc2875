"""Tests of the workbench in a real browser."""
