"""The bench: a build taking shape step by step, every step kept so that it can be taken back."""
