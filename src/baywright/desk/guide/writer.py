"""The writer of a guide: asks queries, keeps their statements, and words what they say."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from baywright.answers.figures import amount
from baywright.answers.wording import Names
from baywright.desk.opening import Opened
from baywright.desk.size.telling import value_text
from baywright.desk.statements.query import Query
from baywright.desk.statements.shared import Shared
from baywright.desk.statements.statement import Statement
from baywright.desk.statements.stating import state
from baywright.desk.statements.values import figure_of
from baywright.facts.book import Book
from baywright.papers.document import Line, Run, Style
from baywright.papers.markdown import Pieces

NOT_DECIDED = "not decided"


@dataclass
class Writer:
    """Writes about one open book.

    Args:
        shared: the book with what its statements share.
        pieces: what the marks in the text stand for.
    """

    shared: Shared
    pieces: Pieces = field(default_factory=Pieces)
    _numbers: dict[Query, int] = field(default_factory=dict)
    _statements: list[Statement] = field(default_factory=list)

    @property
    def opened(self) -> Opened:
        """The open book."""
        return self.shared.opened

    @property
    def book(self) -> Book:
        """The facts."""
        return self.opened.book

    @property
    def names(self) -> Names:
        """What the book calls its places and parts."""
        return Names(self.book)

    @property
    def statements(self) -> tuple[Statement, ...]:
        """The statements made so far, in the order of their numbers."""
        return tuple(self._statements)

    def state(self, query: Query) -> tuple[int, Statement]:
        """Return the statement that answers a query, with its number; each is made once.

        Raises:
            Problems: when the query makes no sense for the book.
        """
        if query not in self._numbers:
            made = state(self.shared, query)
            self._statements.append(made)
            self._numbers[query] = len(self._statements)
        number = self._numbers[query]
        return number, self._statements[number - 1]

    def said(self, query: Query, style: Style = "plain") -> Run:
        """Return what answers a query as a few words that know their statement."""
        number, statement = self.state(query)
        return Run(shown(statement), style, number)

    def cell(self, question: str, style: Style = "plain") -> Run:
        """Return the answer to a question of a table."""
        return self.said(Query("cell", question), style)

    def fact(self, path: str, style: Style = "plain") -> Run:
        """Return a fact as it is written; a dash where the book does not state it."""
        if path not in self.shared.facts:
            return Run("–", style)
        return self.said(Query("fact", path), style)

    def figure(self, key: str, build: str, site: str = "") -> Run:
        """Return a figure of a build."""
        return self.said(Query("figure", key, build, site))

    def part(self, name: str) -> Line:
        """Return the name of a part, with what has to be said of it on the day."""
        part = self.book.parts[name]
        return (Run(str(part.name)), *self.standing(name))

    def standing(self, name: str) -> Line:
        """Return what a part is on the day, where that is not simply that it ships."""
        part, day, path = self.book.parts[name], self.opened.as_of, f"parts.{name}"
        stated = {fact.status for fact in (part.power, part.price) if fact is not None}
        if part.announced is not None and day < part.announced.known:
            return (Run(" (planned, not to be named before "), self.fact(f"{path}.announced"), END)
        if part.ships is not None and day < part.ships.known:
            return (Run(" (planned, ships from "), self.fact(f"{path}.ships"), END)
        if part.last_order is not None and day > part.last_order.known:
            return (Run(" (withdrawn, ordered until "), self.fact(f"{path}.last_order"), END)
        return (Run(" (pre-release)"),) if "pre-release" in stated else ()

    def parts_named(self, names: Iterable[str]) -> Line:
        """Return the names of parts as a list in a sentence."""
        return joined([self.part(name) for name in names])


END = Run(")")


def shown(statement: Statement) -> str:
    """Return the value of a statement in a few words, to stand in a cell or a sentence."""
    value = statement.value
    match statement.verdict:
        case "most" | "least":
            rounding = "down" if statement.verdict == "most" else "up"
            figure = figure_of(value)
            return amount(figure.value, figure.dimension, rounding)  # type: ignore[arg-type]
        case "fact":
            return str(value["value"]) if value["value"] != "unknown" else NOT_DECIDED
        case "figure":
            return value_text(float(value["value"]), str(value["unit"]))
        case "yes" if statement.query.text.startswith(("most(", "least(")):
            return "–"  # builds have no such number
        case "yes" | "always":
            return "yes"
        case "no" | "not always":
            return "no"
        case "list":
            return str(len(value["rows"]))
        case _:
            return NOT_DECIDED


def rows_of(statement: Statement) -> list[list[str]]:
    """Return the rows of a list; none where unknown facts decide what stands in it."""
    rows: list[list[str]] = statement.value.get("rows", [])
    return rows


def joined(parts: list[Line], last: str = " and ") -> Line:
    """Return lines as a list in a sentence."""
    runs: list[Run] = []
    for at, part in enumerate(parts):
        if at:
            runs.append(Run(last if at == len(parts) - 1 else ", "))
        runs += part
    return tuple(runs)


def text(words: str, style: Style = "plain") -> Line:
    """Return bare words as a line."""
    return (Run(words, style),)
