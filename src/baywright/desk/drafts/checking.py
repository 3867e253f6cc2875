"""Proofreading a file against a book."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TypeAlias

from baywright.desk.drafts.combinations import with_combinations
from baywright.desk.opening import Opened
from baywright.desk.proofreading.judging import STATUS_KINDS
from baywright.desk.proofreading.proofreading import proofread
from baywright.desk.walk.known import known_sentences
from baywright.exchange.drafts.draft import Draft, read_draft
from baywright.language.findings.grounds import WORDS_PER_MINUTE, Quoted
from baywright.language.findings.of_book import grounds_of
from baywright.language.findings.pace import words_per_minute
from baywright.language.findings.promises import is_only_promise
from baywright.language.findings.registry import findings
from baywright.language.kind_words import UNMARKED
from baywright.language.passages import Kind, Passage, Remark
from baywright.language.spoken import written
from baywright.language.told.telling import Told, key_of
from baywright.problems import problem

Judge: TypeAlias = Callable[[Opened, Sequence[Passage]], Iterable[Remark]]
"""Judges the statements of a draft."""

UNREAD = ("not-understood", "nothing")
"""Kinds of what was not read as a statement."""

IN_OWN_WORDS = ("rules", "must-say")
"""Topics of sentences that a book states freely, so that one of them may be read as wrong."""

JUDGES: tuple[Judge, ...] = (proofread,)
"""What judges statements, one after the other."""


@dataclass(frozen=True, slots=True)
class Proofread:
    """A draft with what is said of it.

    Args:
        opened: the book it was held against.
        draft: the draft.
        remarks: what is said of its passages, in their order.
    """

    opened: Opened
    draft: Draft
    remarks: tuple[Remark, ...]

    @property
    def words_per_minute(self) -> float | None:
        """How fast it is spoken, or ``None`` where nothing is spoken."""
        return words_per_minute(self.draft.passages)


def proofread_file(opened: Opened, path: Path, pace: float = WORDS_PER_MINUTE) -> Proofread:
    """Proofread a file.

    Args:
        opened: the book to hold it against.
        path: the file.
        pace: the fastest speech that captions may ask for, in words a minute.

    Raises:
        Problems: when the file cannot be read.
    """
    if pace <= 0:
        message = f"{pace:g} words a minute is no pace."
        raise problem("pace", message, None, "Give more than 0, such as 180.")
    draft = read_draft(path)
    return Proofread(opened, draft, proofread_passages(opened, draft.passages, pace))


def proofread_passages(
    opened: Opened, passages: Sequence[Passage], pace: float = WORDS_PER_MINUTE
) -> tuple[Remark, ...]:
    """Return what is said of some passages, in their order, each thing once."""
    grounds = grounds_of(opened.book, pace)
    grounds = replace(grounds, amounts=with_combinations(opened, grounds.amounts))
    told = known_sentences(opened)
    said = [_understood(remark, told) for remark in judged(opened, passages)]
    return ordered(passages, [*said, *findings(passages, grounds)])


def judged(opened: Opened, passages: Sequence[Passage]) -> Iterator[Remark]:
    """Yield what is said of the statements of some passages, spoken numbers read as written."""
    as_written = [replace(passage, text=written(passage.text)) for passage in passages]
    spoken = dict(zip(as_written, passages, strict=True))
    for judge in JUDGES:
        for remark in judge(opened, as_written):
            yield replace(remark, passage=spoken[remark.passage])


def _understood(remark: Remark, told: Mapping[tuple[str, ...], Told]) -> Remark:
    """Return a remark, or another where its passage is known word for word or is a promise."""
    if remark.kind in ("true", *STATUS_KINDS.values()):
        return remark
    known = told.get(key_of(remark.passage.text))
    if known is not None and (known.topic not in IN_OWN_WORDS or remark.kind in UNREAD):
        kind: Kind = "true" if known.facts else "nothing"
        return Remark(remark.passage, kind, proof=Quoted(known.facts) if known.facts else None)
    if remark.kind == "not-understood" and is_only_promise(remark.passage.text):
        return Remark(remark.passage, "nothing")
    return remark


def ordered(passages: Sequence[Passage], remarks: Iterable[Remark]) -> tuple[Remark, ...]:
    """Return remarks in the order of their passages; what a judge found is not said twice.

    A passage that states nothing, and is remarked on, is not said to state nothing; one that is not
    understood because it points, or is vague, is not said not to be understood.
    """
    order = {passage: at for at, passage in reversed(list(enumerate(passages)))}
    kept: dict[tuple[int, str, str], Remark] = {}
    for remark in remarks:
        kept.setdefault((order[remark.passage], remark.kind, remark.said), remark)
    marked = {at for at, kind, _ in kept if kind not in UNMARKED}
    explained = {at for at, kind, _ in kept if kind in ("pointing", "vague")}
    found = sorted(kept.items(), key=lambda pair: pair[0][0])
    return tuple(
        remark
        for (at, _, _), remark in found
        if not (remark.kind == "nothing" and at in marked)
        and not (at in explained and _is_explained(remark))
    )


def _is_explained(remark: Remark) -> bool:
    """Say whether no more than the word that points, or is vague, was not understood."""
    return remark.kind == "not-understood" and len(remark.not_understood) <= 1 and not remark.said
