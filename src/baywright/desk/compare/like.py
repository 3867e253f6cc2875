"""The like of a build in another book: its parts, swapped for the likest that machine takes."""

from __future__ import annotations

from dataclasses import dataclass

from baywright.answers.verdicts import Proof, Witness, Yes
from baywright.desk.compare.builds import Made, compare_made
from baywright.desk.compare.rows import Comparison
from baywright.desk.opening import Opened
from baywright.desk.order.asked import Asked, asked, roles
from baywright.desk.order.reading import Line, Order
from baywright.desk.order.repair import Repair, repairs
from baywright.laws.machine import Machine
from baywright.laws.power import LINE
from baywright.laws.wishes import Wish, read_wishes
from baywright.problems import Mark, problem
from baywright.space import Origin, Table


@dataclass(frozen=True)
class Like:
    """A build of one book with its like in another.

    Args:
        first: the build.
        second: its like.
        repair: which part became which, what was added and what is left.
        asked: the parts of the first, as asked of the second machine.
        comparison: the two side by side.
        proof: who found that no fewer changes do, and who proved it again.
    """

    first: Made
    second: Made
    repair: Repair
    asked: Asked
    comparison: Comparison
    proof: Proof


def like(first: Made, second: Opened, voltage: str = "") -> Like:
    """Return the build of another book that is most like a build.

    Parts are matched by kind; of those with the fewest changes it is the one that keeps the size
    of the build, with the likest parts, at the least price.

    Args:
        first: the build.
        second: the other book.
        voltage: voltage of the feeds, as the build states it, or empty.

    Raises:
        Problems: when the build cannot be built, or nothing is like it.
        StoppedError: at a limit.
    """
    if first.shown is None:
        message = f"{first.name} cannot be built, so nothing is like it."
        raise problem("not-built", message, None, "The command judge says why.")
    held = asked(_as_order(first, second), second.machine)
    kept = (
        read_wishes(second.machine, f"voltage == {voltage}", Mark("voltage", 1, 1))
        if voltage
        else []
    )
    found = repairs(second.inquiry(), held, kept)
    if not found:
        message = f"{second.book.book.name} has no build on that voltage."
        raise problem("not-built", message, None, "Leave the voltage out of the build.")
    best = found[0]
    name = f"the like of {first.name}"
    wishes = (_as_wish(second.machine, best.witness), *kept)
    made = Made(second, name, Yes(best.witness, best.proof), wishes, best.witness)
    return Like(first, made, best, held, compare_made(first, made), best.proof)


def _as_wish(machine: Machine, shown: Witness) -> Wish:
    """Return a build as a wish for everything in it but its input power."""
    origin = Origin("wish:like", "wish", "It is the build that is most like the first.")
    chosen = (name for name, f in machine.frame.fittings.items() if not f.derived and name != LINE)
    tables = tuple(Table((name,), frozenset({(shown.values[name],)}), origin) for name in chosen)
    return Wish(origin, "the like", (), tables)


def _as_order(first: Made, second: Opened) -> Order:
    """Return the parts of a build as an order of another book: every line is for a foreign part.

    Blanks, what other parts bring and fans follow from the build there and are no lines.
    """
    book, follow = first.opened.book, roles(second.machine).follow
    left_out = {"kit", *(second.book.parts[part].kind for part in follow)}
    parts = first.shown.parts if first.shown else {}
    lines = tuple(
        Line(part, f"{number} × {part}", number, (), "", book.book.id, part)
        for part, number in parts.items()
        if book.parts[part].kind not in left_out
    )
    return Order(second.book, 1, lines, others={book.book.id: book})
