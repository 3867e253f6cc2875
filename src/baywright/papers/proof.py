"""The proof of a draft: the draft as it reads, and beside each sentence what is said of it."""

from __future__ import annotations

import difflib
import itertools
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from baywright.language.blocks import Block, Role
from baywright.language.kind_words import KIND_WORDS, UNMARKED, counts, marked
from baywright.language.passages import Kind, Passage, Remark
from baywright.papers.environment import environment

_PART = re.compile(r"\S+\s*")


@dataclass(frozen=True, slots=True)
class ProofPaper:
    """What a proof is made from.

    Args:
        title: name of the draft.
        book: the book it was held against, in words.
        as_of: the day it holds for, in ISO form.
        blocks: blocks of the draft.
        passages: its sentences.
        remarks: what is said of them, in their order.
        pace: how fast it is spoken, in words a minute, or ``None``.
    """

    title: str
    book: str
    as_of: str
    blocks: tuple[Block, ...]
    passages: tuple[Passage, ...]
    remarks: tuple[Remark, ...]
    pace: float | None = None


@dataclass(frozen=True, slots=True)
class _Note:
    """One remark as it is shown.

    Args:
        number: its number on the page.
        kind: what it says.
        word: the same as a word.
        parts: the true sentence in parts, each with whether it was put in.
        said: why.
        beside: what it stands on, and how the sentence was understood.
    """

    number: int
    kind: Kind
    word: str
    parts: tuple[tuple[str, bool], ...]
    said: str
    beside: tuple[str, ...]
    reading: str


@dataclass(frozen=True, slots=True)
class _Sentence:
    """A sentence with its notes; the first one gives the mark."""

    text: str
    where: str
    notes: tuple[_Note, ...]

    @property
    def mark(self) -> str:
        return self.notes[0].kind if self.notes else "none"


@dataclass(frozen=True, slots=True)
class _Row:
    """Sentences that stand on one row, and the notes beside them."""

    sentences: tuple[_Sentence, ...]

    @property
    def notes(self) -> tuple[_Note, ...]:
        return tuple(note for sentence in self.sentences for note in sentence.notes)


@dataclass(frozen=True, slots=True)
class _Shown:
    """A block as it is shown."""

    role: Role
    level: int
    heading: str
    rows: tuple[_Row, ...]


def proof_page(paper: ProofPaper) -> str:
    """Return a proof as one page of HTML that needs nothing else."""
    numbers = counts(paper.remarks)
    marks = [(k, KIND_WORDS[k], number) for k, number in numbers.items() if k not in UNMARKED]
    return (
        environment()
        .get_template("proof.html.j2")
        .render(
            paper=paper,
            blocks=tuple(_blocks(paper)),
            marks=marks,
            clean=[(KIND_WORDS[k], numbers[k]) for k in ("true", "nothing") if k in numbers],
        )
    )


def parts_put_in(before: str, after: str) -> tuple[tuple[str, bool], ...]:
    """Return a corrected sentence in parts, each with whether the draft has it not.

    >>> parts_put_in("It has 28 sockets.", "It has 32 sockets.")
    (('It has ', False), ('32 ', True), ('sockets.', False))
    """
    old, new = _PART.findall(before), _PART.findall(after)
    matcher = difflib.SequenceMatcher(
        None, [part.strip() for part in old], [part.strip() for part in new], autojunk=False
    )
    found = [
        ("".join(new[begin:end]), tag != "equal")
        for tag, _, _, begin, end in matcher.get_opcodes()
        if begin < end
    ]
    return tuple(found)


def _blocks(paper: ProofPaper) -> Iterator[_Shown]:
    notes = _notes(paper.remarks)
    for number, group in itertools.groupby(paper.passages, key=lambda passage: passage.block):
        block = paper.blocks[number - 1]
        sentences = [_Sentence(p.text, p.place.where, notes.get(p, ())) for p in group]
        yield _Shown(block.role, block.level, block.heading, tuple(_rows(sentences)))


def _notes(remarks: Sequence[Remark]) -> dict[Passage, tuple[_Note, ...]]:
    found: dict[Passage, tuple[_Note, ...]] = {}
    for number, remark in enumerate(marked(remarks), 1):
        found[remark.passage] = (*found.get(remark.passage, ()), _note(number, remark))
    return found


def _note(number: int, remark: Remark) -> _Note:
    parts = parts_put_in(remark.passage.text, remark.sentence) if remark.sentence else ()
    if remark.kind == "must-say":
        parts = ((remark.sentence, True),)
    unknown = remark.not_understood
    said = f"{remark.said} Not understood: {', '.join(unknown)}." if unknown else remark.said
    beside = remark.proof.sentences if remark.proof is not None else ()
    word = KIND_WORDS[remark.kind]
    return _Note(number, remark.kind, word, parts, said.strip(), beside, remark.reading)


def _rows(sentences: Sequence[_Sentence]) -> Iterator[_Row]:
    """Yield rows: a sentence with notes ends one, so that the next note stands lower."""
    waiting: list[_Sentence] = []
    for sentence in sentences:
        waiting.append(sentence)
        if sentence.notes:
            yield _Row(tuple(waiting))
            waiting = []
    if waiting:
        yield _Row(tuple(waiting))
