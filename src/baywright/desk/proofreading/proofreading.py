"""Proofreading: each sentence of a draft with its verdict, its reading and the true sentence."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from baywright.desk.opening import Opened, open_book
from baywright.desk.proofreading.correcting import Corrector
from baywright.desk.proofreading.judging import STATUS_KINDS, Finding, Judge
from baywright.desk.proofreading.proving import Prover, Site
from baywright.facts.book import Book
from baywright.files.books import read_book
from baywright.language.claims import Claim
from baywright.language.findings.grounds import Quoted
from baywright.language.glossary import glossary
from baywright.language.kind_words import KIND_WORDS
from baywright.language.passages import Kind, Passage, Place, Remark
from baywright.language.reading import Reader, Reading

WORST: tuple[Kind, ...] = (
    "not-understood", "false", "generation", "unit", "not-together", "scope-unclear",
    "not-yet", "no-longer", "sample", "only-if", "true",
)  # fmt: skip
"""Kinds in the order in which one of several claims decides for the sentence."""

CORRECTED: frozenset[Kind] = frozenset(
    ("false", "only-if", "not-together", "scope-unclear", "unit", "generation", "not-yet")
)
"""Kinds for which the sentence that would be true is looked for."""

NOWHERE = Place("sentence", 1, 1)

MOST_SIGNS = 2000
"""Signs of a sentence that is read; nobody states anything checkable at greater length."""


@dataclass(frozen=True, slots=True)
class Evidence:
    """What a remark stands on.

    Args:
        findings: what was found of each claim.
        quoted: the facts of the book that were looked at.
    """

    findings: tuple[Finding, ...]
    quoted: Quoted

    @property
    def sentences(self) -> tuple[str, ...]:
        """What was found of each of several claims, then the facts, one line each."""
        several = self.findings if len(self.findings) > 1 else ()
        told = (f"{each.claim.text}: {KIND_WORDS[each.kind].lower()}" for each in several)
        return (*told, *self.quoted.sentences)

    def as_json(self) -> Mapping[str, object]:
        """Return it as plain JSON values."""
        claims = [{"claim": each.claim.text, "kind": each.kind} for each in self.findings]
        return {"claims": claims, **self.quoted.as_json()}


@dataclass
class Proofreader:
    """Proofreads sentences about an open book; what was once judged is kept.

    Args:
        reader: reads sentences.
        judge: judges claims.
    """

    reader: Reader
    judge: Judge
    _kept: dict[Claim, Finding] = field(default_factory=dict)
    _others: dict[str, Proofreader] = field(default_factory=dict)
    _said: dict[tuple[str, bool], Remark] = field(default_factory=dict)

    @classmethod
    def of(cls, opened: Opened) -> Proofreader:
        """Return a proofreader for an open book."""
        book = opened.book
        reader = Reader(book, glossary(book, relatives(opened)), opened.machine.vocabulary)
        return cls(reader, Judge(Prover(opened)))

    def sentence(self, text: str) -> Remark:
        """Return the remark on a sentence that stands alone."""
        return self.remark(Passage(text, NOWHERE, 0))

    def remark(self, passage: Passage, *, correct: bool = True) -> Remark:
        """Return the remark on a passage.

        Args:
            passage: the passage.
            correct: whether to look for the sentence that would be true.
        """
        key = (passage.text, correct)
        if key not in self._said:
            self._said[key] = self._remark(passage, correct=correct)
        return replace(self._said[key], passage=passage)

    def _remark(self, passage: Passage, *, correct: bool) -> Remark:
        if len(passage.text) > MOST_SIGNS:
            said = f"It is longer than {MOST_SIGNS:,} signs; say it in several sentences."
            return Remark(passage, "not-understood", said=said)
        reading = self.reader.read(passage.text)
        if reading.machine:
            return self._of(reading.machine).remark(passage, correct=correct)
        if not reading.ways:
            return _unread(passage, reading)
        if all(_names_only(claim) for way in reading.ways for claim in way):
            return Remark(passage, "nothing")
        ways = [tuple(self.found(claim) for claim in way) for way in reading.ways]
        kinds = {_kind(found) for found in ways}
        if len(kinds) > 1:
            said = "It can be read in ways that differ."
            return Remark(passage, "not-understood", reading.text, said=said)
        found, kind = ways[0], kinds.pop()
        kind = self._standing(kind)
        said = next((each.said for each in found if each.kind == kind and each.said), "")
        wanted = correct and kind in CORRECTED
        sentence = self._instead(found, kind, passage.text) if wanted else ""
        return Remark(
            passage, kind, reading.text, sentence=sentence, said=said, proof=self._evidence(found)
        )

    def _evidence(self, found: tuple[Finding, ...]) -> Evidence:
        stated = (each for finding in found for each in finding.facts)
        facts = dict.fromkeys(fact for each in stated for fact in each.facts)
        return Evidence(found, Quoted(self.judge.prover.opened.book.cite(*facts)))

    def _instead(self, found: Sequence[Finding], kind: Kind, text: str) -> str:
        """Return a sentence that would be true: the first proposal that is found true again."""
        corrector = Corrector(self.judge.prover)
        for finding in found:
            for proposal in corrector.proposals(finding, text) if finding.kind == kind else ():
                if proposal and self._is_true(proposal):
                    return proposal
        return ""

    def _is_true(self, sentence: str) -> bool:
        return self.remark(Passage(sentence, NOWHERE, 0), correct=False).kind == "true"

    def _standing(self, kind: Kind) -> Kind:
        """Return what a true sentence is of a machine that does not ship: too early or too late."""
        word = self.judge.prover.opened.status.word
        return STATUS_KINDS.get(word, kind) if kind == "true" else kind

    def _of(self, book: str) -> Proofreader:
        """Return the proofreader of the book of another machine, for the same day and site."""
        if book not in self._others:
            opened = self.judge.prover.opened
            folder = opened.folder.parent / book
            self._others[book] = Proofreader.of(open_book(folder, opened.setting, opened.panel))
        return self._others[book]

    def possible(self, terms: Sequence[str]) -> bool:
        """Say whether some legal build has all of the terms."""
        return self.judge.prover.possible(terms)

    def at(self, altitude: str, inlet: str) -> Opened:
        """Return the book opened for a site."""
        return self.judge.prover.at(Site(altitude, inlet))

    def found(self, claim: Claim) -> Finding:
        """Return the verdict on a claim, from what was kept where it was judged before."""
        if claim not in self._kept:
            self._kept[claim] = self.judge.judge(claim)
        return self._kept[claim]


def relatives(opened: Opened) -> dict[str, Book]:
    """Return the books of the machines this one follows or is followed by."""
    book, found = opened.book, dict[str, Book]()
    for folder in sorted(each for each in opened.folder.parent.iterdir() if each.is_dir()):
        if folder == opened.folder or not (folder / "book.yaml").exists():
            continue
        about = read_book(folder)
        if book.book.id == about.book.predecessor or about.book.id == book.book.predecessor:
            found[about.book.id] = about
    return found


def proofread(opened: Opened, passages: Sequence[Passage]) -> tuple[Remark, ...]:
    """Return the verdict on the statements of a draft, one remark for each passage."""
    held = Proofreader.of(opened)
    return tuple(held.remark(passage) for passage in passages)


def _names_only(claim: Claim) -> bool:
    """Say whether a claim is the name of a thing and no more, as a heading or a cell has it."""
    bare = claim.bare and len(claim.terms) == 1 and len(claim.measures) == 1 and not claim.given
    return bare and not any(each.values or each.quant or each.op for each in claim.measures)


def _kind(found: Sequence[Finding]) -> Kind:
    held = {each.kind for each in found}
    return next(kind for kind in WORST if kind in held)


def _unread(passage: Passage, reading: Reading) -> Remark:
    if reading.absent:
        return Remark(passage, "not-in-the-book", not_understood=reading.absent)
    kind: Kind = "not-understood" if reading.about else "nothing"
    return Remark(passage, kind, not_understood=reading.unknown)
