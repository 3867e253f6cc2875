"""Markdown: blocks of CommonMark and tables; code is left out, and HTML is read as a page."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from markdown_it import MarkdownIt
from markdown_it.helpers import parseLinkDestination, parseLinkTitle
from markdown_it.token import Token

from baywright.exchange.drafts.line_places import LinePlaces
from baywright.exchange.drafts.page import page_blocks
from baywright.exchange.drafts.tables import Heads
from baywright.language.blocks import Block, Piece, Role, text_of

# Texts that stand in a row are left apart, so that each is found as it is written.
_PARSER = MarkdownIt("commonmark").enable(["table", "strikethrough"]).disable("text_join")
_FRONT = re.compile(r"---[ \t]*\n(?:.*\n)*?(?:---|\.\.\.)[ \t]*(?:\n|\Z)")


def marked_blocks(text: str) -> Iterator[Block]:
    """Yield the blocks of a text in Markdown; what stands before it between two rules is none."""
    front = _FRONT.match(text)
    body = re.sub(r"[^\n]", " ", front.group()) + text[front.end() :] if front else text
    return _Walk(body).blocks()


class _Walk:
    """Goes through the tokens of a text once."""

    def __init__(self, text: str) -> None:
        self._text = text
        self._places = LinePlaces(text)
        self._heading = ""
        self._heads: list[Heads] = []
        self._open: list[Token] = []
        self._row_cursor = 0

    def blocks(self) -> Iterator[Block]:
        """Yield the blocks."""
        for token in _PARSER.parse(self._text):
            if token.nesting == 1:
                self._enter(token)
            elif token.nesting == -1:
                self._leave(token)
            elif token.type == "inline":
                yield from self._inline(token)
            elif token.type == "html_block" and token.map:
                yield from page_blocks(token.content, token.map[0] + 1, self._heading)

    def _enter(self, token: Token) -> None:
        self._open.append(token)
        if token.type == "table_open":
            self._heads.append(Heads())
        elif token.type == "tr_open" and token.map:
            self._heads[-1].next_row()
            self._row_cursor = self._places.start(token.map[0] + 1)
        elif token.type in ("td_open", "th_open"):
            self._heads[-1].next_cell()

    def _leave(self, token: Token) -> None:
        self._open.pop()
        if token.type == "table_close":
            self._heads.pop()

    def _inline(self, token: Token) -> Iterator[Block]:
        role, level = self._role()
        begin, end = self._extent(token, role)
        finder = _Finder(self._text, self._places, begin, end)
        pieces = tuple(finder.pieces(token.children or ()))
        if role == "cell":
            self._row_cursor = finder.cursor
        said = text_of(pieces)
        if not said:
            return
        heads = self._heads[-1].take(said) if role == "cell" else ""
        above = "" if role == "heading" else self._heading
        yield Block(pieces, " | ".join(part for part in (above, heads) if part), role, level)
        if role == "heading":
            self._heading = said

    def _role(self) -> tuple[Role, int]:
        inner = self._open[-1] if self._open else None
        if inner is not None and inner.type == "heading_open":
            return "heading", int(inner.tag[1:])
        if inner is not None and inner.type in ("td_open", "th_open"):
            return "cell", 1
        lists = sum(token.type == "list_item_open" for token in self._open)
        return ("item", lists) if lists else ("paragraph", 1)

    def _extent(self, token: Token, role: Role) -> tuple[int, int]:
        """Return where in the text the lines of a token begin and end."""
        lines = token.map
        if role == "cell":
            lines = next((each.map for each in reversed(self._open) if each.map), lines)
        first, last = lines or (0, len(self._text))
        begin = self._row_cursor if role == "cell" else self._places.start(first + 1)
        return begin, self._places.start(last + 1)


class _Finder:
    """Finds the texts of one run of Markdown where they are written, in order.

    Args:
        text: the whole draft.
        places: its lines.
        begin: where the run begins.
        end: where it ends.
    """

    def __init__(self, text: str, places: LinePlaces, begin: int, end: int) -> None:
        self._text = text
        self._places = places
        self.cursor = begin
        self._end = end

    def pieces(self, tokens: Sequence[Token]) -> Iterator[Piece]:
        """Yield the texts of some tokens with their places."""
        for token in tokens:
            yield from self._pieces(token)

    def _pieces(self, token: Token) -> Iterator[Piece]:
        if token.type == "text":
            yield from self._written(token.content, token.content)
        elif token.type == "text_special":
            yield from self._written(token.content, token.markup)
        elif token.type == "code_inline":
            self._pass(token.markup)
            yield from self._code(token.content)
            self._pass(token.markup)
        elif token.type in ("softbreak", "hardbreak"):
            yield self._at(" ", self.cursor)
            self._pass("\n")
        elif token.type == "link_close" and token.markup != "autolink":
            self._pass_target()
        elif token.type == "image":
            # Its words stand for a picture; the sentence goes on behind it.
            list(self.pieces(token.children or ()))
            self._pass_target()
        elif token.type == "html_inline":
            self._pass(token.content)
        elif token.nesting and token.markup not in ("", "autolink"):
            self._pass(token.markup)

    def _written(self, content: str, written: str) -> Iterator[Piece]:
        """Yield a text that is written in some way."""
        at = self._find(written)
        if not content:
            return
        found = self._in_cell(content) if at < 0 else None
        begin = found.start() if found else max(at, self.cursor)
        yield self._at(content, begin)
        if found:
            self.cursor = found.end()
        elif at >= 0:
            self.cursor = at + len(written)

    def _code(self, content: str) -> Iterator[Piece]:
        """Yield the lines of code within a text; its line ends have become spaces."""
        at = self._find(content)
        words = [content] if at >= 0 else content.split()
        for number, word in enumerate(words):
            if number:
                yield self._at(" ", self.cursor)
            yield from self._written(word, word)

    def _find(self, written: str) -> int:
        return self._text.find(written, self.cursor, self._end) if written else -1

    def _in_cell(self, content: str) -> re.Match[str] | None:
        """Find a text whose bars have been freed of the strokes that a table asks for."""
        if "|" not in content:
            return None
        written = r"\\?\|".join(map(re.escape, content.split("|")))
        return re.compile(written).search(self._text, self.cursor, self._end)

    def _pass(self, written: str) -> None:
        at = self._find(written)
        if at >= 0:
            self.cursor = at + len(written)

    def _pass_target(self) -> None:
        """Go past ``](target "title")``, ``][name]`` or ``]``."""
        self._pass("]")
        after = self._text[self.cursor : self.cursor + 1]
        if after == "(":
            self.cursor = self._behind_target(self.cursor + 1)
        elif after == "[":
            self._pass("]")

    def _behind_target(self, at: int) -> int:
        at = self._behind_space(at)
        target = parseLinkDestination(self._text, at, self._end)
        at = self._behind_space(target.pos if target.ok else at)
        title = parseLinkTitle(self._text, at, self._end)
        at = self._behind_space(title.pos if title.ok else at)
        return at + 1 if self._text[at : at + 1] == ")" else at

    def _behind_space(self, at: int) -> int:
        while at < self._end and self._text[at] in " \t\n":
            at += 1
        return at

    def _at(self, text: str, at: int) -> Piece:
        line, column = self._places.place(at)
        return Piece(text, line, column)
