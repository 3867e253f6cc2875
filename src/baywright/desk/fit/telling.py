"""A fitted need in words: what was understood, the proposals side by side, and each by itself."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from baywright.answers.figures import amount
from baywright.answers.wording import AID, Group, Names, Outcome, Row, Rows, Sheet, Voice, told
from baywright.desk.fit.asked import words_of
from baywright.desk.fit.candidates import Candidate
from baywright.desk.fit.fit import Fitted, Proposals, Refused
from baywright.desk.fit.hosts import Count
from baywright.desk.fit.proposals import (
    STRUCTURAL,
    Margin,
    Proposal,
    Racks,
    Step,
    cautions_of,
    in_letters,
    repeats,
    trades,
)
from baywright.desk.fit.standing import Standing
from baywright.desk.judging import asks_redundancy
from baywright.desk.opening import Opened
from baywright.desk.space_telling import proof_words
from baywright.facts.cautions import CAUTIONS, Caution
from baywright.facts.need import Need
from baywright.facts.status import standing_line
from baywright.laws.wording import capitalised, counted, listed

SHOWN_MARGINS = 4
"""Margins shown beside a proposal; JSON has all of them."""


def fit_sheet(opened: Opened, fitted: Fitted) -> Sheet:
    """Return a fitted need in words."""
    standing = _standing(opened, fitted)
    sheets = [_outcome(opened, fitted.need, outcome) for _, outcome in fitted.worlds]
    notes = tuple(_understood(fitted))
    if _agree(fitted):
        return replace(sheets[0], notes=(*sheets[0].notes, *notes), standing=standing)
    cases = _worlds(fitted)
    facts = listed(fitted.worlds[0][0])
    return Sheet(
        "Not decided",
        "undecided",
        f"It depends on what is not settled yet: {facts}.",
        outcomes=tuple(map(Outcome, cases, sheets)),
        notes=(
            *(group for each in zip(cases, sheets, strict=True) for group in _in(*each)),
            *notes,
        ),
        standing=standing,
        aid=AID,
    )


def _agree(fitted: Fitted) -> bool:
    """Say whether it comes out the same whatever the unknown facts are."""
    return len({_essence(outcome) for _, outcome in fitted.worlds}) == 1


def _essence(outcome: Proposals | Refused) -> object:
    if isinstance(outcome, Refused):
        return frozenset(near.changes for near in outcome.no.nearest)
    return tuple((each.total, tuple(each.parts.items())) for each in outcome.proposals)


def _in(case: str, sheet: Sheet) -> Iterator[Group]:
    for group in sheet.notes:
        yield Group(f"If {case}: {group.title}", group.rows)


def progress_words(opened: Opened, counts: Sequence[Count]) -> str:
    """Return how far a search has come, in a sentence."""
    found = [each for count in counts for each in count.candidates]
    said = f"looked at {counted(counts[-1].hosts, 'machine')}"
    if not found:
        return f"{said}, nothing found so far"
    least = amount(min(each.price for each in found), money_of(opened))
    return f"{said}, {counted(len(found), 'build')} so far, the cheapest for {least}"


def fit_cautions(fitted: Fitted) -> tuple[Caution, ...]:
    """Return the cautions that stand before the numbers of a fitted need."""
    keys = dict.fromkeys(key for _, outcome in fitted.worlds for key in _keys(outcome))
    return tuple(CAUTIONS[key] for key in keys if CAUTIONS[key].of_numbers)


def _keys(outcome: Proposals | Refused) -> tuple[str, ...]:
    if isinstance(outcome, Proposals):
        return cautions_of(outcome.proposals)
    return cautions_of([outcome.more]) if outcome.more else ("estimate",)


def _worlds(fitted: Fitted) -> list[str]:
    return [
        listed(f"{path} is {value}" for path, value in given.items()) for given, _ in fitted.worlds
    ]


def _standing(opened: Opened, fitted: Fitted) -> str:
    about = opened.book.book
    return standing_line(about.name, about.id, fitted.as_of, fitted.status)


def _outcome(opened: Opened, need: Need, outcome: Proposals | Refused) -> Sheet:
    if isinstance(outcome, Refused):
        return _refused(opened, need, outcome)
    return _proposed(opened, need, outcome)


def _refused(opened: Opened, need: Need, outcome: Refused) -> Sheet:
    sheet = told(outcome.no, opened.machine, _voice(need))
    notes = list(sheet.notes)
    if outcome.more is not None:
        rows = tuple(_about(opened, need, outcome.more, ()))
        title = f"With {counted(outcome.more.candidate.hosts, 'machine')}"
        notes.append(Group(f"{title} instead of {outcome.hosts}", rows))
    if outcome.dropped:
        said = f"{counted(outcome.dropped, 'nearer build')} that laws allow, sizing refuses."
        notes.append(Group("Left out", (Row("", said),)))
    return replace(sheet, reading=f"{need.name.known}.", notes=tuple(notes))


def _voice(need: Need) -> Voice:
    lost = need.survive.supplies
    asked = bool(lost and lost.known) or asks_redundancy(need.must)
    return Voice(no="No build meets the need.", redundant=asked)


def _proposed(opened: Opened, need: Need, outcome: Proposals) -> Sheet:
    shown = outcome.proposals
    notes = [
        Group(
            f"{in_letters(number)}: {', '.join(each.names)}",
            tuple(_about(opened, need, each, shown)),
        )
        for number, each in enumerate(shown)
    ]
    if len(outcome.explored.counts) > 1:
        notes.append(Group("Numbers of machines", tuple(_counts(need, outcome, money_of(opened)))))
    return Sheet(
        counted(len(shown), "proposal"),
        "proposals",
        _sentence(outcome),
        reading=f"{need.name.known}.",
        table=_side_by_side(opened, need, shown),
        notes=tuple(notes),
        proof=_proof(outcome),
        aid=AID,
    )


def _sentence(outcome: Proposals) -> str:
    explored = outcome.explored
    size = counted(len(explored.front), "build")
    many = len(explored.front) > 1
    sentence = (
        f"{'Each is' if many else 'It is'} legal, and sizing accepts it. The front has {size}: no "
        "other has as little of price, draw and space and as much headroom."
    )
    if explored.from_on is not None:
        sentence += (
            f" From {explored.from_on} machines on, none is cheaper, draws less or takes less "
            "space than one found."
        )
    if explored.stopped:
        sentence += f" Stopped before it was complete: {explored.stopped}."
    return sentence


def _proof(outcome: Proposals) -> str:
    proofs = [count.proof for count in outcome.explored.counts if count.candidates]
    spent = sum(proof.milliseconds for proof in proofs)
    checker = "" if any(not p.rechecked_by for p in proofs) else proofs[0].rechecked_by
    return proof_words(replace(proofs[0], rechecked_by=checker, milliseconds=spent))


def _side_by_side(opened: Opened, need: Need, shown: Sequence[Proposal]) -> Rows:
    # What is bought several times over stands in as many places: only its price is added up.
    each = ", each" if repeats(need) > 1 else ""
    heads = ("", "Machines", "Price", f"Draw{each}", f"Space{each}", "Headroom", "Binds")
    return Rows(heads, tuple(_row(opened, need, at, one) for at, one in enumerate(shown)))


def _row(opened: Opened, need: Need, number: int, each: Proposal) -> tuple[str, ...]:
    candidate = each.candidate
    return (
        in_letters(number),
        _machines(need, candidate),
        amount(each.total, money_of(opened)),
        amount(candidate.load, "power"),
        f"{candidate.space} U",
        _headroom(candidate),
        each.binding.words.partition(",")[0] if each.binding else "nothing decided",
    )


def _headroom(candidate: Candidate) -> str:
    """Return what supplies carry when redundant beyond the draw, where they are redundant."""
    if candidate.headroom is None:
        return "not said"
    return "none" if candidate.headroom < 0 else amount(candidate.headroom, "power", "down")


def _machines(need: Need, candidate: Candidate) -> str:
    times = repeats(need)
    return f"{times} × {candidate.hosts}" if times > 1 else str(candidate.hosts)


def money_of(opened: Opened) -> str:
    """Return the dimension of a price in the book's currency."""
    return f"money:{opened.book.book.currency}"


