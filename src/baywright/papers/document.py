"""The document: what a paper says, apart from how a page, a sheet or a file shows it.

Writers of several forms read the same document: ``as_html``, ``as_typst`` (PDF) and ``as_docx``.
Text that came out of a query knows the number of its statement.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

Style = Literal["plain", "strong", "emphasis", "code"]
Form = Literal["book", "sheet", "page", "parts", "slides"]
"""How long a paper is: a book has contents and numbered chapters on new pages, with what they stand
on beside them; a sheet runs on without; a page is a sheet that has to fit one page; the chapters of
one in parts and of slides begin a new page."""


@dataclass(frozen=True, slots=True)
class Run:
    """A stretch of text in one style.

    Args:
        text: the text.
        style: how it is set.
        statement: number of the statement it was made from, counted from 1, or 0 for none.
        dagger: whether the sign for *not together* follows.
    """

    text: str
    style: Style = "plain"
    statement: int = 0
    dagger: bool = False


Line: TypeAlias = tuple[Run, ...]
"""Text without a break: a paragraph, an item, a cell."""


@dataclass(frozen=True, slots=True)
class Key:
    """An entry of the outer column: what the block beside it stands on.

    Args:
        key: path of a fact, or what was computed.
        said: its date and status, or who computed it.
        statement: number of the statement it belongs to, or 0.
    """

    key: str
    said: str = ""
    statement: int = 0


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading.

    Args:
        level: 1 for a chapter.
        text: the words.
        number: its number, such as ``4.2``; numbering fills it in.
        anchor: its id, unique in the document.
    """

    level: int
    text: str
    number: str = ""
    anchor: str = ""


@dataclass(frozen=True, slots=True)
class Paragraph:
    """A paragraph.

    Args:
        runs: its text.
        beside: what it stands on.
    """

    runs: Line
    beside: tuple[Key, ...] = ()


@dataclass(frozen=True, slots=True)
class Bullets:
    """A list.

    Args:
        items: its items.
        ordered: whether their order counts; then they are numbered.
        beside: what it stands on.
    """

    items: tuple[Line, ...]
    ordered: bool = False
    beside: tuple[Key, ...] = ()


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a table.

    Args:
        title: its head.
        right: whether it is set to the right, as numbers are.
        share: share of the width against the other columns; 0 for what its cells need.
    """

    title: str
    right: bool = False
    share: int = 0


@dataclass(frozen=True, slots=True)
class Table:
    """A table.

    Args:
        title: what it shows.
        columns: its columns.
        rows: a cell for each column.
        notes: lines below it, such as what the sign for *not together* means.
        beside: what it stands on.
        small: whether it is set small, as long lists are.
        label: such as ``Table 4-3``; numbering fills it in.
    """

    title: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[Line, ...], ...]
    notes: tuple[Line, ...] = ()
    beside: tuple[Key, ...] = ()
    small: bool = False
    label: str = ""


@dataclass(frozen=True, slots=True)
class Figure:
    """A drawing or a chart.

    Args:
        title: what it shows.
        svg: the drawing.
        words: the same in words, for those who do not see it.
        statement: number of the statement it shows, or 0.
        label: such as ``Figure 4-1``; numbering fills it in.
    """

    title: str
    svg: str
    words: str
    statement: int = 0
    label: str = ""


@dataclass(frozen=True, slots=True)
class Warned:
    """A caution, set between rules with its word and a shape.

    Args:
        word: the signal word.
        hazard: what is dangerous.
        consequence: what it can do.
        avoidance: what to do.
    """

    word: str
    hazard: str
    consequence: str
    avoidance: str


@dataclass(frozen=True, slots=True)
class Entry:
    """An entry of the index.

    Args:
        term: what is looked up.
        places: number and anchor of each heading under which it stands.
    """

    term: str
    places: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Index:
    """The index, by its entries; numbering fills them in.

    Args:
        terms: what is looked for in the text, with other words for it.
        entries: the entries.
    """

    terms: tuple[tuple[str, tuple[str, ...]], ...]
    entries: tuple[Entry, ...] = ()


Block: TypeAlias = Heading | Paragraph | Bullets | Table | Figure | Warned | Index


@dataclass(frozen=True, slots=True)
class Document:
    """A paper.

    Args:
        title: its title, usually the name of the machine.
        kind: what it is, such as ``platform guide``.
        maker: who makes the machine.
        lines: what stands below the title: the day, the edition, the status.
        foot: what stands at the foot of each page.
        blocks: the text.
        language: language of the text.
        form: how long it is.
    """

    title: str
    kind: str
    maker: str
    lines: tuple[str, ...]
    foot: str
    blocks: tuple[Block, ...]
    language: str = "en-GB"
    form: Form = "book"

    @property
    def headings(self) -> tuple[Heading, ...]:
        """Its headings, in their order."""
        return tuple(block for block in self.blocks if isinstance(block, Heading))


DAGGER = "†"
"""The only footnote sign: what bears it cannot be had together."""


def plain(line: Line) -> str:
    """Return a line as bare text.

    >>> plain((Run("at most "), Run("24", "strong", 3, dagger=True)))
    'at most 24 †'
    """
    return "".join(f"{run.text} {DAGGER}" if run.dagger else run.text for run in line)


def text_of(block: Block) -> str:
    """Return what a block says as bare text, a line for each part of it."""
    match block:
        case Heading():
            return block.text
        case Paragraph():
            return plain(block.runs)
        case Bullets():
            return "\n".join(map(plain, block.items))
        case Table():
            cells = [plain(cell) for row in block.rows for cell in row]
            heads = [column.title for column in block.columns]
            return "\n".join([block.title, *heads, *cells, *map(plain, block.notes)])
        case Figure():
            return f"{block.title}\n{block.words}"
        case Warned():
            return f"{block.word} {block.hazard} {block.consequence} {block.avoidance}"
        case Index():
            return ""


def statements_in(block: Block) -> tuple[int, ...]:
    """Return the numbers of the statements a block was made from, each once."""
    match block:
        case Paragraph():
            lines: tuple[Line, ...] = (block.runs,)
        case Bullets():
            lines = block.items
        case Table():
            lines = (*(cell for row in block.rows for cell in row), *block.notes)
        case Figure():
            return (block.statement,) if block.statement else ()
        case _:
            return ()
    return tuple(dict.fromkeys(run.statement for line in lines for run in line if run.statement))
