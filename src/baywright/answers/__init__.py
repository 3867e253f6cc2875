"""Answers: questions put to engines, their results re-checked, and the verdicts that come out."""
