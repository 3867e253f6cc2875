"""The notation of templates: Markdown in which every number, table and drawing is a query.

Templates are filled by Jinja in its sandbox. What a template may call is listed in ``Notation``;
docs/guide.md describes it for writers.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from baywright.desk.drawing import draw
from baywright.desk.guide.tables.registry import TABLES
from baywright.desk.guide.writer import Writer
from baywright.desk.statements.differing import difference
from baywright.desk.statements.query import Query
from baywright.desk.statements.statement import Statement
from baywright.drawing.reading import Shown, shown
from baywright.facts.cautions import CAUTIONS
from baywright.laws.wording import capitalised
from baywright.papers.document import Block, Figure, Run, Warned
from baywright.papers.filling import fill
from baywright.papers.markdown import Pieces, blocks_of
from baywright.problems import Problems, problem, suggestion

TITLES = {
    "front": "The front",
    "rear": "The rear",
    "inside": "Inside, from above",
    "side": "The side",
    "slots": "Slots",
    "airflow": "Air through the machine",
    "feeds": "Supplies and feeds",
    "memory": "Memory sockets",
    "cabling": "Cables of the zones",
}


@dataclass(frozen=True, slots=True)
class Template:
    """A chapter as it is written.

    Args:
        file: name of its file.
        text: Markdown with queries.
    """

    file: str
    text: str


@dataclass(frozen=True, slots=True)
class Named:
    """A part or a place, as templates see it.

    Args:
        id: its id in the book.
        name: its name.
    """

    id: str
    name: str


@dataclass(frozen=True, slots=True)
class Notation:
    """What a template may call.

    Args:
        writer: answers the queries.
        before: statements of the last issue, for the errata; none for a first issue.
    """

    writer: Writer
    before: tuple[Statement, ...] = ()

    @property
    def _pieces(self) -> Pieces:
        return self.writer.pieces

    def most(self, number: str, noun: str = "", given: str = "") -> str:
        """Return the proven most of a number, with a noun where it counts things."""
        return self._bound("most", number, noun, given)

    def least(self, number: str, noun: str = "", given: str = "") -> str:
        """Return the proven least of a number; otherwise like ``most``."""
        return self._bound("least", number, noun, given)

    def _bound(self, side: str, number: str, noun: str, given: str) -> str:
        condition = f", given={given}" if given else ""
        run = self.writer.cell(f"{side}({number}{condition})")
        words = f" {noun if run.text == '1' else noun + 's'}" if noun else ""
        return self._pieces.line(run, Run(words))

    def between(self, number: str, noun: str = "") -> str:
        """Return the number that every build has, or the least and the most."""
        least, most = self.writer.cell(f"least({number})"), self.writer.cell(f"most({number})")
        words = f" {noun if most.text == '1' else noun + 's'}" if noun else ""
        runs = (most,) if least.text == most.text else (least, Run(" to "), most)
        return self._pieces.line(*runs, Run(words))

    def can(self, condition: str) -> bool:
        """Say whether some legal build has a condition; for ``if``."""
        _, statement = self.writer.state(Query("cell", f"can({condition})"))
        return statement.verdict == "yes"

    def fact(self, path: str) -> str:
        """Return a fact as it is written."""
        return self._pieces.line(self.writer.fact(path))

    def facts(self, section: str) -> list[str]:
        """Return the facts of a list, one after the other."""
        paths = [path for path in self.writer.shared.facts if path.startswith(f"{section}.")]
        return [self.fact(path) for path in paths]

    def size(self, figure: str, build: str, site: str = "") -> str:
        """Return a figure of a build at a site."""
        return self._pieces.line(self.writer.figure(figure, build, site))

    def table(self, name: str) -> str:
        """Return a table by its name.

        Raises:
            Problems: kind ``unknown-table``.
        """
        if name not in TABLES:
            hint = suggestion(name, TABLES)
            raise problem("unknown-table", f"There is no table {name!r}.", None, hint)
        return self._pieces.blocks(*TABLES[name](self.writer))

    def drawing(self, view: str) -> str:
        """Return a view of the machine with nothing decided; nothing where it would be empty."""
        svg = draw(self.writer.opened, None, view)
        if not shown(svg):
            return ""
        title = TITLES.get(view, capitalised(view))
        return self._pieces.blocks(Figure(f"{title}.", svg, in_words(title, shown(svg))))

    def caution(self, *names: str) -> str:
        """Return cautions, each with its word.

        Raises:
            Problems: kind ``unknown-caution``.
        """
        for name in names:
            if name not in CAUTIONS:
                hint = suggestion(name, CAUTIONS)
                raise problem("unknown-caution", f"There is no caution {name!r}.", None, hint)
        held = (CAUTIONS[name] for name in names)
        warned = (Warned(c.word, c.hazard, c.consequence, c.avoidance) for c in held)
        return self._pieces.blocks(*warned)

    def has(self, what: str) -> bool:
        """Say whether the book has a type of place, a kind of part, or facts below a path."""
        book = self.writer.book
        if any(place.type == what for place in book.places.values()) or book.parts_of(what):
            return True
        facts = self.writer.shared.facts
        return what in facts or any(path.startswith(f"{what}.") for path in facts)

    def parts(self, kind: str) -> list[Named]:
        """Return the parts of a kind."""
        found = self.writer.book.parts_of(kind).items()
        return [Named(name, str(part.name)) for name, part in found]

    def places(self, kind: str) -> list[Named]:
        """Return the places of a type."""
        found = self.writer.book.places.items()
        return [Named(name, str(place.name)) for name, place in found if place.type == kind]

    def errata(self) -> str:
        """Return what the last issue said otherwise, as a list; nothing for a first issue."""
        return "\n".join(f"- {self._pieces.line(*line)}" for line in self._errata())

    def _errata(self) -> Iterator[tuple[Run, ...]]:
        for old in self.before:
            try:
                number, now = self.writer.state(old.query)
            except Problems:
                yield (Run(f"No longer: {old.words}"),)
                continue
            if now.value != old.value:
                yield (Run(difference(old, now), "plain", number),)


def in_words(title: str, places: Mapping[str, Shown]) -> str:
    """Return what a drawing shows in words, for those who do not see it."""
    said = "; ".join(f"{name}: {each.state}" for name, each in places.items())
    return f"{title}. {said}."


def filled(
    template: Template, notation: Notation, more: Mapping[str, object] | None = None
) -> tuple[Block, ...]:
    """Return a template as blocks, its queries answered.

    Args:
        template: the template.
        notation: what any template may call.
        more: what this one may call beside it, by name.

    Raises:
        Problems: kind ``template``, with file and line, for what the notation does not have;
            and whatever a query of it is refused for.
    """
    try:
        text = fill(template.text, template.file, {**_names(notation), **(more or {})}, HINT)
    except Problems as found:
        raise _placed(found, template) from found
    return blocks_of(text, notation.writer.pieces)


HINT = "docs/guide.md lists what a template may call."


def _placed(found: Problems, template: Template) -> Problems:
    first = found.problems[0]
    if first.mark is not None and first.mark.file == template.file:
        return found
    return problem(first.kind, f"{template.file}: {first.message}", None, first.hint)


CALLS = (
    *("most", "least", "between", "can", "fact", "facts", "size", "table", "drawing", "caution"),
    *("has", "parts", "places", "errata"),
)
"""What a template may call."""


def _names(notation: Notation) -> dict[str, object]:
    about, status = notation.writer.book.book, notation.writer.opened.status
    purpose = str(about.purpose.known)
    return {
        **{name: getattr(notation, name) for name in CALLS},
        "name": str(about.name),
        "maker": str(about.maker),
        "purpose": purpose,
        "article": "an" if purpose[:1].lower() in "aeiou" else "a",
        "status": status.word,
        "status_note": status.note,
        "first_issue": not notation.before,
    }
