"""Synthetic platforms of many shapes, as spaces: the same shape and seed give the same space.

Every number is drawn; none is that of a machine. A platform has sockets with identical
processors, memory modules of several sizes, risers with slots for cards of one or two widths, cages
for drives of many kinds that are counted, a controller, supplies, and one sum over nearly all of
it: the power.
"""

from __future__ import annotations

import itertools
import random
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace

from baywright.space import Choice, Origin, Space, Sum, Table

POWER = "power"
"""Key of the sum over nearly everything, which is kept as the budget."""

COUNTS = (0, 1, 2, 4, 6, 8, 12, 16)
FAMILIES = 4
RATINGS = (800, 1200, 1600, 2000, 2700)


@dataclass(frozen=True, slots=True)
class Shape:
    """How large a platform is.

    Args:
        sockets: processors it takes; each feeds the slots of one riser.
        slots: slots, spread evenly over the risers.
        cards: kinds of card; one in eight takes two slots.
        cages: cages, each for drives of one interface or of both.
        bays: bays of a cage.
        drives: kinds of drive, half of them for either interface.
        modules: kinds of memory module.
        processors: kinds of processor.
        limits: at most so many of each of so many kinds of card, over all slots.
    """

    sockets: int = 2
    slots: int = 8
    cards: int = 40
    cages: int = 3
    bays: int = 8
    drives: int = 25
    modules: int = 6
    processors: int = 20
    limits: tuple[int, int] | None = None

    def scaled(self, what: str, factor: int) -> Shape:
        """Return the shape with so many times as much of one thing, a field of the shape."""
        return replace(self, **{what: getattr(self, what) * factor})


SHAPES = {
    "one socket": Shape(sockets=1, slots=3, cages=1, drives=8, modules=4),
    "many drives": Shape(slots=11, cages=2, bays=12, drives=60),
    "four sockets": Shape(sockets=4, slots=16, cages=4),
}
HARD = {
    "4 of each of 14": Shape(limits=(4, 14)),
    "2 of each of 8": Shape(limits=(2, 8)),
}
"""At most so many of each kind of card over eight slots, some cards taking two of them."""


def platform(shape: Shape, seed: int = 1) -> Space:
    """Return a platform of that shape."""
    draft = _Draft(shape, random.Random(seed))  # noqa: S311 - a repeatable draw, no secret
    for add in (_processors, _memory, _slots, _limits, _storage, _supplies):
        add(draft)
    draft.total(POWER, draft.power, -60)
    return Space(tuple(draft.choices), tuple(draft.tables), tuple(draft.sums))


Weights = dict[str, tuple[int, ...]]


@dataclass(slots=True)
class _Draft:
    """A platform in the making.

    Args:
        shape: how large it is to be.
        random: where numbers are drawn from.
        power: watts of each value of the choices that draw or give power.
        lanes: for each socket, the lanes that each value of a choice takes of it.
    """

    shape: Shape
    random: random.Random
    choices: list[Choice] = field(default_factory=list)
    tables: list[Table] = field(default_factory=list)
    sums: list[Sum] = field(default_factory=list)
    power: Weights = field(default_factory=dict)
    lanes: list[Weights] = field(default_factory=list)
    sizes: dict[str, int] = field(default_factory=dict)

    def choice(self, name: str, values: Iterable[object], *, derived: bool = False) -> str:
        self.choices.append(Choice(name, tuple(map(str, values)), derived))
        self.sizes[name] = self.choices[-1].size
        return name

    def table(self, key: str, scope: tuple[str, ...], allows: Callable[..., bool]) -> None:
        """Add a table of the rows for which ``allows`` is true."""
        rows = itertools.product(*(range(self.sizes[name]) for name in scope))
        self.rows(key, scope, (row for row in rows if allows(*row)))

    def rows(self, key: str, scope: tuple[str, ...], rows: Iterable[tuple[int, ...]]) -> None:
        self.tables.append(Table(scope, frozenset(rows), _origin(key)))

    def total(self, key: str, weights: Mapping[str, tuple[int, ...]], at_most: int) -> None:
        self.sums.append(Sum(tuple(weights.items()), at_most, _origin(key)))


def _origin(key: str) -> Origin:
    return Origin(key, "law", f"The law of {key} holds.")


def _processors(draft: _Draft) -> None:
    """Add identical processors, the first always there; ``fitted`` is their number less one."""
    sockets, kinds = draft.shape.sockets, draft.shape.processors
    names = [draft.choice(f"processor {i + 1}", range(kinds + 1)) for i in range(sockets)]
    draft.choice("fitted", range(1, sockets + 1), derived=True)
    draft.rows(
        "processors are identical",
        (*names, "fitted"),
        (
            ((kind,) * (used + 1) + (0,) * (sockets - used - 1) + (used,))
            for kind in range(1, kinds + 1)
            for used in range(sockets)
        ),
    )
    watts = (0, *(draft.random.randrange(100, 400) for _ in range(kinds)))
    draft.power.update(dict.fromkeys(names, watts))
    draft.lanes.extend({} for _ in names)


def _memory(draft: _Draft) -> None:
    """Add counts of modules, at most two kinds of them, none faster than the speed set."""
    fastest = [draft.random.randrange(1, 4) for _ in range(draft.shape.modules)]
    speed = draft.choice("memory speed", (4400, 4800, 5200, 5600))
    names = []
    for number, most in enumerate(fastest, 1):
        name = draft.choice(f"modules {number}", COUNTS)
        draft.table(
            f"speed of modules {number}", (name, speed), lambda n, s, m=most: not n or s <= m
        )
        draft.power[name] = tuple(count * (3 + number) for count in COUNTS)
        names.append(name)
    room = {"fitted": tuple(-16 * (i + 1) for i in range(draft.shape.sockets))}
    draft.total("room for modules", dict.fromkeys(names, COUNTS) | room, 0)
    draft.total("kinds of module", dict.fromkeys(names, (0,) + (1,) * (len(COUNTS) - 1)), 2)


