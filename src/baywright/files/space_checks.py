"""Checks of values from a space file: each refusal keeps the path of what is wrong."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from baywright.facts.readers import shown
from baywright.files.json_places import Path, path_text
from baywright.problems import suggestion

MOST_PROBLEMS = 50
"""Problems after which reading gives up; whoever made the file will see the pattern."""

MOST_CHARACTERS = 300
"""Of a name or a label."""

MOST_IN_A_SENTENCE = 4_000


@dataclass(frozen=True, slots=True)
class Refusal:
    """What is wrong with one value.

    Args:
        path: the value.
        kind: kind of the problem.
        message: what is wrong, without the path.
        hint: what to do next.
    """

    path: Path
    kind: str
    message: str
    hint: str

    @property
    def sentence(self) -> str:
        """The message with the path before it."""
        where = path_text(self.path)
        return f"{where}: {self.message}" if where else self.message


class TooManyProblems(Exception):  # noqa: N818 - reads as the outcome it is
    """Reading has given up."""


@dataclass(slots=True)
class Checks:
    """Reads values, and gathers what is wrong with them."""

    refusals: list[Refusal] = field(default_factory=list)

    def refuse(self, path: Path, kind: str, message: str, hint: str) -> None:
        """Note a problem.

        Raises:
            TooManyProblems: when there are so many that the rest is not worth reading.
        """
        self.refusals.append(Refusal(path, kind, message, hint))
        if len(self.refusals) >= MOST_PROBLEMS:
            raise TooManyProblems

    def mapping(self, value: object, path: Path, what: str) -> dict[str, object]:
        """Return an object, or an empty one after a refusal."""
        if isinstance(value, dict):
            return value
        self.refuse(path, "not-an-object", f"{what} is wanted here.", "Write { }.")
        return {}

    def listing(self, value: object, path: Path, what: str) -> list[object]:
        """Return a list, or an empty one after a refusal."""
        if isinstance(value, list):
            return value
        self.refuse(path, "not-a-list", f"{what} is wanted here.", "Write [ ].")
        return []

    def text(self, value: object, path: Path, most: int = MOST_CHARACTERS) -> str:
        """Return a text that can be shown, or an empty one after a refusal."""
        if not isinstance(value, str):
            self.refuse(path, "not-a-text", "A text is wanted here.", "Put it in quotes.")
        elif not value.strip() or len(value) > most:
            hint = f"Give 1 to {most:,} characters."
            self.refuse(path, "not-a-name", "This text is empty or too long.", hint)
        elif not value.replace("\u00a0", " ").isprintable():
            hint = "Use letters, digits, signs and spaces."
            message = f"{shown(value)} has characters that cannot be shown."
            self.refuse(path, "strange-character", message, hint)
        else:
            return value
        return ""

    def whole(self, value: object, path: Path, low: int, high: int) -> int | None:
        """Return a whole number between two others, or ``None`` after a refusal."""
        if isinstance(value, int) and not isinstance(value, bool) and low <= value <= high:
            return value
        hint = f"Give a whole number from {low:,} to {high:,}."
        self.refuse(path, "not-a-number", f"{_said(value)} does not fit here.", hint)
        return None

    def name(self, value: object, path: Path, known: Iterable[str], what: str) -> str | None:
        """Return a name that is known, or ``None`` after a refusal."""
        if isinstance(value, str) and value in known:
            return value
        hint = suggestion(value, known) if isinstance(value, str) else "Give a name in quotes."
        self.refuse(path, "unknown-name", f"There is no {what} {_said(value)}.", hint)
        return None

    def keys(self, value: dict[str, object], path: Path, known: Sequence[str]) -> None:
        """Refuse keys that nothing reads: a law left out in silence would change answers."""
        for key in value:
            if key not in known:
                message = f"Nothing here is called {shown(key)}."
                self.refuse((*path, key), "unknown-key", message, suggestion(key, known))


def _said(value: object) -> str:
    if isinstance(value, str):
        return shown(value)
    if isinstance(value, bool | None):
        return {True: "true", False: "false", None: "null"}[value]
    return str(value)[:40] if isinstance(value, int | float) else "This"
