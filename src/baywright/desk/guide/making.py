"""Making a guide: chapters filled, numbered, with what each block stands on beside it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from baywright.desk.guide.beside import with_keys
from baywright.desk.guide.by_hand import typed_numbers
from baywright.desk.guide.notation import Notation, Template, filled
from baywright.desk.guide.writer import Writer
from baywright.desk.opening import Opened
from baywright.desk.statements.shared import Shared
from baywright.desk.statements.statement import Statement
from baywright.facts.cautions import PLANNING_AID
from baywright.facts.status import Status
from baywright.papers.document import Block, Document
from baywright.papers.numbering import numbered
from baywright.problems import Problems


@dataclass(frozen=True, slots=True)
class Guide:
    """A guide with its proof.

    Args:
        document: the guide, in no form yet.
        statements: what it says, in the order of their numbers.
    """

    document: Document
    statements: tuple[Statement, ...]


def make_guide(
    opened: Opened, templates: Iterable[Template], before: tuple[Statement, ...] = ()
) -> Guide:
    """Write the guide of an open book.

    Args:
        opened: the book, with its day.
        templates: the chapters.
        before: statements of the last issue; none for a first one.

    Raises:
        Problems: for numbers typed by hand, and for what the templates ask and the book cannot
            answer.
        StoppedError: at a limit.
        RecheckError: when two engines do not agree.
    """
    held = tuple(templates)
    typed = [each for template in held for each in typed_numbers(template)]
    if typed:
        raise Problems(typed)
    writer = Writer(Shared(opened))
    notation = Notation(writer, before)
    blocks: list[Block] = []
    for template in held:
        blocks += filled(template, notation)
    statements = writer.statements
    return Guide(numbered(_document(opened, blocks, statements)), statements)


def _document(
    opened: Opened, blocks: Iterable[Block], statements: tuple[Statement, ...]
) -> Document:
    about = opened.book.book
    lines = (
        f"{about.maker}. Book {about.id}, edition of {about.edition.text}.",
        f"As of {opened.as_of}: {standing(opened.status)}",
        f"{len(statements)} statements, each with its query and its proof beside this guide.",
    )
    foot = f"{about.maker}. Book of {about.edition.text}, as of {opened.as_of}. {PLANNING_AID}"
    kept = tuple(with_keys(block, statements) for block in blocks)
    return Document(str(about.name), "platform guide", str(about.maker), lines, foot, kept)


def standing(status: Status) -> str:
    """Return what the machine is on the day, with what has to be said of it first."""
    return f"{WORDS.get(status.word, status.word)}. {status.note}".strip()


WORDS = {
    "unannounced": "pre-release",
    "announced": "announced, not shipping yet",
    "sample": "samples only",
    "shipping": "shipping",
    "withdrawn": "withdrawn",
}
"""What a guide calls the states of a machine."""
