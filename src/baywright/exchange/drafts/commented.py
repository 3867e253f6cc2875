"""Comments in a copy of a DOCX document, each beside its sentence; the old file stays as it is."""

from __future__ import annotations

import copy
import io
from collections.abc import Sequence
from dataclasses import dataclass

from docx.document import Document
from docx.oxml.ns import qn
from docx.text.run import Run

from baywright.exchange.drafts.document import numbered, opened
from baywright.exchange.drafts.draft import Draft
from baywright.exchange.drafts.word_runs import Element, runs
from baywright.language.passages import Place
from baywright.language.sentences import sentence_spans
from baywright.problems import problem

AUTHOR = "baywright"
INITIALS = "bw"


@dataclass(frozen=True, slots=True)
class Note:
    """What a comment says, and where.

    Args:
        place: where its sentence starts.
        text: what it says.
    """

    place: Place
    text: str


def commented(draft: Draft, notes: Sequence[Note]) -> bytes:
    """Return a document with a comment beside each sentence that a note is about.

    A header, a footer and a note can hold no comment; what is said of them stands beside the first
    paragraph, with its place.

    Args:
        draft: a draft that was read from a DOCX file.
        notes: what is said of it.

    Raises:
        Problems: kinds ``wrong-form`` for any other draft, and ``damaged``.
    """
    if draft.form != ".docx":
        message = f"{draft.path} is no DOCX document, so it can hold no comments."
        raise problem("wrong-form", message, None, "Choose another format.")
    document = opened(draft.data, draft.path)
    body = dict(numbered(document))
    for note in notes:
        _add(document, body, note)
    target = io.BytesIO()
    document.save(target)
    return target.getvalue()


def _add(document: Document, body: dict[int, Element], note: Note) -> None:
    paragraph = body.get(note.place.line)
    if paragraph is not None:
        marked = _sentence(paragraph, note.place.column - 1)
        text = note.text
    else:
        first = next(each for each in body.values() if any(runs(each)))
        marked, text = [run for run, _ in runs(first)], f"{note.place.where}: {note.text}"
    ends = [Run(run, document.element.body) for run in (marked[0], marked[-1])]
    document.add_comment(ends, text=text, author=AUTHOR, initials=INITIALS)


def _sentence(paragraph: Element, begin: int) -> list[Element]:
    """Return the runs of the sentence that starts at a sign; runs are cut where it starts, ends."""
    text = "".join(said for _, said in runs(paragraph))
    end = next((end for start, end in sentence_spans(text) if start == begin), len(text))
    for at in (begin, end):
        _cut(paragraph, at)
    found, here = [], 0
    for run, said in runs(paragraph):
        if said and begin < here + len(said) and here < end:
            found.append(run)
        here += len(said)
    return found


def _cut(paragraph: Element, at: int) -> None:
    """Cut the run around a sign in two, if it holds plain text alone; others are kept whole."""
    here = 0
    for run, said in runs(paragraph):
        if here < at < here + len(said):
            texts = [child for child in run if child.tag != qn("w:rPr")]
            if len(texts) == 1 and texts[0].tag == qn("w:t"):
                rest = copy.deepcopy(run)
                run.addnext(rest)
                _say(run, said[: at - here])
                _say(rest, said[at - here :])
            return
        here += len(said)


def _say(run: Element, text: str) -> None:
    said = run.find(qn("w:t"))
    said.text = text
    said.set("{http://www.w3.org/XML/1998/namespace}space", "preserve")
