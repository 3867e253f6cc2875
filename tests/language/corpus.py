"""The corpus: sentences and questions as people write them, each labelled with what is so.

A file of ``corpus/`` holds those about one book, written before there was a grammar. Each entry has

- ``text``, and for a statement its ``verdict``, for a question its ``form`` and ``answer``;
- ``expression``: the same claim in the book's expressions, one or a list that must all hold. Beside
  what the desk answers, ``not can(...)`` and comparisons of ``most``, ``least`` and ``ways`` are
  written. ``none`` stands where the language has no words for it, and ``because`` says why;
- ``grounds``: what the label stands on beside the expression, each ``BOOK EXPRESSION`` or
  ``BOOK PATH is VALUE`` for a fact as its file has it;
- ``corrected``: a true sentence in place of one that is not;
- ``as_of``: the day it was written for, where that is not the edition of the book;
- ``day``, ``altitude``, ``inlet``: day and site that the text itself names, for a reader to find.

How sentences are read decides the label. What is said of some build ("can", "takes", "up to", "room
for") is true when a legal build has it. What is said of each build ("has", "is", "comes with",
"always", "every") is true when all have it, false when none has it, and ``only-if`` in between. A
limit ("at most", "no more than", "at least") speaks of the most or the least there is, and "no",
"never", "cannot", "not" of there being no such build; both are true or false. Maxima joined in one
sentence that hold one by one are ``not-together``. A total that leaves out its scope where scopes
differ is ``scope-unclear``, "in total" included, which names none. The right number with a wrong
unit is ``unit``. A vague amount is no claim: ``nothing``. Of a machine or a fact that is there as a
sample only, a sentence that shows it as the product is ``sample``, whatever else it says.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any, Literal, TypeVar

import yaml

CORPUS = Path(__file__).parent / "corpus"

BOOKS = ("f2", "f1", "l4", "p1")

VERDICTS = frozenset(
    {
        "true",
        "false",
        "only-if",
        "not-together",
        "scope-unclear",
        "unit",
        "generation",
        "not-yet",
        "no-longer",
        "sample",
        "not-in-the-book",
        "not-understood",
        "nothing",
    }
)

FORMS = frozenset(
    {
        "is-it",
        "can-it",
        "why-not",
        "most",
        "least",
        "how-many-ways",
        "which",
        "where",
        "what-does-it-need",
        "what-if-it-fails",
        "together",
        "since-when",
        "what-changed",
    }
)

Half = Literal["tuning", "held"]

HALVES: tuple[Half, ...] = ("tuning", "held")


@dataclass(frozen=True, slots=True)
class Entry:
    """What a statement and a question have in common.

    Args:
        text: as somebody wrote it.
        book: id of the book it is about.
        expressions: the same in the book's expressions; empty where the language cannot say it.
        because: why it cannot.
        grounds: what the label stands on beside the expressions.
        as_of: the day it was written for, in ISO form, or empty for the edition of the book.
        day: the day that the text itself names, or empty.
        altitude: altitude of the site that the text names, or empty for sea level.
        inlet: temperature of the air taken in that the text names, or empty.
        note: a remark for who reads the corpus.
    """

    text: str
    book: str
    expressions: tuple[str, ...]
    because: str = ""
    grounds: tuple[str, ...] = ()
    as_of: str = ""
    day: str = ""
    altitude: str = ""
    inlet: str = ""
    note: str = ""

    @property
    def half(self) -> Half:
        """The half it belongs to."""
        return half(self.text)


@dataclass(frozen=True, slots=True)
class Statement(Entry):
    """A sentence with its verdict, one of ``VERDICTS``, and a true sentence where it is not."""

    verdict: str = ""
    corrected: str = ""


@dataclass(frozen=True, slots=True)
class Question(Entry):
    """A question with its form, one of ``FORMS``, and its answer as text."""

    form: str = ""
    answer: str = ""


E = TypeVar("E", bound=Entry)


def half(text: str) -> Half:
    """Return the half a text belongs to: tuning when the first byte of its SHA-256 is even.

    The rule knows nothing of the label, so nobody can choose what is held back.
    """
    return "tuning" if hashlib.sha256(text.encode()).digest()[0] % 2 == 0 else "held"


def in_half(entries: Iterable[E], wanted: Half) -> tuple[E, ...]:
    """Return the entries of one half."""
    return tuple(entry for entry in entries if entry.half == wanted)


@cache
def statements(book: str) -> tuple[Statement, ...]:
    """Return the statements about a book, in the order of its file."""
    return tuple(Statement(**fields) for fields in _entries(book, "statements"))


@cache
def questions(book: str) -> tuple[Question, ...]:
    """Return the questions about a book, in the order of its file."""
    return tuple(Question(**fields) for fields in _entries(book, "questions"))


def all_statements() -> tuple[Statement, ...]:
    """Return the statements about all books."""
    return tuple(entry for book in BOOKS for entry in statements(book))


def all_questions() -> tuple[Question, ...]:
    """Return the questions about all books."""
    return tuple(entry for book in BOOKS for entry in questions(book))


def _entries(book: str, section: str) -> Iterator[dict[str, Any]]:
    # Every value is wanted as it is written, so that yes, true and 2031-07-01 stay texts.
    text = (CORPUS / f"{book}.yaml").read_text(encoding="utf-8")
    file = yaml.load(text, Loader=yaml.BaseLoader)  # noqa: S506 - it makes nothing but texts
    for fields in file[section]:
        expression = fields.pop("expression")
        said = [expression] if isinstance(expression, str) else expression
        yield {
            **fields,
            "book": file["book"],
            "expressions": () if expression == "none" else tuple(said),
            "grounds": tuple(fields.get("grounds", ())),
        }
