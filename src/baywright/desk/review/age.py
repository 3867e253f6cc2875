"""How old the sources are, and what hangs on one source alone."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from baywright.desk.review.finding import Finding, line_of
from baywright.desk.review.subject import Reviewed
from baywright.facts.book import facts_of
from baywright.facts.fact import Fact
from baywright.laws.wording import counted, listed

MOST_NAMED = 5
"""Facts with one source that are named; the rest are counted."""


def stale_sources(book: Reviewed) -> Iterator[Finding]:
    """Find sources that were old when the book was issued, with how many facts they carry."""
    edition = book.book.book.edition.known
    carried = Counter(fact.source or book.book.book.source for fact in facts_of(book.book))
    for name, source in book.book.sources.items():
        age = edition - source.date.known
        if age > book.stale_after and carried[name]:
            says = (
                f"{source.title.known} was {age.days // 365} years old at the edition; "
                f"{counted(carried[name], 'fact')} stand on it."
            )
            yield Finding("stale-source", says, (), line_of(source.date.mark), defect=False)


def single_sources(book: Reviewed) -> Iterator[Finding]:
    """Find the facts most laws stand on that one source alone states."""
    origins = book.opened.machine.space.origins.values()
    used = Counter(fact.path for origin in origins for fact in origin.facts)
    facts: dict[str, Fact[object]] = {fact.path: fact for fact in facts_of(book.book)}
    alone = [path for path, _ in used.most_common() if path in facts and not facts[path].told]
    if alone:
        says = (
            f"{counted(len(alone), 'fact')} that laws stand on have one source each, "
            f"most used of them {listed(alone[:MOST_NAMED])}."
        )
        yield Finding("single-source", says, defect=False)
