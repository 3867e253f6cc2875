"""The expression language: reading, checking, evaluating and wording."""