def _slots(draft: _Draft) -> None:
    """Add a riser for each socket, with slots; a wide card leaves no room in the slot after it."""
    shape, chance = draft.shape, draft.random
    wide = (False, *(card % 8 == 0 for card in range(1, shape.cards + 1)))
    lanes = (0, *(chance.choice((4, 8, 16)) for _ in range(shape.cards)))
    watts = (0, *(chance.randrange(5, 150) for _ in range(shape.cards)))
    risers = [draft.choice(f"riser {i + 1}", range(4)) for i in range(shape.sockets)]
    for owner, riser in enumerate(risers):
        draft.table(f"{riser} is fed", (riser, "fitted"), lambda r, f, o=owner: not r or f >= o)
    before = (-1, "")
    for number in range(shape.slots):
        owner = number * shape.sockets // shape.slots
        slot, riser = draft.choice(f"slot {number + 1}", range(shape.cards + 1)), risers[owner]
        long = chance.random() < 0.5
        draft.table(
            f"{slot} fits",
            (slot, riser),
            lambda c, r, long=long: (
                not c or (r and (not wide[c] or (r == 2 and long)) and (r != 3 or lanes[c] <= 8))
            ),
        )
        if before[0] == owner:
            draft.table(f"{before[1]} is wide", (before[1], slot), lambda c, d: not (wide[c] and d))
        before = owner, slot
        draft.power[slot], draft.lanes[owner][slot] = watts, lanes


def _limits(draft: _Draft) -> None:
    """Add limits over all slots: for each family of cards, and for some kinds."""
    slots = [name for of_socket in draft.lanes for name in of_socket]
    cards = draft.shape.cards
    families = (-1, *(draft.random.randrange(FAMILIES) for _ in range(cards)))
    most, kinds = draft.shape.limits or (1, 0)
    for family in range(FAMILIES):
        weights = tuple(int(each == family) for each in families)
        # Never below the limit of a kind, which could then not be reached.
        at_most = most + draft.random.randrange(1, 5)
        draft.total(f"cards of family {family}", dict.fromkeys(slots, weights), at_most)
    for kind in range(1, kinds + 1):
        weights = tuple(int(card == kind) for card in range(cards + 1))
        draft.total(f"cards of kind {kind}", dict.fromkeys(slots, weights), most)


def _storage(draft: _Draft) -> None:
    """Add cages (none, serial, fast, both) with drives of many kinds, and a controller."""
    shape, bays = draft.shape, draft.shape.cages * draft.shape.bays
    cages = [
        draft.choice(f"cage {i + 1}", ("none", "serial", "fast", "any")) for i in range(shape.cages)
    ]
    for one, other in itertools.pairwise(cages):
        draft.table(f"{one} before {other}", (one, other), lambda a, b: a > 0 or b == 0)
    for number, cage in enumerate(cages):
        owner = number * shape.sockets // shape.cages
        draft.table(f"{cage} is fed", (cage, "fitted"), lambda c, f, o=owner: c < 2 or f >= o)
        draft.lanes[owner][cage] = (0, 0, 32, 16)
        draft.power[cage] = (0, 15, 10, 20)
    drives = [draft.choice(f"drives {i + 1}", range(bays + 1)) for i in range(shape.drives)]
    counts = tuple(range(bays + 1))
    for number, name in enumerate(drives):
        draft.power[name] = tuple(count * (8 + number % 3 * 6) for count in counts)
    half = len(drives) // 2
    for key, of_kind, holding in (
        ("serial drives", drives[:half], (0, 1, 0, 1)),
        ("fast drives", drives[half:], (0, 0, 1, 1)),
        ("all drives", drives, (0, 1, 1, 1)),
    ):
        room = dict.fromkeys(cages, tuple(-shape.bays * each for each in holding))
        draft.total(f"bays for {key}", dict.fromkeys(of_kind, counts) | room, 0)
    controller = draft.choice("controller", range(4))
    draft.power[controller] = (0, 9, 14, 19)
    ports = dict.fromkeys(cages, (0, 2, 0, 1)) | {controller: (0, -2, -4, -2 * shape.cages)}
    draft.total("ports", ports, 0)


def _supplies(draft: _Draft) -> None:
    """Add supplies, what they carry when some fail, fans, and the lanes of each socket."""
    supply = draft.choice("supply", RATINGS)
    number = draft.choice("supplies", (2, 3, 4))
    spare = draft.choice("spare", (0, 1, 2))
    carries = sorted({r * n for r in RATINGS for n in range(5)})
    carried = draft.choice("carries", carries, derived=True)
    draft.rows(
        "what supplies carry",
        (supply, number, spare, carried),
        (
            (r, n, s, carries.index(RATINGS[r] * (n + 2 - s)))
            for r, n, s in itertools.product(range(len(RATINGS)), range(3), range(3))
        ),
    )
    draft.power[carried] = tuple(-watts for watts in carries)
    fans = draft.choice("fans", range(3))
    draft.table("fans", (fans, "fitted"), lambda f, used: f > 0 or used == 0)
    draft.power[fans] = (40, 80, 120)
    for socket, weights in enumerate(draft.lanes, 1):
        draft.total(f"lanes of processor {socket}", weights, 80)
