"""Questions and answers in three lengths: each longer one says the same and more.

A line has the question with its answer. A paragraph adds what the answer costs elsewhere, or what
of a no is possible by itself. The full answer adds its reasons, a build that shows it, and the
facts it stands on.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from baywright.answers.wording import Names
from baywright.desk.guide.tables.maxima import Item, Maximum, items
from baywright.desk.questions import read_questions
from baywright.desk.sheets.asked import LENGTHS, Desk
from baywright.desk.sheets.brief import apart, brief_maxima, excluded_by, left
from baywright.desk.statements.query import Query
from baywright.desk.statements.statement import Statement
from baywright.laws.wording import capitalised
from baywright.papers.document import Block, Bullets, Heading, Line, Paragraph, Run
from baywright.problems import Problems

MOST_FACTS = 8
"""Facts named under one answer; the proof has all of them."""

NUMBERS = (
    ("What does it draw at most, at peak?", "most(load)"),
    ("What does it draw at least, at peak?", "least(load)"),
    ("What does it cost at least?", "least(price)"),
    ("What does it weigh at least?", "least(mass)"),
    ("How fast is memory at least?", "least(memory_speed)"),
    ("Are the supplies always redundant?", "always(supplies_redundant)"),
    ("Is the air always redundant?", "always(air_redundant)"),
)
"""Questions about any machine, beside those for its maxima."""

FACTS = (
    ("When does it ship?", "book.ships"),
    ("Until when can it be ordered?", "book.last_order"),
    ("How high is it?", "chassis.height"),
    ("How deep is it?", "chassis.depth"),
)


@dataclass(frozen=True, slots=True)
class Question:
    """A question with its query.

    Args:
        says: the question in words.
        query: what answers it.
        maximum: the maximum it asks for, or ``None``.
    """

    says: str
    query: Query
    maximum: Maximum | None = None


class Answers:
    """What the template of questions may call.

    Args:
        desk: what the parts of the sheet share.
    """

    def __init__(self, desk: Desk) -> None:
        self._desk, self._writer = desk, desk.writer
        self._depth = LENGTHS.index(desk.asked.length)

    def all(self) -> str:
        """Return every question with its answer; of two that are asked the same the first."""
        blocks: list[Block] = []
        asked: set[str] = set()
        for question in self._questions():
            if question.query.text not in asked:
                blocks += self._answered(question)
                asked.add(question.query.text)
        return self._desk.blocks(*blocks)

    def _questions(self) -> Iterator[Question]:
        yield from self._listed()
        for item in items(self._writer):
            many = f"of {item.one}" if item.part else item.words
            words = f"much {item.one}" if item.amount else f"many {many}"
            query = Query("bound", f"most({item.expression})")
            yield Question(f"How {words} at most?", query)
        for says, text in NUMBERS:
            yield Question(says, Query("ask" if text.startswith("always") else "bound", text))
        for says, path in FACTS:
            if path in self._writer.shared.facts:
                yield Question(says, Query("fact", path))

    def _listed(self) -> Iterator[Question]:
        """Yield the questions that come with the book; those that follow on others are left out."""
        folder = self._writer.opened.folder / "questions"
        for path in sorted(folder.glob("*.yaml")):
            for each in read_questions(path):
                if not re.search(r"\b(them|it then|there)\b", each.says):
                    kind = "bound" if _is_bound(each.ask) else "ask"
                    yield Question(each.says, Query(kind, each.ask, as_of=each.as_of))

    def _answered(self, question: Question) -> Iterator[Block]:
        """Yield a question with as much of its answer as is wanted; what makes no sense not."""
        try:
            number, statement = self._writer.state(question.query)
        except Problems:
            return
        if statement.verdict == "stopped":
            return
        if self._depth == 0:
            short = Run(_short(statement, self._writer.said(question.query).text), "plain", number)
            yield Paragraph((Run(f"{question.says} ", "strong"), short))
            return
        yield Heading(3, question.says)
        yield Paragraph((Run(_sentence(statement), "plain", number), *self._more(statement)))
        if self._depth > 1:
            yield from self._full(number, statement)

    def _more(self, statement: Statement) -> Line:
        """Return what an answer costs elsewhere, as further sentences."""
        runs: list[Run] = []
        held = [e for e in self._maxima if e.statement.query.text == statement.query.text]
        for first in held:
            for other in self._excluded.get(first.item, ()):
                said = left(self._writer, first, other)
                runs += [Run(" Then "), *said, Run(".")]
        if statement.verdict == "no":
            runs += self._alone(statement)
        return tuple(runs)

    def _alone(self, statement: Statement) -> Iterator[Run]:
        """Yield which parts of a condition are possible by themselves, where it has several."""
        clauses = _clauses(statement.query.text)
        if len(clauses) < 2:
            return
        for clause in clauses:
            query = Query("ask", f"can({clause})", as_of=statement.query.as_of)
            try:
                number, alone = self._writer.state(query)
            except Problems:
                continue
            said = alone.words.partition(": ")[2].partition(": ")[0]
            word = "yes" if alone.verdict == "yes" else "no"
            yield Run(f" By itself, {said}: ")
            yield Run(f"{word}.", "plain", number)

    @cached_property
    def _maxima(self) -> Sequence[Maximum]:
        return brief_maxima(self._writer)

    @cached_property
    def _excluded(self) -> dict[Item, list[Maximum]]:
        return excluded_by(apart(self._writer, self._maxima))

    def _full(self, number: int, statement: Statement) -> Iterator[Block]:
        said = _sentence(statement)
        reasons = [
            each.sentence
            for each in statement.reasons
            if each.kind != "wish" and each.sentence not in said
        ]
        lines: list[Line] = [(Run(f"Because: {each}", "plain", number),) for each in reasons]
        shown = self._shown(statement)
        if shown:
            lines.append((Run(f"A build that shows it: {shown}.", "plain", number),))
        lines += self._facts(statement)
        if lines:
            yield Bullets(tuple(lines))

    def _shown(self, statement: Statement) -> str:
        """Return the build that shows an answer: what is in each place that is not empty."""
        names, witness = Names(self._writer.book), statement.witness or {}
        places = [p for p in self._writer.book.places if witness.get(p, "empty") != "empty"]
        return "; ".join(f"{names.place(p)}: {names.label(p, witness[p])}" for p in places)

    def _facts(self, statement: Statement) -> Iterator[Line]:
        facts = list(dict.fromkeys(fact.path for fact in statement.facts))
        known = [path for path in facts if path in self._writer.shared.facts]
        for path in known[:MOST_FACTS]:
            number, fact = self._writer.state(Query("fact", path))
            said = (fact.value["source"], fact.value["date"], fact.value["status"])
            of = ", ".join(filter(None, map(str, said)))
            yield (Run(path, "code"), Run(f": {fact.value['value']} ({of})", "plain", number))


def _is_bound(text: str) -> bool:
    return bool(re.match(r"(most|least)\(", text)) and "then" not in text


ANSWERS = {
    "yes": "Yes, a legal build has it.",
    "always": "Yes, every legal build has it.",
    "not always": "No, not every legal build has it.",
}


def _short(statement: Statement, shown: str) -> str:
    """Return the answer in a few words."""
    match statement.verdict:
        case "most" | "least":
            return f"At {statement.verdict} {shown}."
        case "no":
            return "No."
        case _:
            return _sentence(statement)


def _sentence(statement: Statement) -> str:
    """Return the answer in a sentence or two, which follow the question."""
    match statement.verdict:
        case "fact":
            return f"{statement.value['value']}."
        case "list":
            return f"There are {len(statement.value['rows'])} combinations."
        case "no":
            return f"No. {_why(statement)}"
        case "not together":
            return f"Not all of them. {statement.words.rpartition(': These')[2].partition('. ')[2]}"
        case verdict if verdict in ANSWERS:
            return ANSWERS[verdict]
        case _:
            return capitalised(statement.words)


def _why(statement: Statement) -> str:
    said = statement.words.partition(": no. ")[2].removeprefix("No legal build has this. ")
    return said or "No legal build has it."


def _clauses(text: str) -> list[str]:
    """Return the parts of a condition that are joined by ``and`` outside brackets.

    >>> _clauses("P2 == empty and count(drive) == 16"), _clauses("most(load)")
    (['P2 == empty', 'count(drive) == 16'], ['most(load)'])
    """
    parts, depth, held = [], 0, ""
    for piece in re.split(r"(\(|\)| and )", text):
        depth += {"(": 1, ")": -1}.get(piece, 0)
        if piece == " and " and depth == 0:
            parts.append(held)
            held = ""
        else:
            held += piece
    return [*parts, held]