def _about(opened: Opened, need: Need, each: Proposal, others: Sequence[Proposal]) -> Iterator[Row]:
    money = money_of(opened)
    yield Row("price", _price(need, each, money))
    if each.binding is not None:
        yield Row("binds", _margin(each.binding))
    for margin in _near(each):
        yield Row("margin", _margin(margin))
    for said in each.undecided:
        yield Row("not decided", said)
    yield from _in_racks(need, each)
    if each.fewer:
        yield Row("not fewer", each.fewer)
    for number, other in _compared(each, others):
        yield Row(f"against {in_letters(number)}", f"{trades(each, other, money)}.")
    for words, value in each.told:
        yield Row("told", f"{words}: {value}")
    for text, met in each.met:
        yield Row("welcome", f"{text}: {'met' if met else 'not met'}")
    yield Row("parts", listed(_parts(opened, each)))
    yield Row("places", "; ".join(f"{line.choice}: {line.label}" for line in each.build.lines))


def _compared(each: Proposal, others: Sequence[Proposal]) -> list[tuple[int, Proposal]]:
    """Return the others it is compared with: the first is with all, each other with the first."""
    every = [(at, other) for at, other in enumerate(others) if other is not each]
    return every if others and each is others[0] else every[:1]


def _near(each: Proposal) -> list[Margin]:
    """Return the margins next to the one that binds; what merely holds or not is left out."""
    told = [m for m in each.margins if not m.key.startswith(STRUCTURAL) and m is not each.binding]
    return told[:SHOWN_MARGINS]


