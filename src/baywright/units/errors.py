"""What can be wrong with an amount a person wrote."""

from __future__ import annotations

from baywright.problems import Mark, Problem


class UnitError(ValueError):
    """An amount that cannot be read, or two amounts that cannot be brought together.

    Args:
        kind: ``not-a-number``, ``no-unit``, ``unknown-unit`` or ``wrong-dimension``.
        message: what is wrong, one sentence.
        hint: what to do next, one sentence, or an empty string.
    """

    def __init__(self, kind: str, message: str, hint: str = "") -> None:
        self.kind = kind
        self.message = message
        self.hint = hint
        super().__init__(f"{message} {hint}".strip())

    def problem(self, mark: Mark | None = None) -> Problem:
        """Return the same as a problem at that place."""
        return Problem(self.kind, self.message, mark, self.hint)
