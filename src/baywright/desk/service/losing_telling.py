"""A loss in words: what is gone and why, numbers, repairs, single points and pairs."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from baywright.answers.verdicts import No, Yes
from baywright.answers.wording import Rows, quote
from baywright.desk.service.effects import Change
from baywright.desk.service.losing import Loss
from baywright.desk.service.repairs import Repair
from baywright.desk.service.things import brief
from baywright.desk.size.telling import value_text
from baywright.facts.cautions import CAUTIONS, PLANNING_AID, Caution
from baywright.facts.places import Bank
from baywright.laws.wording import capitalised, counted, listed
from baywright.service.losing.cuts import Cuts, paired
from baywright.service.losing.items import RUNS, STARTS, Effect, Function
from baywright.service.losing.losing import Amount, Gone
from baywright.service.losing.nodes import Ground

TITLES = {
    Effect.STOPS: "The machine",
    Effect.DATA: "Data",
    Effect.OUT: "Out of reach",
    Effect.BARE: "Goes on without protection",
}
"""Title of what is gone, by what that means."""


NOT_REPEATED = (
    "What the machine serves also ends with whatever keeps it from starting; that is not repeated."
)


@dataclass(frozen=True, slots=True)
class Because:
    """A ground: what it says, and where its facts stand, in brackets."""

    says: str
    stands: str


@dataclass(frozen=True, slots=True)
class Line:
    """Something that is gone, with the laws and facts behind it."""

    says: str
    grounds: tuple[Because, ...] = ()


@dataclass(frozen=True, slots=True)
class Part:
    """A title with what stands below it; cautions come before all else of it."""

    title: str
    cautions: tuple[Caution, ...] = ()
    lines: tuple[Line, ...] = ()
    table: Rows | None = None
    sentences: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class LossSheet:
    """A loss in words.

    Args:
        title: the build and its site.
        lost: what is lost, one sentence, or that nothing is.
        word: what that does to the machine, one sentence.
        cautions: what has to be said before the rest is used.
        parts: what is gone, numbers, repairs, single points.
        aid: who decides.
    """

    title: str
    lost: str
    word: str
    cautions: tuple[Caution, ...]
    parts: tuple[Part, ...]
    aid: str = PLANNING_AID


def loss_sheet(loss: Loss) -> LossSheet:
    """Return a loss in words; without anything lost, what stands on one thing or on two."""
    things = loss.lost.things
    parts = (*_lost(loss), *_points(loss)) if things else (*_never(loss), *_cuts(loss))
    return LossSheet(
        _title(loss),
        f"Lost: {brief(loss.graph, things, named=True)}." if things else "With everything there.",
        " ".join(_words(loss)),
        tuple(_cautions(loss)),
        (*parts, *_open(loss)),
    )


def _title(loss: Loss) -> str:
    site = loss.build.site
    stated = [fact.text for fact in (site.voltage, site.altitude, site.inlet) if fact is not None]
    return ": ".join((loss.build.name.known, ", ".join(stated) or "nothing is said of the site"))


def _words(loss: Loss) -> Iterator[str]:
    match loss.verdict:
        case No(reasons=reasons):
            said = " ".join(reason.sentence for reason in reasons)
            yield f"It is not a legal build. {said}"
        case Yes():
            pass
        case _:
            yield "Whether it is a legal build is not decided."
    yield _machine(loss)


def _machine(loss: Loss) -> str:
    lost = loss.lost
    if any(gone.function.key == STARTS for gone in lost.never):
        return "The machine does not run even with everything there."
    if not lost.things:
        return "The machine runs."
    if not lost.stops:
        return "The machine runs on."
    if lost.starts:
        return (
            "The machine stops. It can start again without what is lost, and what follows "
            "holds then."
        )
    return "The machine stops and does not start again before a repair."


def _cautions(loss: Loss) -> Iterator[Caution]:
    """Yield cautions about the numbers; those about acts stand before the repairs."""
    yield CAUTIONS["redundancy"]
    kinds = {loss.graph.by_id[thing].kind for thing in loss.lost.things}
    keys = {gone.function.key.partition(".")[0] for gone in loss.lost.gone}
    if "feed" in kinds or any(change.over for change in loss.changes):
        yield CAUTIONS["overloaded-circuit"]
    if keys & {"spare", "whole", "array", "data"}:
        yield CAUTIONS["rebuild"]
    if "cache" in keys:
        yield CAUTIONS["write-cache"]


def _lost(loss: Loss) -> Iterator[Part]:
    for effect, title in TITLES.items():
        shown = [
            gone
            for gone in loss.lost.gone
            if gone.function.effect is effect and not gone.covered and not gone.with_machine
        ]
        if shown:
            yield Part(title, lines=tuple(_lines(shown)))
    with_it = [gone.function.name for gone in loss.lost.gone if _served_by_it(gone)]
    if with_it:
        yield Part("Gone with the machine until it runs again", sentences=(_joined(with_it),))
    yield from _numbers(loss)
    yield from _never(loss)
    yield from _repaired(loss)


def _served_by_it(gone: Gone) -> bool:
    bare = gone.function.effect is Effect.BARE
    return gone.with_machine and not gone.covered and not bare


def _joined(names: Iterable[str]) -> str:
    return f"{capitalised(listed(names))}."


def _lines(shown: Iterable[Gone]) -> Iterator[Line]:
    """Yield what is gone; alike pieces of one place that go for the same reason are one line."""
    groups: dict[tuple[object, ...], list[Gone]] = {}
    for gone in shown:
        groups.setdefault((_place(gone), gone.grounds), []).append(gone)
    for group in groups.values():
        if len(group) > 2:
            names = listed(each.function.name for each in group)
            yield Line(f"Out of reach: {names}.", _grounds(group[0]))
        else:
            yield from map(_line, group)


def _place(gone: Gone) -> str:
    """Return what pieces of one place have in common; for all else, what it has alone."""
    key = gone.function.key
    return key.rpartition(".")[0] if key.count(".") > 1 else key


def _line(gone: Gone) -> Line:
    return Line(gone.function.lost, _grounds(gone))


def _grounds(gone: Gone) -> tuple[Because, ...]:
    return tuple(map(because, gone.grounds))


def because(ground: Ground) -> Because:
    """Return a ground with where its facts stand."""
    quotes = [quote(fact) for fact in ground.facts]
    stands = ["; ".join(filter(None, (each.path, each.source, each.where))) for each in quotes]
    found = " | ".join(stand for stand in stands if stand)
    return Because(capitalised(ground.sentence), f" ({found})" if found else "")


def _numbers(loss: Loss) -> Iterator[Part]:
    amounts = [each for each in loss.lost.amounts if not _same(each.before, each.after)]
    changes = [each for each in loss.changes if not _same(each.before, each.after)]
    rows = [*map(_amount_row, amounts), *map(_change_row, changes)]
    same = [each.measure.name for each in loss.lost.amounts if each not in amounts]
    sentences = (
        *_populations(loss),
        *((f"As before: {listed(same)}.",) if same else ()),
    )
    heads = ("number", "before", "after", "condition")
    if rows:
        yield Part("Numbers", table=Rows(heads, tuple(rows)), sentences=sentences)
    else:
        yield Part("Numbers", sentences=sentences)


def _populations(loss: Loss) -> Iterator[str]:
    """Yield the banks that are left with a number of modules the book does not allow."""
    for name, bank in loss.graph.standing.book.places_of(Bank).items():
        units = [unit for unit, _ in loss.graph.standing.units(name)]
        left = len([unit for unit in units if unit not in loss.lost.things])
        allowed = {count.known for count in bank.counts}
        if 0 < left < len(units) and left not in allowed:
            counts = listed(map(str, sorted(allowed)), "or")
            yield (
                f"{capitalised(bank.name)} is left with {counted(left, 'module')}; the book allows "
                f"{counts}, so it is no legal build until it is repaired or rearranged."
            )


def _same(before: float, after: float) -> bool:
    both = math.isnan(before) and math.isnan(after)
    return both or math.isclose(before, after, rel_tol=1e-9, abs_tol=1e-9)


def _amount_row(amount: Amount) -> tuple[str, ...]:
    unit = amount.measure.unit
    return (
        amount.measure.name,
        value_text(amount.before, unit),
        value_text(amount.after, unit),
        "",
    )


def _change_row(change: Change) -> tuple[str, ...]:
    bound = "" if math.isnan(change.bound) else f"; at most {value_text(change.bound, change.unit)}"
    over = ", which is passed" if change.over else ""
    return (
        change.name,
        _changed(change, change.before),
        _changed(change, change.after),
        f"{change.condition}{bound}{over}; formula {change.equation.number}",
    )


def _changed(change: Change, value: float) -> str:
    nothing = math.isnan(value) and change.outside
    return change.outside if nothing else value_text(value, change.unit)


def _never(loss: Loss) -> Iterator[Part]:
    lines = tuple(_line(gone) for gone in loss.lost.never if not gone.covered)
    if lines:
        yield Part("So even with everything there", lines=lines)


def _repaired(loss: Loss) -> Iterator[Part]:
    said = tuple(_cautions(loss))
    found = dict.fromkeys(CAUTIONS[key] for each in loss.repairs for key in each.cautions)
    rows = dict.fromkeys(map(_repair_row, loss.repairs))
    follows = dict.fromkeys(each for repair in loss.repairs for each in repair.follows)
    kept = all(gone.function.effect is not Effect.DATA for gone in loss.lost.gone)
    yield Part(
        "After repair everything is as before" if kept else "After repair all but data is back",
        tuple(each for each in found if each not in said),
        table=Rows(("thing", "work", "time for one"), tuple(rows)),
        sentences=tuple(follows),
    )


def _repair_row(repair: Repair) -> tuple[str, ...]:
    how = {True: "while the machine runs", False: "with the machine off", None: "not stated"}
    time = f"{repair.minutes:g} min"
    if math.isnan(repair.minutes):
        time = f"not stated: {listed(repair.missing)}" if repair.missing else "not at the machine"
    return f"{repair.thing.name} ({repair.thing.id})", how[repair.running], time


def _points(loss: Loss) -> Iterator[Part]:
    if not loss.lost.starts:
        return
    found = brief(loss.graph, loss.next_points)
    said = f"Now {found}." if found else "Nothing that did not stop it before."
    yield Part("What would stop the machine for good now, one more loss", sentences=(said,))


def _cuts(loss: Loss) -> Iterator[Part]:
    found = dict(loss.cuts)
    base = next((cuts for function, cuts in loss.cuts if function.key == STARTS), Cuts((), ()))
    singles = [_single_row(loss, each, cuts, base) for each, cuts in found.items()]
    heads = ("ends with the loss of one thing", "things")
    shown = tuple(row for row in singles if row[1])
    yield Part("Single points", table=Rows(heads, shown), sentences=(NOT_REPEATED,))
    pairs = tuple(row for each, cuts in found.items() for row in _pair_rows(loss, each, cuts, base))
    heads = ("ends with the loss of two things", "one of each of two groups")
    none = () if pairs else ("There are none.",)
    yield Part("Pairs of which neither is a single point", table=Rows(heads, pairs), sentences=none)


def _single_row(loss: Loss, function: Function, cuts: Cuts, base: Cuts) -> tuple[str, str]:
    own = function.key in (RUNS, STARTS) or not function.served
    things = [each for each in cuts.singles if own or each not in base.singles]
    return function.name, brief(loss.graph, things)


def _pair_rows(loss: Loss, function: Function, cuts: Cuts, base: Cuts) -> Iterator[tuple[str, str]]:
    own = function.key in (RUNS, STARTS) or not function.served
    left = [pair for pair in cuts.pairs if own or pair not in base.pairs]
    for each in paired(left):
        yield function.name, " + ".join(brief(loss.graph, group) for group in each.groups)


def _open(loss: Loss) -> Iterator[Part]:
    said = [
        f"{capitalised(each.what)} is not decided: it depends on {listed(each.depends)}."
        for each in loss.graph.opens
    ]
    for outcome in loss.outcomes:
        given = listed(f"{path} is {value}" for path, value in outcome.given.items())
        said.append(f"If {given}: {' '.join(outcome.sentences) or 'nothing is gone.'}")
    if said:
        yield Part("Not decided", sentences=tuple(said))