def _price(need: Need, each: Proposal, money: str) -> str:
    candidate = each.candidate
    times = candidate.hosts * repeats(need)
    said = amount(each.total, money)
    return (
        said if times == 1 else f"{said}, {amount(candidate.price / candidate.hosts, money)} each"
    )


def _margin(margin: Margin) -> str:
    return f"{margin.words}: {margin.used}, {margin.bound}; {margin.left}"


def _in_racks(need: Need, each: Proposal) -> Iterator[Row]:
    if each.racks is not None:
        yield Row("racks", _rack_words(need, each.candidate.hosts, each.racks))


def _rack_words(need: Need, hosts: int, racks: Racks) -> str:
    sites = Standing(need, hosts).sites
    where = f" at each of {sites} sites" if sites > 1 else ""
    bears = f"a rack bears {counted(racks.bears, 'machine')}, bound by {racks.binds}"
    return f"{counted(racks.racks, 'rack')}{where}: {bears}"


def _parts(opened: Opened, each: Proposal) -> Iterator[str]:
    names = Names(opened.book)
    for part, number in each.parts.items():
        yield f"{number:,} × {names.part(part)}"


def _counts(need: Need, outcome: Proposals, money: str) -> Iterator[Row]:
    explored = outcome.explored
    for demand, most, least in explored.least:
        at = f"{least} or more" if least is not None else "no number is enough"
        shown = amount(most, demand.dimension, "down")
        said = f"{at}: a machine has at most {shown} ({demand.said})"
        yield Row(f"by {words_of(demand.resource)}", said)
    fewest = min(step.hosts for step in outcome.steps)
    none = [count.hosts for count in explored.counts if not count.candidates]
    if fewest - 1 in none and explored.reasons:
        why = " ".join(reason.sentence for reason in explored.reasons)
        yield Row(counted(fewest - 1, "machine"), f"Impossible. {why}")
    for step in outcome.steps:
        yield Row(counted(step.hosts, "machine"), _step(need, step, money))
    on = {step.hosts for step in outcome.steps}
    off = [count.hosts for count in explored.counts if count.candidates and count.hosts not in on]
    if off:
        yield Row("others", f"{listed(map(str, off))}: possible, none on the front.")


def _step(need: Need, step: Step, money: str) -> str:
    builds = counted(step.builds, "build")
    said = f"{builds} from {amount(step.price, money)}, from {amount(step.load, 'power')}."
    if step.racks is not None:
        said += f" {capitalised(_rack_words(need, step.hosts, step.racks))}."
    return f"{said} {step.fewer}".rstrip()


def _understood(fitted: Fitted) -> Iterator[Group]:
    rows = [Row(word, said) for word, _, said in (each.partition(": ") for each in fitted.asked)]
    rows += [Row("must", str(text)) for text in fitted.need.must]
    rows += [Row("must not", str(text)) for text in fitted.need.must_not]
    yield Group("Asked", tuple(rows)) if rows else Group("Asked", (Row("", "any legal build"),))
    if fitted.assumed:
        yield Group("Taken for granted", tuple(Row("", capitalised(s)) for s in fitted.assumed))
