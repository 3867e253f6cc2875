"""The machine that stands: its build, what its parts still may, and what it keeps."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import partial

from baywright.answers import questions
from baywright.answers.figures import amount
from baywright.answers.inquiry import Inquiry
from baywright.answers.softening import CHANGED, soften, switch_of
from baywright.answers.verdicts import Verdict, Yes
from baywright.desk.judging import wishes_of_build
from baywright.desk.opening import Opened
from baywright.engines.contract import Objective
from baywright.facts.build import Build
from baywright.facts.parts import Cage, Part
from baywright.laws.builds import codes_of, parts_list
from baywright.laws.formula import compared, encode
from baywright.laws.linear import Linear
from baywright.laws.machine import Machine
from baywright.laws.power import LINE
from baywright.laws.wishes import Wish, with_wishes
from baywright.space import Assignment, Origin, Sum, Table

KEPT_NUMBERS = ("cores", "memory", "raw_capacity")
"""Numbers of which a machine keeps what it has."""

KEPT_KINDS = ("accelerator", "network", "card", "boot", "media", "display")
"""Kinds of part of which a machine keeps as many as it has."""


@dataclass(frozen=True, slots=True)
class Standing:
    """A machine as it stands.

    Args:
        machine: its book, with the parts it has allowed to stay.
        verdict: whether its build is legal, with the complete build if so.
    """

    machine: Machine
    verdict: Verdict

    @property
    def values(self) -> Assignment | None:
        """The complete build, or ``None`` when it is not legal."""
        return self.verdict.witness.values if isinstance(self.verdict, Yes) else None


def standing(opened: Opened, machine: Machine, build: Build) -> Standing:
    """Return a machine as it stands.

    Raises:
        Problems: for what the book has no choice for.
        StoppedError: at a limit.
    """
    codes = codes_of(machine, build)
    allowed = owned_may_stay(machine, parts_list(machine, codes))
    plain = build.model_copy(update={"must": []})
    wishes = [*wishes_of_build(allowed, plain), *_unrecorded(allowed, codes, build)]
    verdict = questions.possible(opened.inquiry(allowed), wishes)
    return Standing(allowed, verdict)


def owned_may_stay(machine: Machine, owned: Mapping[str, int]) -> Machine:
    """Return a machine in which parts that cannot be ordered may stay where they are owned."""
    origins = machine.space.origins
    keys = {
        key: part
        for part in owned
        for key in (f"parts.last_order/{part}", f"parts.ships/{part}")
        if key in origins
    }
    space = machine.space.without(keys)
    sums = [_no_more(machine, origins[key], part, owned[part]) for key, part in keys.items()]
    return replace(machine, space=space.extended(sums=sums))


def _no_more(machine: Machine, origin: Origin, part: str, owned: int) -> Sum:
    fitted = machine.frame.linear(partial(_is, part))
    weights = tuple((name, tuple(map(int, row))) for name, row in fitted.weights.items())
    return Sum(weights, owned, origin)


def _unrecorded(machine: Machine, codes: Mapping[str, int], build: Build) -> Iterator[Wish]:
    """Yield the wish that places of which the build says nothing stay as they are taken to be."""
    said = {name for wish in wishes_of_build(machine, build) for name, _ in wish.asked}
    left = {name: at for name, at in codes.items() if name not in said and name != LINE}
    origin = Origin("wish:unrecorded", "wish", "Asked: nothing beside what the build names.")
    tables = tuple(Table((name,), frozenset({(at,)}), origin) for name, at in left.items())
    if tables:
        yield Wish(origin, "nothing beside what the build names", (), tables, hard=True)


@dataclass(frozen=True, slots=True)
class Holding:
    """What a machine has that the machine it becomes has to keep.

    Args:
        numbers: totals by name, in canonical units.
        kinds: number of parts by kind.
        fixed: bays of cages whose drives are changed with power off.
        settings: value of each setting.
    """

    numbers: Mapping[str, Fraction]
    kinds: Mapping[str, int]
    fixed: int
    settings: Mapping[str, str]


def holding(machine: Machine, values: Assignment) -> Holding:
    """Return what a build has that the machine it becomes has to keep."""
    kinds: Counter[str] = Counter()
    for part, number in parts_list(machine, values).items():
        kinds[machine.book.parts[part].kind] += number
    numbers = {
        name: named.meaning.value(values)
        for name, named in machine.names.items()
        if name in KEPT_NUMBERS and isinstance(named.meaning, Linear)
    }
    settings = {
        name: machine.frame.options(name)[values[name]].label for name in machine.book.settings
    }
    fixed = int(machine.frame.linear(_fixed_bays).value(values))
    return Holding(numbers, kinds, fixed, settings)


def kept(machine: Machine, drives: Mapping[str, int], held: Holding) -> list[Wish]:
    """Return what a machine keeps, as wishes that may be given up where the need is against them.

    Args:
        machine: the machine it becomes.
        drives: drives that stay, by id in its book.
        held: what the machine that stands has.
    """
    return [
        *_numbers(machine, held),
        *(_drives(machine, part, number) for part, number in drives.items()),
        *_kinds(machine, held),
        *_settings(machine, held),
    ]


def _numbers(machine: Machine, held: Holding) -> Iterator[Wish]:
    for name, least in held.numbers.items():
        named = machine.names.get(name)
        if least and named is not None and isinstance(named.meaning, Linear):
            shown = amount(least, named.meaning.dimension, "down")
            said = f"{named.words} is not less than {shown}"
            yield _at_least(machine, name, named.meaning, least, said)


def _drives(machine: Machine, part: str, number: int) -> Wish:
    said = f"all {number} of {machine.book.parts[part].name} stay, with their data"
    total = machine.frame.linear(partial(_is, part))
    return _at_least(machine, part, total, Fraction(number), said)


def _kinds(machine: Machine, held: Holding) -> Iterator[Wish]:
    frame = machine.frame
    for kind in KEPT_KINDS:
        if held.kinds.get(kind):
            least = Fraction(held.kinds[kind])
            said = f"there are not fewer than {least} of the kind {kind}"
            yield _at_least(machine, kind, frame.linear(partial(_is_of, kind)), least, said)
    if held.kinds.get("drive"):
        fixed = frame.linear(_fixed_bays).scaled(-1)
        said = "no more drives than now are changed with power off"
        yield _at_least(machine, "hot-swap", fixed, Fraction(-held.fixed), said)


def _settings(machine: Machine, held: Holding) -> Iterator[Wish]:
    for name, value in held.settings.items():
        labels = []
        if name in machine.book.settings:
            labels = [option.label for option in machine.frame.options(name)]
        if value in labels:
            said = f"{machine.book.settings[name].name} stays {value}"
            origin = Origin(f"keep:{name}", "wish", f"Kept: {said}.")
            table = Table((name,), frozenset({(labels.index(value),)}), origin)
            yield Wish(origin, said, (), (table,))


def _fixed_bays(_: str, part: Part) -> int:
    fixed = isinstance(part, Cage) and part.hot_swap is not None and not part.hot_swap.known
    return part.bays.known if fixed and isinstance(part, Cage) else 0


def _is(wanted: str, name: str, _: Part) -> int:
    return int(name == wanted)


def _is_of(kind: str, _: str, part: Part) -> int:
    return int(part.kind == kind)


def _at_least(machine: Machine, key: str, total: Linear, least: Fraction, said: str) -> Wish:
    origin = Origin(f"keep:{key}", "wish", f"Kept: {said}.")
    encoded = encode(compared(total.minus(Linear(constant=least)), ">="), origin, machine.sizes)
    return Wish(origin, said, tuple(encoded.choices), tuple(encoded.laws))


def given_up(inquiry: Inquiry, wishes: Sequence[Wish], keeps: Sequence[Wish]) -> tuple[Wish, ...]:
    """Return what has to be given up of what a machine keeps, as few as possible.

    Args:
        inquiry: the machine and the engines.
        wishes: what is needed; some legal build has it.
        keeps: what is kept.

    Raises:
        StoppedError: at a limit.
    """
    space = inquiry.machine.space
    if inquiry.possible(with_wishes(space, [*wishes, *keeps])) is not None:
        return ()
    softened = soften(space, [*(replace(wish, hard=True) for wish in wishes), *keeps])
    switches = Objective(tuple((switch_of(wish), (0, 1)) for wish in softened.soft))
    found = inquiry.best(softened.space, switches)
    if found is None:
        raise ValueError("what is needed is not possible")
    return tuple(wish for wish in softened.soft if found.values[switch_of(wish)] == CHANGED)
