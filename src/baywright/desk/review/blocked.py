"""Unknown facts, by how many of the book's own questions they leave open."""

from __future__ import annotations

from collections.abc import Iterator

from baywright.answers.verdicts import Undecided
from baywright.answers.wording import told
from baywright.desk.asking import ask
from baywright.desk.questions import Listed
from baywright.desk.review.finding import Finding, line_of
from baywright.desk.review.subject import Reviewed
from baywright.laws.wording import counted, listed


def blocking_facts(book: Reviewed) -> Iterator[Finding]:
    """Find the facts nobody has stated, or sources dispute, the most blocking first."""
    unknown = book.opened.unknown
    blocked: dict[str, list[str]] = {path: [] for path in unknown}
    for question in book.questions if unknown else ():
        verdict = ask(book.opened, question.ask, question.mark).verdict
        if isinstance(verdict, Undecided):
            for cited in verdict.facts:
                blocked[cited.path].append(_open(book, question, verdict))
    for path in sorted(blocked, key=lambda each: -len(blocked[each])):
        fact = unknown[path]
        number = f"{len(blocked[path])} of {counted(len(book.questions), 'question')}"
        says = f"{path} could be {listed(fact.could_be, 'or')}; {number} of the book hang on it."
        where, facts = line_of(fact.mark), book.book.cite(fact)
        proof = tuple(blocked[path])
        yield Finding("unknown", says, proof, where, defect=False, facts=facts)


def _open(book: Reviewed, question: Listed, verdict: Undecided) -> str:
    """Return a question with what it would be under each value."""
    ways = (
        f"{listed(values)}: {told(each, book.opened.machine).word}"
        for values, each in verdict.outcomes
    )
    return f"{question.says} {'; '.join(ways)}."
