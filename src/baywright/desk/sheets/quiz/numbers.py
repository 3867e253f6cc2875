"""Questions for a number: the most of something, under conditions, and by scope."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from baywright.answers.figures import amount
from baywright.desk.guide.tables.making import by_processors
from baywright.desk.guide.tables.maxima import PORTS, Item, Maximum, items, most_of
from baywright.desk.guide.writer import Writer
from baywright.desk.sheets.quiz.puzzle import Bench, Option, Puzzle, puzzle
from baywright.desk.statements.query import Query
from baywright.desk.statements.values import figure_of
from baywright.facts.places import Socket
from baywright.problems import Problems
from baywright.units import DIMENSIONS
from baywright.units.printing import plain_number

BITS = 8
"""Bits of a byte."""

MOST_GIVEN = 2
"""How many conditions a question has at most."""


@dataclass(frozen=True, slots=True)
class Given:
    """A condition.

    Args:
        says: the condition in words, after ``with``.
        expression: the same as an expression.
    """

    says: str
    expression: str


def most_puzzle(bench: Bench) -> Puzzle | None:
    """Return a question for the most of something, often under conditions; or ``None``."""
    writer, chance = bench.writer, bench.chance
    item = chance.choice([each for each in items(writer) if not each.part])
    given = _drawn(bench, chance.randint(0, MOST_GIVEN))
    found = most_of(writer, item, " and ".join(each.expression for each in given))
    if found is None or found.statement.value["value"] == "0":
        return None
    if given and _same(found, most_of(writer, item)):
        return None  # the condition changes nothing, so nobody can slip on it
    words = f"much {item.one}" if item.amount else f"many {item.words}"
    beside = f" with {' and '.join(each.says for each in given)}" if given else ""
    says = f"How {words} can the {writer.book.book.name} have at most{beside}?"
    right = Option(found.shown, found.number)
    asked = _Asked(writer, found, given)
    return puzzle(says, right, asked.wrong(), chance)


def _same(found: Maximum, other: Maximum | None) -> bool:
    return other is not None and other.statement.value == found.statement.value


def _drawn(bench: Bench, count: int) -> list[Given]:
    """Draw conditions on different places."""
    held = _conditions(bench.writer)
    chosen = bench.chance.sample(sorted(held), min(count, len(held)))
    return [bench.chance.choice(held[place]) for place in chosen]


def _conditions(writer: Writer) -> dict[str, list[Given]]:
    """Return by place of the skeleton what can be said of it."""
    found: dict[str, list[Given]] = {}
    for place in writer.book.book.skeleton:
        if place in writer.opened.machine.frame.fittings:
            found[place] = list(_fillings(writer, place))
    counts = by_processors(writer)
    if len(counts) > 1:
        found["processors"] = [
            Given(f"{count} processor{'' if count == 1 else 's'}", text) for count, text in counts
        ]
    return {place: held for place, held in found.items() if held}


def _fillings(writer: Writer, place: str) -> Iterator[Given]:
    names = writer.names
    for option in writer.opened.machine.frame.options(place):
        if option.label == "empty":
            yield Given(f"{names.place(place)} empty", f"{place} == empty")
        elif option.label in writer.book.parts:
            name = writer.book.parts[option.label].name
            yield Given(f"{names.place(place)} holding {name}", f'{place} == "{option.label}"')


@dataclass(frozen=True, slots=True)
class _Asked:
    """A question for the most of something, with what goes wrong when it is answered.

    Args:
        writer: answers the queries.
        found: the right answer.
        given: its conditions.
    """

    writer: Writer
    found: Maximum
    given: list[Given]

    def wrong(self) -> Iterator[Option]:
        """Yield wrong options, each proven false."""
        for slip, value in self._slips():
            option = self.false(value, slip)
            if option is not None:
                yield option

    def _slips(self) -> Iterator[tuple[str, Fraction | None]]:
        value = _value(self.found)
        if self.given:
            yield "condition", self._of("most", "")
        yield "generation", self._before()
        step = zone_step(self.writer) if self.found.item.one.endswith(("drive", "bay")) else None
        if step is not None:
            yield "zone", value + step
            yield "zone", value - step
        processors = len(list(self.writer.book.places_of(Socket)))
        if processors > 1 and value % processors == 0:
            yield "share", value / processors
        yield "least", self._of("least", " and ".join(each.expression for each in self.given))
        if not self.found.item.amount:
            yield "one", value + 1
            yield "one", value - 1
        if figure_of(self.found.statement.value).dimension in ("memory", "capacity"):
            yield "unit", value * BITS
            yield "unit", value / BITS

    def _of(self, side: str, given: str) -> Fraction | None:
        condition = f", given={given}" if given else ""
        return self._number(Query("cell", f"{side}({self.found.item.expression}{condition})"))

    def _before(self) -> Fraction | None:
        before = self.writer.book.book.predecessor
        query = Query("cell", f"most({self.found.item.expression})", book=str(before))
        return self._number(query) if before is not None else None

    def _number(self, query: Query) -> Fraction | None:
        try:
            _, statement = self.writer.state(query)
        except Problems:
            return None
        bound = statement.verdict in ("most", "least")
        return Fraction(statement.value["value"]) if bound else None

    def false(self, value: Fraction | None, slip: str) -> Option | None:
        """Return a wrong number with its proof: a build has more, or none has as many."""
        right = _value(self.found)
        if value is None or value == right or value <= 0:
            return None
        figure = figure_of(self.found.statement.value)
        unit = DIMENSIONS[figure.dimension].canonical if figure.dimension else ""
        sign = ">=" if value > right else ">"
        beyond = f"{self.found.item.expression} {sign} {plain_number(value)} {unit}".rstrip()
        conditions = " and ".join([beyond, *(each.expression for each in self.given)])
        number, statement = self.writer.state(Query("cell", f"can({conditions})"))
        if (statement.verdict == "yes") != (value < right):
            return None
        return Option(amount(value, figure.dimension, "down"), number, slip)


def _value(found: Maximum) -> Fraction:
    return Fraction(found.statement.value["value"])


def zone_step(writer: Writer) -> Fraction | None:
    """Return how many bays a zone has at most, where there are zones; else ``None``."""
    zones = [place for place in writer.book.places.values() if place.type == "zone"]
    if not zones:
        return None
    _, statement = writer.state(Query("cell", "most(bays)"))
    return Fraction(statement.value["value"]) / len(zones) if statement.verdict == "most" else None


SCOPES = {"front": "at the front", "rear": "at the rear", "inside": "inside"}
"""Where ports are, as it is said in a question."""


def scope_puzzle(bench: Bench) -> Puzzle | None:
    """Return a question for the ports at one side, with other sides and the total as slips."""
    writer, chance = bench.writer, bench.chance
    held = [*writer.book.chassis.ports, *(p for x in writer.book.parts.values() for p in x.ports)]
    if not held:
        return None
    port = str(chance.choice(held).type)
    scopes = list(dict.fromkeys(str(each.scope) for each in held if str(each.type) == port))
    item = Item(f"{PORTS.get(port, port)} port", f'ports("{port}")')
    total = most_of(writer, item)
    by_scope = {s: most_of(writer, replace(item, expression=_at(port, s))) for s in scopes}
    scope = chance.choice(scopes)
    right = by_scope.pop(scope)
    if right is None or right.shown == "0":
        return None
    asked = _Asked(writer, right, [])
    others = [("scope", each) for each in (total, *by_scope.values()) if each is not None]
    wrong = [asked.false(_value(each), slip) for slip, each in others]
    wrong.append(asked.false(_value(right) + 1, "one"))
    where = SCOPES.get(scope, scope)
    says = f"How many {item.words} can the {writer.book.book.name} have at most {where}?"
    kept = [each for each in wrong if each is not None]
    return puzzle(says, Option(right.shown, right.number), kept, chance)


def _at(port: str, scope: str) -> str:
    return f'ports("{port}", at="{scope}")'


def together_puzzle(bench: Bench, pairs: list[tuple[Maximum, Maximum]]) -> Puzzle | None:
    """Return a question for what can be had at once, with maxima that exclude each other.

    Args:
        bench: what makers share.
        pairs: maxima that no build reaches together.
    """
    writer, chance = bench.writer, bench.chance
    if len(pairs) <= 1:
        return None
    one, other = chance.choice(pairs)
    held = most_of(writer, other.item, one.reached)
    if held is None:
        return None
    right = Option(_both(one, held), writer.state(_joined(one, held))[0])
    chance.shuffle(pairs)
    wrong = [Option(_both(*each), writer.state(_joined(*each))[0], "alone") for each in pairs]
    says = f"Which of these can one {writer.book.book.name} have at once?"
    return puzzle(says, right, wrong, chance)


def _joined(one: Maximum, other: Maximum) -> Query:
    level = other.reached if _value(other) else f"{other.item.expression} == 0"
    return Query("cell", f"can({one.reached} and {level})")


def _both(one: Maximum, other: Maximum) -> str:
    return f"{_counted(one)} and {_counted(other)}"


def _counted(each: Maximum) -> str:
    if not _value(each):
        return f"no {each.item.one}"
    return f"{each.shown}{each.item.counted(each.shown)}"
