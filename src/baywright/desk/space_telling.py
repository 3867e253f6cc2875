"""Answers about space files and counts of builds, in words and as JSON values."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from functools import partial

from baywright.answers.as_json import Json, verdict_json
from baywright.answers.counting import BuildCount
from baywright.answers.space_questions import BEYOND
from baywright.answers.verdicts import Bound, No, Proof, Reason, Stopped, Verdict, Witness, Yes
from baywright.answers.wording import Fitted, Ground, Group, Row, Sheet, quote
from baywright.answers.wording.grounds import needed, with_others
from baywright.desk.spaces import SpaceAnswer, SpaceCount, SpaceOptions
from baywright.laws.wording import counted, listed
from baywright.units import number


def answer_sheet(answer: SpaceAnswer) -> Sheet:
    """Return an answer about a space file in words."""
    return replace(
        _told(answer.verdict),
        reading=f"Read as {answer.reading}.",
        standing=f"Space file {answer.file}.",
    )


def answer_json(answer: SpaceAnswer) -> Json:
    """Return an answer about a space file."""
    return {
        "question": answer.question,
        "reading": answer.reading,
        "space": answer.file,
        "answer": verdict_json(answer.verdict),
    }


def count_sheet(count: SpaceCount) -> Sheet:
    """Return a count of a space file in words."""
    left_out = f", without the budget {listed(count.without)}" if count.without else ""
    given = f" with {listed(count.given)}" if count.given else ""
    return Sheet(
        counted(count.found.number, "build"),
        "builds",
        f"Exactly {counted(count.found.number, 'legal build')}{given}{left_out}.",
        proof=proof_words(count.found.proof),
        standing=f"Space file {count.file}.",
    )


def count_json(count: SpaceCount) -> Json:
    """Return a count of a space file; the number is a text too, as not every reader has room."""
    return {
        "space": count.file,
        "given": list(count.given),
        "without": list(count.without),
        **build_count_json(count.found),
    }


def build_count_json(found: BuildCount) -> Json:
    """Return a number of builds."""
    return {
        "builds": found.number,
        "builds_text": str(found.number),
        "proof": proof_json(found.proof),
    }


def options_json(options: SpaceOptions) -> Json:
    """Return what the choices of a space file can still be."""
    return {
        "space": options.file,
        "given": list(options.given),
        "options": [
            {"choice": each.choice, "free": list(each.free), "closed": list(each.closed)}
            for each in options.choices
        ],
        "proof": proof_json(options.proof),
    }


def proof_words(proof: Proof) -> str:
    """Say who answered and who checked."""
    took = f"{proof.milliseconds:,.0f} ms" if proof.milliseconds >= 1 else "under 1 ms"
    checker = "the evaluator" if proof.rechecked_by == "evaluator" else proof.rechecked_by
    checked = f"re-checked by {checker}" if checker else "not re-checked, as that takes long"
    return f"Answered by {proof.answered_by}, {checked}, {took}."


def proof_json(proof: Proof) -> Json:
    """Return who answered and who checked, nobody where that takes too long."""
    return {
        "answered_by": proof.answered_by,
        "rechecked_by": proof.rechecked_by or None,
        "milliseconds": round(proof.milliseconds, 3),
    }


def _told(verdict: Verdict) -> Sheet:
    match verdict:
        case Yes():
            return _yes(verdict)
        case No():
            return _no(verdict)
        case Bound():
            return _bound(verdict)
        case Stopped(tried, best):
            found = f" Best found so far: {number(best.value)}." if best else ""
            sentence = f"Stopped before it was decided; this is no answer. {tried}.{found}"
            return Sheet("Stopped", "stopped", sentence)
        case _:
            raise TypeError(f"spaces are not asked for {type(verdict).__name__}")


def _yes(verdict: Yes) -> Sheet:
    every = bool(verdict.always)
    sheet = Sheet(
        "Yes",
        "yes",
        "Every legal build has this." if every else "A legal build has this; it is shown below.",
        grounds_title="Why none is without it" if every else "Reasons",
        grounds=_grounds(verdict.always),
        needed=needed(verdict.always),
        fitted=(_build(verdict.witness, "The build"),),
        proof=proof_words(verdict.proof),
    )
    return with_others(sheet, verdict.others, _grounds)


def _no(verdict: No) -> Sheet:
    if verdict.counterexample is not None:
        return Sheet(
            "No",
            "no",
            "Not every legal build has this: the one below does not.",
            fitted=(_build(verdict.counterexample, "A legal build without it"),),
            proof=proof_words(verdict.proof),
        )
    sheet = Sheet(
        "No",
        "no",
        "No legal build has this.",
        grounds=_grounds(verdict.reasons),
        needed=needed(verdict.reasons),
        proof=proof_words(verdict.proof),
    )
    return with_others(sheet, verdict.others, _grounds)


def _bound(verdict: Bound) -> Sheet:
    side, beyond = ("At most", "more") if verdict.most else ("At least", "less")
    value = number(verdict.figure.value)
    told = partial(_grounds, beyond=f"Asked: {beyond} than {value}.")
    sheet = Sheet(
        f"{side} {value}",
        "bound",
        f"{verdict.figure.words}: {side.lower()} {value}. A build has it, and none has {beyond}.",
        grounds_title=f"Why not {beyond}",
        grounds=told(verdict.reasons),
        needed=needed(verdict.reasons),
        fitted=(_build(verdict.witness, f"A build with {value}"),),
        proof=proof_words(verdict.proof),
    )
    return with_others(sheet, verdict.others, told)


def _grounds(reasons: Iterable[Reason], beyond: str = "") -> tuple[Ground, ...]:
    ordered = sorted(reasons, key=lambda reason: reason.kind == "wish")
    return tuple(
        Ground(
            reason.key,
            "asked" if reason.kind == "wish" else reason.kind,
            beyond if reason.key == BEYOND and beyond else reason.sentence,
            "" if reason.key == BEYOND else _total(reason),
            tuple(quote(fact, reason.sentence) for fact in reason.facts),
        )
        for reason in ordered
    )


def _total(reason: Reason) -> str:
    tally = reason.tally
    if tally is None or tally.used <= tally.given:
        return ""
    over = tally.used - tally.given
    return f"{number(tally.used)} against {number(tally.given)}: {number(over)} over."


def _build(witness: Witness, title: str) -> Fitted:
    rows: Sequence[Row] = [Row(line.choice, line.label) for line in witness.lines]
    figures = tuple(Row(each.words, number(each.value)) for each in witness.figures)
    return Fitted(title, (Group("Choices", tuple(rows)),), figures)
