"""Which facts a book leaves out, and which questions cannot be answered without them.

Nothing here lists facts by hand for laws and sizing: laws run over a book that notes what they
look for in vain, and every figure of sizing names what it still depends on.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

import numpy as np

from baywright.desk.capture.probing import case_for, covering, full_site
from baywright.desk.capture.watching import Watch
from baywright.desk.opening import Opened, conditions
from baywright.facts.book import Book
from baywright.facts.model import Model
from baywright.files.books import read_book
from baywright.files.shape import annotations_of, fields_of, reads_of
from baywright.laws.machine import Machine, compile_book
from baywright.laws.registry import SUBSYSTEMS
from baywright.problems import problem, suggestion
from baywright.sizing.registry import SUBJECTS
from baywright.units import DIMENSIONS

_AMOUNTS = {*DIMENSIONS, "money", "ratio"}
_HAS_STANDARD = "unless given"

KINDS = ("unsettled", "laws", *(subject.name for subject in SUBJECTS), "drawings", "service")
"""The kinds of question."""


@dataclass(frozen=True, slots=True)
class Gap:
    """A fact that is not there, or not settled.

    Args:
        field: what it is called.
        entries: paths of the entries that leave it out; of the fact itself where one is named.
        questions: what cannot be said without it, or what asks for it.
        values: what it could be, for a fact that is not settled.
    """

    field: str
    entries: tuple[str, ...]
    questions: tuple[str, ...]
    values: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Missing:
    """What is missing for one kind of question.

    Args:
        key: the kind of question.
        title: what it is about.
        says: what comes of it.
        gaps: the facts.
    """

    key: str
    title: str
    says: str
    gaps: tuple[Gap, ...]


def missing(opened: Opened, about: str = "") -> tuple[Missing, ...]:
    """Return what a book leaves open, by kind of question; kinds that lack nothing are left out.

    Args:
        opened: the book, with day and site.
        about: key of the only kind of question that is wanted, or empty for all.

    Raises:
        Problems: when its unknown facts could be too many ways together, and kind
            ``unknown-word`` for a kind of question that there is not.
    """
    if about and about not in KINDS:
        message = f"Nothing is asked about {about!r}."
        raise problem("unknown-word", message, None, suggestion(about, KINDS, most=20))
    machine = opened.machine
    settled = _settled(opened)
    found = (
        _unsettled(opened),
        _of_laws(opened, settled),
        *_of_sizing(opened, machine),
        _of_drawings(opened.book),
        _of_service(opened.book),
    )
    return tuple(each for each in found if each.gaps and about in ("", each.key))


def _settled(opened: Opened) -> Book:
    """Return the book with the first value that each unknown fact could have."""
    first = {path: fact.could_be[0] for path, fact in opened.unknown.items()}
    return read_book(opened.folder, first) if first else opened.book


def _unsettled(opened: Opened) -> Missing:
    asked = opened.supposed
    gaps = [
        Gap(
            path.rpartition(".")[2],
            (path,),
            ("what can be built and what it draws, weighs and costs",) if path in asked else (),
            fact.could_be,
        )
        for path, fact in opened.unknown.items()
    ]
    says = "Every answer is worked out under each value; one that differs is not decided."
    return Missing("unsettled", "Facts not settled", says, tuple(gaps))


def _of_laws(opened: Opened, book: Book) -> Missing:
    """Return the amounts that laws look for and do not find."""
    watch = Watch(book)
    frame = compile_book(watch.book, conditions(book, opened.setting)).frame
    asked: dict[str, dict[str, tuple[str, ...]]] = {}
    for subsystem in SUBSYSTEMS:
        with watch.looking() as found:
            names = ", ".join(subsystem.names(frame))
            list(subsystem.laws(frame))
        asks = f"laws of {subsystem.name}{f' ({names})' if names else ''}"
        for entry, field in found:
            if _is_amount(watch.entry(entry), field):
                about = asked.setdefault(field, {})
                about[entry] = (*about.get(entry, ()), asks)
    gaps = [Gap(field, entries, questions) for field, entries, questions in _grouped(asked)]
    says = "Laws take these as nothing, as no limit, or from another fact of the entry."
    return Missing("laws", "What can be built, draws, weighs and costs", says, tuple(gaps))


def _is_amount(entry: Model | None, field: str) -> bool:
    if entry is None:
        return False
    model = next(base for base in type(entry).__mro__ if "Watched" not in base.__name__)
    reads = reads_of(annotations_of(model)[field])
    described = fields_of(model)[field].description or ""
    return reads is not None and reads.sort in _AMOUNTS and _HAS_STANDARD not in described


def _grouped(
    asked: Mapping[str, Mapping[str, tuple[str, ...]]],
) -> Iterator[tuple[str, tuple[str, ...], tuple[str, ...]]]:
    """Yield each field with the entries that lack it for the same questions."""
    for field, about in asked.items():
        by_questions: dict[tuple[str, ...], list[str]] = {}
        for entry, questions in about.items():
            by_questions.setdefault(questions, []).append(entry)
        for questions, entries in by_questions.items():
            yield field, tuple(entries), questions


def _of_sizing(opened: Opened, machine: Machine) -> Iterator[Missing]:
    """Yield for each subject of sizing the facts its figures wait for."""
    builds = covering(opened, machine)
    if not builds:
        return
    case = case_for(machine, builds, full_site(opened.book))
    for subject in SUBJECTS:
        waits: dict[str, dict[str, tuple[str, ...]]] = {}
        sheet = subject.sheet(case)
        for figure in (*sheet.figures, *(limit.figure for limit in sheet.limits)):
            for path in figure.missing if np.isnan(figure.values).any() else ():
                if path.partition(".")[0] in Book.model_fields:
                    entry, _, field = path.rpartition(".")
                    about = waits.setdefault(field, {})
                    names = dict.fromkeys((*about.get(entry, ()), figure.name))
                    about[entry] = tuple(names)
        gaps = tuple(Gap(field, entries, asks) for field, entries, asks in _grouped(waits))
        says = "These figures are not decided for builds that have it."
        yield Missing(subject.name, subject.title, says, gaps)


def _of_drawings(book: Book) -> Missing:
    """A place that no outline is given for is in no drawing."""
    bare = tuple(f"places.{name}" for name, place in book.places.items() if not place.at)
    gaps = (Gap("at", bare, ("drawings of front, rear, inside and side",)),) if bare else ()
    return Missing("drawings", "Drawings", "These places are not drawn.", gaps)


def _of_service(book: Book) -> Missing:
    """Work that service does not speak of counts as done with power off, its time as unknown."""
    said = set(book.service.work)
    kinds = {part.kind for name, part in book.parts.items() if name not in said} - said
    entries = tuple(f"service.work.{kind}" for kind in sorted(kinds))
    gaps = (Gap("time", entries, ("plans of service and their times",)),) if entries else ()
    says = "Work on these counts as done with power off, and its time as unknown."
    return Missing("service", "Service", says, gaps)
