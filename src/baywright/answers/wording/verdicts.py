"""Verdicts in words: one function for each type of verdict."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from functools import partial

from baywright.answers.figures import amount
from baywright.answers.inquiry import EVALUATOR
from baywright.answers.verdicts import (
    Bound,
    Count,
    Figure,
    Nearest,
    No,
    Proof,
    Reason,
    Stopped,
    Together,
    Undecided,
    Verdict,
    Witness,
    Yes,
)
from baywright.answers.wording.builds import fitted, summary
from baywright.answers.wording.grounds import grounds, needed, quote, turns, with_others
from baywright.answers.wording.loads import load_of_build, load_of_reason
from baywright.answers.wording.names import Names
from baywright.answers.wording.numbers import against, small
from baywright.answers.wording.sheet import (
    Fitted,
    Group,
    Load,
    Near,
    Outcome,
    Quote,
    Row,
    Rows,
    Sheet,
)
from baywright.facts.citation import Citation
from baywright.laws.machine import Machine
from baywright.laws.wording import capitalised, counted, listed

AID = (
    "Planning aid: the maker's service documents, site rules, local codes and a licensed or "
    "qualified person decide."
)


@dataclass(frozen=True, slots=True)
class Voice:
    """How a verdict speaks of what was asked.

    Args:
        yes: the sentence of a yes.
        no: the sentence of a no.
        redundant: whether load lines are held against redundant supplies.
    """

    yes: str = "A legal build has this; it is shown below."
    no: str = "No legal build has this."
    redundant: bool = False


ANSWER = Voice()


def told(verdict: Verdict, machine: Machine, voice: Voice = ANSWER) -> Sheet:
    """Return a verdict in words.

    Args:
        verdict: the verdict.
        machine: what was asked.
        voice: how to speak of what was asked.
    """
    match verdict:
        case Yes():
            return _yes(verdict, machine, voice)
        case No():
            return _no(verdict, machine, voice)
        case Bound():
            return _bound(verdict, machine, voice)
        case Count():
            return _count(verdict, machine)
        case Together():
            return _together(verdict, machine)
        case Undecided():
            return _undecided(verdict, machine, voice)
        case Stopped():
            return _stopped(verdict)


def _yes(verdict: Yes, machine: Machine, voice: Voice) -> Sheet:
    names = Names(machine.book)
    supposed = f" The build shown supposes that {listed(verdict.supposed)}."
    sheet = Sheet(
        "Yes",
        "yes",
        voice.yes + (supposed if verdict.supposed else ""),
        fitted=(fitted(verdict.witness, names, "The build"),),
        load=load_of_build(machine, verdict.witness, redundant=voice.redundant),
        proof=_proof(verdict.proof),
        aid=AID,
    )
    if not verdict.always:
        return sheet
    sheet = replace(
        sheet,
        sentence="Every legal build has this.",
        grounds_title="Why none is without it",
        grounds=grounds(verdict.always, names),
        needed=needed(verdict.always),
    )
    return with_others(sheet, verdict.others, partial(grounds, names=names))


def _no(verdict: No, machine: Machine, voice: Voice) -> Sheet:
    names = Names(machine.book)
    if verdict.counterexample is not None:
        shown = fitted(verdict.counterexample, names, "A legal build without it")
        sentence = "Not every legal build has this: the one below does not."
        return Sheet("No", "no", sentence, fitted=(shown,), proof=_proof(verdict.proof), aid=AID)
    told_grounds = grounds(verdict.reasons, names)
    structure = _structure(verdict.structure)
    limits = [g.sentence for g in told_grounds if g.kind != "asked"] or [
        each.value for each in structure
    ]
    sheet = Sheet(
        "No",
        "no",
        f"{voice.no} {_why(verdict.reasons, limits)}",
        grounds=told_grounds,
        needed=needed(verdict.reasons),
        structure=structure,
        nearest=tuple(_near(each, machine, voice) for each in verdict.nearest),
        load=_load_of(verdict.reasons, machine),
        proof=_proof(verdict.proof),
        aid=AID,
    )
    return with_others(sheet, verdict.others, partial(grounds, names=names))


def _structure(citations: Iterable[Citation]) -> tuple[Quote, ...]:
    return tuple(dict.fromkeys(quote(citation) for citation in citations))


def _why(reasons: Iterable[Reason], limits: list[str]) -> str:
    """Return the sentence that says most: numbers of a load, else the limits if they are few."""
    over = _over(reasons)
    if over is not None and over.tally is not None:
        return f"The peak draw is {against(over.tally.used, over.tally.given, 'power')}."
    if 0 < len(limits) <= 3:
        return " ".join(limits)
    return "What is asked cannot hold together."


def _over(reasons: Iterable[Reason]) -> Reason | None:
    """Return the reason that bounds the peak draw, if there is one."""
    return next(
        (
            reason
            for reason in reasons
            if reason.tally is not None
            and reason.tally.dimension == "power"
            and len(reason.tally.shares) > 1
        ),
        None,
    )


def _load_of(reasons: Iterable[Reason], machine: Machine) -> Load | None:
    over = _over(reasons)
    if over is None or over.tally is None:
        return None
    return load_of_reason(machine, over.tally, over.without)


def _near(nearest: Nearest, machine: Machine, voice: Voice) -> Near:
    names = Names(machine.book)
    load = load_of_build(machine, nearest.witness, redundant=voice.redundant)
    return Near(
        counted(len(nearest.changes), "change"),
        turns(nearest.changes, names),
        fitted(nearest.witness, names, "The build"),
        load,
        summary(nearest.witness, load),
    )


def _bound(verdict: Bound, machine: Machine, voice: Voice) -> Sheet:
    names, figure = Names(machine.book), verdict.figure
    side, beyond = sides(most=verdict.most)
    shown = _best(figure, most=verdict.most)
    what = capitalised(figure.words.removeprefix("the "))
    told = partial(grounds, names=names, beyond=f"Asked: {beyond} than {shown}.")
    sheet = Sheet(
        f"{side} {shown}",
        "bound",
        f"{what}: {side.lower()} {shown}. A build has it, and none has {beyond}.",
        grounds_title=f"Why not {beyond}",
        grounds=told(verdict.reasons),
        needed=needed(verdict.reasons),
        structure=_structure(verdict.structure),
        notes=tuple(_then(verdict, shown)),
        fitted=(fitted(verdict.witness, names, f"A build with {_all_best(verdict)}"),),
        load=load_of_build(machine, verdict.witness, redundant=voice.redundant),
        proof=_proof(verdict.proof),
        aid=AID,
    )
    return with_others(sheet, verdict.others, told)


def sides(*, most: bool) -> tuple[str, str]:
    """Return how a bound is said, and what lies beyond it."""
    return ("At most", "more") if most else ("At least", "less")


def _best(figure: Figure, *, most: bool) -> str:
    return amount(figure.value, figure.dimension, "down" if most else "up")


def _all_best(verdict: Bound) -> str:
    further = (_best(then.figure, most=then.most) for then in verdict.then)
    return listed((_best(verdict.figure, most=verdict.most), *further))


def _then(verdict: Bound, shown: str) -> Iterator[Group]:
    """Yield what comes next among the best builds, each with who checked it."""
    if not verdict.then:
        return
    rows = []
    for then in verdict.then:
        (side, beyond), what = sides(most=then.most), then.figure.words.removeprefix("the ")
        best = f"{side.lower()} {_best(then.figure, most=then.most)}; none has {beyond}"
        rows.append(Row(capitalised(what), f"{best}, {_checked(then.rechecked_by)}"))
    yield Group(f"Among the builds with {shown}, one after the other", tuple(rows))


def _count(verdict: Count, machine: Machine) -> Sheet:
    names = Names(machine.book)
    found = counted(verdict.number, "combination")
    heads = tuple(names.place(term) for term in verdict.over)
    return Sheet(
        found,
        "count",
        f"{found} of {listed(heads)}: each has a legal build, and no other combination has one.",
        table=Rows(heads, verdict.rows),
        proof=_proof(verdict.proof),
    )


def _together(verdict: Together, machine: Machine) -> Sheet:
    names = Names(machine.book)
    size = max((len(kept) for kept, _ in verdict.largest), default=0)
    most = f"The most that do: {small(size)}." if verdict.largest else "None of them does alone."
    sheet = Sheet(
        "Not together",
        "together",
        f"These {small(len(verdict.asked))} do not all hold in one build. {most}",
        grounds=grounds(verdict.reasons, names),
        needed=needed(verdict.reasons),
        fitted=tuple(_kept(verdict.asked, kept, build, names) for kept, build in verdict.largest),
        proof=_proof(verdict.proof),
        aid=AID,
    )
    return with_others(sheet, verdict.others, partial(grounds, names=names))


def _kept(asked: tuple[str, ...], kept: tuple[int, ...], build: Witness, names: Names) -> Fitted:
    return fitted(build, names, f"Together: {listed(asked[i] for i in kept)}")


def _undecided(verdict: Undecided, machine: Machine, voice: Voice) -> Sheet:
    paths = listed(fact.path for fact in verdict.facts)
    outcomes = tuple(
        Outcome(
            listed(
                f"{fact.path} {value}" for fact, value in zip(verdict.facts, values, strict=True)
            ),
            told(outcome, machine, voice),
        )
        for values, outcome in verdict.outcomes
    )
    return Sheet(
        "Not decided",
        "undecided",
        f"It depends on what is not settled yet: {paths}.",
        structure=tuple(quote(fact) for fact in verdict.facts),
        outcomes=outcomes,
        aid=AID if any(each.sheet.aid for each in outcomes) else "",
    )


def _stopped(verdict: Stopped) -> Sheet:
    told_so_far = [f"Stopped before it was decided; this is no answer. {verdict.tried}."]
    for words, figure in (
        ("Best found so far", verdict.best),
        ("No build can pass", verdict.bound),
    ):
        if figure is not None:
            told_so_far.append(f"{words}: {_figure(figure)}.")
    return Sheet("Stopped", "stopped", " ".join(told_so_far))


def _figure(figure: Figure) -> str:
    return f"{figure.words} {amount(figure.value, figure.dimension, 'nearest')}"


def _proof(proof: Proof) -> str:
    took = f"{proof.milliseconds:,.0f} ms" if proof.milliseconds >= 1 else "under 1 ms"
    return f"Answered by {proof.answered_by}, {_checked(proof.rechecked_by)}, {took}."


def _checked(by: str) -> str:
    return f"re-checked by {'the evaluator' if by == EVALUATOR else by}"
