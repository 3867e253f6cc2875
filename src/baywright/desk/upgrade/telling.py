"""An upgrade in words: the paths side by side, then each way with its steps, cautions first."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from baywright.answers.figures import amount
from baywright.answers.verdicts import Proof, Witness, Yes
from baywright.answers.wording import Names, Rows, Sheet, Voice, told
from baywright.desk.opening import Opened
from baywright.desk.space_telling import proof_words
from baywright.desk.upgrade.saying import acts_in_words, minutes, supplies_in_words
from baywright.desk.upgrade.steps import Step
from baywright.desk.upgrade.successor import Successor
from baywright.desk.upgrade.upgrading import Plans, Upgrade
from baywright.desk.upgrade.ways import Aimed, Bought, Way
from baywright.desk.upgrade.work import Effort
from baywright.facts.book import Book
from baywright.facts.cautions import CAUTIONS, PLANNING_AID, Caution
from baywright.facts.parts import Drive
from baywright.facts.status import standing_line
from baywright.laws.wording import capitalised, counted, listed
from baywright.units.printing import Rounding

TITLES: Mapping[Aimed, str] = {"cheapest": "cheapest", "gentlest": "least touched"}
OF_NUMBERS = ("redundancy",)
"""Cautions about the numbers that the paths are compared by."""

STANDS = Voice("It is legal as it stands.", "It is not legal as it stands.")
MEETS = Voice("It can be upgraded to this.", "No build of it meets the need.")


@dataclass(frozen=True, slots=True)
class StepSheet:
    """A step in words.

    Args:
        number: its number in the order.
        power: whether the machine is off or runs.
        cautions: what has to be said before it and was not said yet.
        again: hazards said before that hold for it too.
        acts: what is done, one sentence each.
        details: what it takes and what it leads to, one sentence each.
    """

    number: int
    power: str
    cautions: tuple[Caution, ...]
    again: tuple[str, ...]
    acts: tuple[str, ...]
    details: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Part:
    """A part of the sheet: sentences, tables and steps under a title."""

    title: str
    sentences: tuple[str, ...] = ()
    tables: tuple[Rows, ...] = ()
    steps: tuple[StepSheet, ...] = ()
    foot: str = ""


@dataclass(frozen=True, slots=True)
class UpgradeSheet:
    """An upgrade in words.

    Args:
        title: which machine, and what for.
        cautions: what has to be said before its numbers are used.
        refusal: why the machine stays as it is, where it does.
        paths: the paths side by side.
        parts: each path.
        standing: book, day and status.
        aid: who decides.
    """

    title: str
    cautions: tuple[Caution, ...]
    refusal: tuple[Sheet, ...]
    paths: Rows | None
    parts: tuple[Part, ...]
    standing: str
    aid: str = PLANNING_AID


def upgrade_sheet(opened: Opened, found: Upgrade) -> UpgradeSheet:
    """Return an upgrade in words."""
    said, paths = _Said(), _paths(opened, found)
    parts = [part for plans in found.plans for part in _plans(found, plans, said)]
    parts += [_successor(opened, each, said) for each in found.successors]
    about = opened.book.book
    return UpgradeSheet(
        f"{found.name}: upgrade for {found.need}",
        said.split(OF_NUMBERS if paths is not None else ())[0],
        tuple(_refusals(found)),
        paths,
        tuple(parts),
        standing_line(about.name, found.book, found.as_of, found.status),
    )


def _refusals(found: Upgrade) -> Iterator[Sheet]:
    for plans in found.plans:
        if not isinstance(plans.stands, Yes):
            yield told(plans.stands, plans.machine, STANDS)
        elif plans.meets is not None and not isinstance(plans.meets, Yes):
            yield told(plans.meets, plans.machine, MEETS)


def _paths(opened: Opened, found: Upgrade) -> Rows | None:
    name = opened.book.book.name
    rows = [
        (
            f"{name}, {TITLES[way.aimed]}",
            _money(way.price, found.currency),
            f"{minutes(way.down)}, {_times(way.times_off)}",
            *_numbers(way.target),
        )
        for plans in found.plans
        for way in plans.ways
    ]
    rows += [
        (
            f"{each.name} in its place",
            _money(each.price, each.currency),
            f"{minutes(each.transfer.off)}, once",
            *_numbers(each.target),
        )
        for each in found.successors
        if each.target is not None and each.transfer is not None
    ]
    heads = ("Path", "To buy", "Off", "Memory", "Drives", "Peak draw", "Redundant up to")
    return Rows(heads, tuple(rows)) if rows else None


def _times(number: int) -> str:
    return {0: "never", 1: "once", 2: "twice"}.get(number, f"{number} times")


def _numbers(target: Witness) -> tuple[str, str, str, str]:
    figures = {figure.name: figure for figure in target.figures}

    def shown(name: str) -> str:
        figure = figures.get(name)
        rounding: Rounding = "up" if name == "load" else "down"
        return amount(figure.value, figure.dimension, rounding) if figure else "-"

    return (
        shown("memory"),
        shown("raw_capacity"),
        shown("load"),
        shown("supplies_carry_redundant"),
    )


def _money(value: Fraction, currency: str) -> str:
    return amount(value, f"money:{currency}")


def _price(value: Fraction | None, currency: str) -> str:
    return "not stated" if value is None else _money(value, currency)


class _Said:
    """Which cautions were said: each stands once on a page, in full before its first act."""

    def __init__(self) -> None:
        self._keys: set[str] = set()

    def split(self, keys: Sequence[str]) -> tuple[tuple[Caution, ...], tuple[str, ...]]:
        """Return cautions that were not said yet, and the words of those that were."""
        fresh = [key for key in keys if key not in self._keys]
        again = tuple(key.replace("-", " ") for key in keys if key in self._keys)
        self._keys.update(fresh)
        return tuple(CAUTIONS[key] for key in fresh), again


def _plans(found: Upgrade, plans: Plans, said: _Said) -> Iterator[Part]:
    book = plans.machine.book
    supposed = listed(f"{path} is {value}" for path, value in plans.supposed.items())
    lead = f"If {supposed}: " if len(found.plans) > 1 else ""
    for way in plans.ways:
        title = f"{lead}{book.book.name}, {TITLES[way.aimed]}: {_money(way.price, found.currency)}"
        yield Part(
            title,
            tuple(_about(way, book, found.budget)),
            (_bought(way.bought, found.currency),) if way.bought else (),
            tuple(_steps(way, plans, said)),
            proof_words(way.proof),
        )


def _about(way: Way, book: Book, budget: Fraction | None) -> Iterator[str]:
    names = Names(book)
    if not way.order.steps:
        yield "The machine meets the need as it stands; nothing has to be done."
        return
    yield _off(way)
    if way.untimed:
        yield f"No time is stated for {listed(way.untimed)}, so it takes longer."
    if not way.order.complete:
        yield "Not all orders were gone through in time: each step is the best where it stands."
    if way.spare:
        left = listed(f"{count} × {names.part(part)}" for part, count in way.spare.items())
        yield f"Left over: {left}."
    if way.gives_up:
        yield f"Not kept, since the need is against it: {_kept(way)}"
    if budget is not None:
        over = way.price - budget
        currency = str(book.book.currency)
        held = f"{_money(abs(over), currency)} {'over' if over > 0 else 'left'}"
        yield f"Budget: {_money(budget, currency)}, {held}."
    yield from way.notes


def _kept(way: Way) -> str:
    return " ".join(sentence.removeprefix("Kept: ") for sentence in way.gives_up)


def _off(way: Way) -> str:
    steps = counted(len(way.order.steps), "step")
    if not way.times_off:
        return f"{steps}; the machine is never off."
    long = f"at least {minutes(way.down)}" if way.untimed else minutes(way.down)
    return f"{steps}; the machine is off {_times(way.times_off)}, for {long} in all."


def _bought(bought: Sequence[Bought], currency: str) -> Rows:
    return Rows(
        ("Buy", "Part", "Each", "Price"),
        tuple(
            (
                str(each.count),
                f"{each.name} ({each.part})",
                _price(each.price, currency),
                _price(each.total if each.price is not None else None, currency),
            )
            for each in bought
        ),
    )


def _steps(way: Way, plans: Plans, said: _Said) -> Iterator[StepSheet]:
    for number, step in enumerate(way.order.steps, 1):
        cautions, again = said.split(step.effort.cautions)
        yield StepSheet(
            number,
            "off" if step.off else "runs",
            cautions,
            again,
            tuple(acts_in_words(plans.machine, step)),
            tuple(_details(step, plans.machine.book)),
        )


def _details(step: Step, book: Book) -> Iterator[str]:
    yield _takes(step.effort)
    if step.together:
        yield f"Done at once, since alone they break: {' '.join(step.together)}"
    if step.why_off:
        yield f"Done with power off, since piece by piece it breaks: {' '.join(step.why_off)}"
    for blank, number in step.blanks.items():
        yield f"{'Fit' if number > 0 else 'Take out'} {abs(number)} × {Names(book).part(blank)}."
    if step.effort.way_in and not step.off and book.air.cover_off is not None:
        yield f"The cover may be off for {book.air.cover_off.text} at most while it runs."
    if step.lacking:
        yield f"Until a later step it lacks: {listed(step.lacking)}."
    passed = f"{counted(len(step.passed), 'state')} on the way and " if step.passed else ""
    yield f"Legal: {passed}the state it leaves; {supplies_in_words(step.leaves)}."


def _takes(effort: Effort) -> str:
    people = "" if effort.people == 1 else f", {effort.people} people"
    said = [f"{minutes(effort.time)}{people}"]
    if effort.untimed:
        said = [f"No time stated for {listed(effort.untimed)}; at least {said[0]}"]
    said += [f"tools: {listed(effort.tools)}"] if effort.tools else []
    said += [f"wait for the {wait.name}: {wait.text}" for wait in effort.waits]
    said += [f"way in: {', '.join(effort.way_in)}"] if effort.way_in else []
    said += [f"open: {listed(effort.locks)}"] if effort.locks else []
    return f"{'; '.join(said)}."


def _successor(opened: Opened, found: Successor, said: _Said) -> Part:
    title = f"{found.name} in its place: {_money(found.price, found.currency)}"
    unread = tuple(f"Not asked of it: {text}. {problem}" for text, problem in found.unread)
    supposed = tuple(f"Supposed: {each}." for each in found.supposed)
    if found.target is None:
        return Part(f"{found.name} in its place", (*_why_not(found), *unread, *supposed))
    sentences = (
        f"The machine itself is {_money(found.chassis, found.currency)}, its parts are below.",
        f"{capitalised(found.status.word)}. {found.status.note}".strip(),
        *(f"Not kept: {each.removeprefix('Kept: ')}" for each in found.gives_up),
        *_lost(found),
        *unread,
        *supposed,
    )
    names = Names(opened.book)
    carried = tuple(
        (f"{each.used} of {each.count}", names.part(each.part), each.why_not or "Carried over.")
        for each in found.carried
    )
    tables = (
        _bought(found.bought, found.currency),
        Rows(("Used", "Owned part", "What becomes of it"), carried),
    )
    steps = tuple(_moving(opened.book, found, said))
    return Part(title, sentences, tables, steps, _proof(found.proof))


def _lost(found: Successor) -> Iterator[str]:
    if not found.lost:
        yield "Nothing that the books state is lost."
    yield from (f"Lost or worse: {each}." for each in found.lost)
    if found.transfer is not None and found.transfer.untimed:
        yield f"No time is stated for {listed(found.transfer.untimed)}, so it takes longer."


def _moving(book: Book, found: Successor, said: _Said) -> Iterator[StepSheet]:
    """Yield the steps from one machine to the other."""
    transfer, names = found.transfer, Names(book)
    if transfer is None:
        return
    carried = [each for each in found.carried if each.used]
    what = listed(f"{each.used} × {names.part(each.part)}" for each in carried)
    arrays = any(isinstance(book.parts[each.part], Drive) for each in carried)
    starts = "start it, and let it take over the arrays" if arrays else "and start it"
    works = (
        ("new", f"Fit the parts that are bought: {found.name}.", transfer.build),
        ("off", f"Stop {book.book.name}{f' and take out {what}' if what else ''}.", transfer.out),
        ("off", f"{'Fit them in' if what else 'Mount'} {found.name}, {starts}.", transfer.into),
    )
    for number, (power, act, work) in enumerate(works, 1):
        cautions, again = said.split(work.cautions)
        yield StepSheet(number, power, cautions, again, (act,), (_takes(work),))


def _proof(proof: Proof | None) -> str:
    return proof_words(proof) if proof is not None else ""


def _why_not(found: Successor) -> Iterator[str]:
    yield "No build of it meets the need."
    reasons = getattr(found.verdict, "reasons", ())
    yield from (reason.sentence for reason in reasons)
