"""The proof as a page: each statement with its query, what shows it and what it stands on."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from baywright.papers.environment import environment


@dataclass(frozen=True, slots=True)
class Proven:
    """A statement as it is shown.

    Args:
        words: what it says.
        query: what it answers.
        beside: build, site and day of the query, or empty.
        by: what found it and what re-checked it.
        reasons: why nothing else is so.
        build: the build that shows it, line by line.
        facts: the facts it stands on, with source, date, status and place.
    """

    words: str
    query: str
    beside: str
    by: str
    reasons: tuple[str, ...]
    build: tuple[str, ...]
    facts: tuple[str, ...]


def statements_page(title: str, statements: Iterable[Proven]) -> str:
    """Return the proof of a paper as one page of HTML that needs nothing else."""
    held = tuple(statements)
    template = environment().get_template("statements.html.j2")
    return template.render(title=title, statements=held)
