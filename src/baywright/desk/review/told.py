"""Facts that sources state differently."""

from __future__ import annotations

from collections.abc import Iterator

from baywright.desk.review.finding import Finding, line_of
from baywright.desk.review.subject import Reviewed
from baywright.facts.book import facts_of


def disputed(book: Reviewed) -> Iterator[Finding]:
    """Find facts on which their sources differ."""
    for fact in facts_of(book.book):
        if fact.disputed:
            (cited,) = book.book.cite(fact)
            says = f"Sources differ on {fact.path}: {cited.text}."
            yield Finding("disputed", says, (), line_of(fact.mark), facts=(cited,))
