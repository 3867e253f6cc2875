"""Numbers of a document: headings, tables and figures, sections that fell empty, the index."""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace

from baywright.papers.document import (
    Block,
    Document,
    Entry,
    Figure,
    Heading,
    Index,
    Table,
    text_of,
)

_WORDS = re.compile(r"[^a-z0-9]+")


def numbered(document: Document) -> Document:
    """Return a document whose headings, tables and figures have their numbers.

    A heading under which nothing stands is left out, and so are those above it that hold no more
    than it. What is no book has no numbers on its headings, and its tables count through.
    """
    blocks = tuple(_with_numbers(_filled(document.blocks)))
    if document.form != "book":
        bare = (replace(b, number="") if isinstance(b, Heading) else b for b in blocks)
        return replace(document, blocks=tuple(_counted(bare)))
    return replace(document, blocks=tuple(_indexed(tuple(_labelled(blocks)))))


def _counted(blocks: Iterable[Block]) -> Iterator[Block]:
    tables, figures = itertools.count(1), itertools.count(1)
    for block in blocks:
        match block:
            case Table():
                yield replace(block, label=f"Table {next(tables)}")
            case Figure():
                yield replace(block, label=f"Figure {next(figures)}")
            case _:
                yield block


def _filled(blocks: Sequence[Block]) -> Iterator[Block]:
    """Yield blocks without the headings of empty sections."""
    for at, block in enumerate(blocks):
        if not isinstance(block, Heading) or _holds(blocks[at + 1 :], block.level):
            yield block


def _holds(following: Iterable[Block], level: int) -> bool:
    for block in following:
        if not isinstance(block, Heading):
            return True
        if block.level <= level:
            return False
    return False


def _with_numbers(blocks: Iterable[Block]) -> Iterator[Block]:
    counts = [0, 0, 0, 0, 0, 0]
    anchors: set[str] = set()
    for block in blocks:
        if not isinstance(block, Heading):
            yield block
            continue
        counts[block.level - 1] += 1
        counts[block.level :] = [0] * (len(counts) - block.level)
        number = ".".join(str(each) for each in counts[: block.level])
        anchor = _anchor(block.text, anchors)
        yield replace(block, number=number, anchor=anchor)


def _anchor(text: str, taken: set[str]) -> str:
    plain = _WORDS.sub("-", text.casefold()).strip("-") or "section"
    found, number = plain, 1
    while found in taken:
        number += 1
        found = f"{plain}-{number}"
    taken.add(found)
    return found


def _labelled(blocks: Iterable[Block]) -> Iterator[Block]:
    chapter, tables, figures = "", 0, 0
    for block in blocks:
        match block:
            case Heading(level=1):
                chapter, tables, figures = block.number, 0, 0
                yield block
            case Table():
                tables += 1
                yield replace(block, label=f"Table {chapter}-{tables}")
            case Figure():
                figures += 1
                yield replace(block, label=f"Figure {chapter}-{figures}")
            case _:
                yield block


def _indexed(blocks: Sequence[Block]) -> Iterator[Block]:
    for block in blocks:
        if isinstance(block, Index):
            yield replace(block, entries=tuple(_entries(block, _sections(blocks))))
        else:
            yield block


def _sections(blocks: Iterable[Block]) -> Mapping[tuple[str, str], str]:
    """Return the text under each heading, by its number and anchor."""
    found: dict[tuple[str, str], list[str]] = {}
    here: tuple[str, str] = ("", "")
    for block in blocks:
        if isinstance(block, Heading):
            here = (block.number, block.anchor)
        found.setdefault(here, []).append(text_of(block).casefold())
    found.pop(("", ""), None)
    return {place: "\n".join(texts) for place, texts in found.items()}


def _entries(index: Index, sections: Mapping[tuple[str, str], str]) -> Iterator[Entry]:
    for term, others in sorted(index.terms, key=lambda each: each[0].casefold()):
        words = "|".join(re.escape(word.casefold()) for word in (term, *others) if word)
        pattern = re.compile(rf"(?<![\w-])(?:{words})s?(?![\w-])")
        places = tuple(place for place, text in sections.items() if pattern.search(text))
        if places:
            yield Entry(term, places)
