"""Cutting a text into tokens, before Python's parser sees any of it.

Everything a person may not write is refused here with its place. Each literal becomes a token of
its own, so that numbers stay exact and ``1300 W`` needs no quotes.
"""

from __future__ import annotations

import keyword
import re
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cache
from itertools import pairwise
from typing import Literal

from baywright.problems import Mark, Problem, Problems
from baywright.terms.refusals import REFUSED_CHARACTERS, REFUSED_OPERATORS, REFUSED_WORDS
from baywright.terms.syntax import Amount, Number, Span, Text, Truth
from baywright.units import Quantity, UnitError, dimension_of
from baywright.units.lookup import find, spellings
from baywright.units.reading import read_number

MOST_CHARACTERS = 4_000
MOST_LEVELS = 50
"""Parentheses inside parentheses; also the depth of the tree."""

MOST_CHAINED = 200
"""Signs and ``not`` in one text; each may deepen the tree by a level."""

LiteralNode = Number | Amount | Text | Truth
Shape = Literal["literal", "name", "word", "operator"]

_TOKEN = re.compile(
    r"""(?P<space>[ \t\n\u00a0\u202f]+)
    | (?P<string>"[^"\n]*"|'[^'\n]*')
    | (?P<number>[0-9]+(?:\.[0-9]+)?)
    | (?P<name>[A-Za-z_][A-Za-z0-9_]*)
    | (?P<operator>==|!=|<=|>=|\*\*|//|:=|[<>+\-*(),=≤≥≠−])""",
    re.VERBOSE,
)
_GROUPED = re.compile(r"[0-9]{1,3}(?:,[0-9]{3})+(?:\.[0-9]+)?")
_UNIT_LIKE = re.compile(r"[ \u00a0\u202f]*([^\W\d_]\w*(?:/[a-z]\w*)?)")
_CURRENCY = re.compile(r"[A-Z]{3}(?!\w)")
_OPERATOR_WORDS = frozenset({"and", "or", "not", "in"})
_TRUTHS = {"true": True, "True": True, "false": False, "False": False}
_SAME_AS = {"≤": "<=", "≥": ">=", "≠": "!=", "−": "-"}


@dataclass(frozen=True, slots=True)
class Token:
    """A piece of the text.

    Args:
        shape: ``word`` is an operator made of letters.
        written: the piece as Python's parser will see it, unless it is a literal.
        start: first character in the text, counted from 0.
        end: character after the last.
        literal: the value of a literal.
    """

    shape: Shape
    written: str
    start: int
    end: int
    literal: LiteralNode | None = None

    @property
    def opens_operand(self) -> bool:
        """Whether a value starts here, leaving parentheses aside."""
        return self.shape in ("literal", "name")

    @property
    def closes_operand(self) -> bool:
        """Whether a value ends here."""
        return self.shape in ("literal", "name") or self.written == ")"


@dataclass(frozen=True, slots=True)
class Source:
    """A text with its place in a file."""

    text: str
    mark: Mark | None = None

    def span(self, start: int, end: int) -> Span:
        """Return the span of some characters, with the line and column of the first."""
        before = self.text[:start]
        return Span(start, end, before.count("\n"), start - (before.rfind("\n") + 1))

    def problem(self, message: str, start: int, hint: str = "", kind: str = "syntax") -> Problem:
        """Return a problem at a character of the text."""
        return Problem(kind, message, self.span(start, start).mark(self.mark), hint)


def scan(source: Source) -> tuple[Token, ...]:
    """Return the tokens of a text.

    Raises:
        Problems: every character, word and number that cannot be used.
    """
    if len(source.text) > MOST_CHARACTERS:
        raise Problems([_too_long(source)])
    scanner = _Scanner(source)
    tokens = tuple(scanner.tokens())
    problems = scanner.problems or list(_misplaced(source, tokens))
    if problems:
        raise Problems(problems)
    return tokens


@dataclass(slots=True)
class _Scanner:
    source: Source
    problems: list[Problem] = field(default_factory=list)
    _before: str = ""

    def tokens(self) -> Iterator[Token]:
        position = 0
        while position < len(self.source.text):
            position, token = self._next(position)
            if token is not None:
                self._before = token.written
                yield token

    def _next(self, position: int) -> tuple[int, Token | None]:
        found = _TOKEN.match(self.source.text, position)
        if found is None:
            self._refuse_character(position)
            return position + 1, None
        written, end = found[0], found.end()
        match found.lastgroup:
            case "space":
                return end, None
            case "string":
                return end, self._string(written, position, end)
            case "number":
                return self._number(position, end)
            case "name":
                return end, self._word(written, position, end)
            case _:
                return end, self._operator(written, position, end)

    def _string(self, written: str, start: int, end: int) -> Token | None:
        text = written[1:-1]
        bad = next((i for i, sign in enumerate(text) if not _allowed_in_text(sign)), None)
        if bad is not None:
            hint = "A text in quotes is taken as it is: remove the character."
            self._refuse_character(start + 1 + bad, hint)
            return None
        return self._literal(Text(text, self.source.span(start, end)))

    def _number(self, start: int, end: int) -> tuple[int, Token | None]:
        text = self.source.text
        grouped = _GROUPED.match(text, start)
        if grouped:
            end = grouped.end()
            if self._before in ("(", ",") or not _unit_after(text, end):
                self._refuse(
                    f"{grouped[0]!r} could be one number or several values.",
                    start,
                    "Leave the comma out of a number, and put a space after one between values.",
                )
        unit_end = _unit_after(text, end)
        unlike = None if unit_end else _UNIT_LIKE.match(text, end)
        if unlike and unlike[1] not in _OPERATOR_WORDS:
            self._refuse_unit(unlike)
            return unlike.end(), None
        try:
            return unit_end or end, self._literal(self._valued(start, end, unit_end))
        except UnitError as error:
            self._refuse(error.message, start, error.hint, error.kind)
            return unit_end or end, None

    def _valued(self, start: int, end: int, unit_end: int) -> LiteralNode:
        value = read_number(self.source.text[start:end])
        if not unit_end:
            return Number(value, self.source.span(start, end))
        unit = self.source.text[end:unit_end].strip()
        return Amount(Quantity(value, unit), self.source.span(start, unit_end))

    def _word(self, written: str, start: int, end: int) -> Token | None:
        if self.source.text[end : end + 1] in ('"', "'") and written not in _OPERATOR_WORDS:
            self._refuse(f"A text has no prefix such as {written!r}.", start, "Leave it out.")
            return None
        if written in _TRUTHS:
            return self._literal(Truth(_TRUTHS[written], self.source.span(start, end)))
        if written in _OPERATOR_WORDS:
            return Token("word", written, start, end)
        if keyword.iskeyword(written):
            hint = REFUSED_WORDS.get(written, "Use names, numbers, comparisons and functions.")
            self._refuse(f"{written!r} has no meaning in an expression.", start, hint)
            return None
        return Token("name", written, start, end)

    def _operator(self, written: str, start: int, end: int) -> Token | None:
        if written in REFUSED_OPERATORS:
            self._refuse(f"{written!r} cannot be used.", start, REFUSED_OPERATORS[written])
            return None
        return Token("operator", _SAME_AS.get(written, written), start, end)

    def _literal(self, node: LiteralNode) -> Token:
        return Token("literal", "literal", node.span.start, node.span.end, node)

    def _refuse_character(self, position: int, hint: str = "") -> None:
        sign = self.source.text[position]
        shown = repr(sign)
        if not sign.isascii():
            shown += f" ({unicodedata.name(sign, 'a character without a name')})"
        usual = REFUSED_CHARACTERS.get(sign, "Names use the letters a to z, digits and '_'.")
        self._refuse(f"{shown} cannot be used here.", position, hint or usual)

    def _refuse_unit(self, match: re.Match[str]) -> None:
        try:
            find(match[1])
        except UnitError as error:
            hint = error.hint or "Write an operator between a number and a name."
            self._refuse(error.message, match.start(1), hint, error.kind)

    def _refuse(self, message: str, start: int, hint: str = "", kind: str = "syntax") -> None:
        self.problems.append(self.source.problem(message, start, hint, kind))


@cache
def _known_unit() -> re.Pattern[str]:
    """Match any spelling of a unit, the longest first, not followed by more of a word."""
    longest_first = sorted(spellings(), key=len, reverse=True)
    choices = "|".join(
        re.escape(spelling) + (r"(?!\w)" if spelling[-1].isalnum() else "")
        for spelling in longest_first
    )
    return re.compile(rf"[ \u00a0\u202f]*(?:{choices})")


def _unit_after(text: str, position: int) -> int:
    """Return where a unit that follows a number ends, or 0 when none does.

    ``in`` before a parenthesis is the operator; anywhere else after a number it is the inch.
    """
    match = _known_unit().match(text, position)
    if match:
        operator = match[0].strip() == "in" and text[match.end() :].lstrip()[:1] == "("
        return 0 if operator else match.end()
    start = position + len(text[position:]) - len(text[position:].lstrip(" \u00a0\u202f"))
    code = _CURRENCY.match(text, start)
    return code.end() if code and dimension_of(code[0]) else 0


def _misplaced(source: Source, tokens: tuple[Token, ...]) -> Iterator[Problem]:
    """Yield what tokens say about the whole: nothing there, parentheses, missing operators."""
    if not tokens:
        yield source.problem("The expression is empty.", 0, "Write a condition.")
    elif not tokens[-1].closes_operand:
        yield source.problem("The expression ends too early.", tokens[-1].end, "Complete it.")
    chained = [token for token in tokens if token.written in ("+", "-", "*", "not")]
    if len(chained) > MOST_CHAINED:
        yield source.problem(
            "The expression has too many signs.", chained[MOST_CHAINED].start,
            f"Use at most {MOST_CHAINED} of '+', '-', '*' and 'not'.", "too-deep",
        )  # fmt: skip
    for before, token in pairwise(tokens):
        if before.closes_operand and token.opens_operand:
            shown = source.text[token.start : token.end]
            yield source.problem(
                f"An operator is missing before {shown!r}.", token.start,
                "Write 'and', a comparison or a comma between the two.",
            )  # fmt: skip
    yield from _parentheses(source, tokens)


def _parentheses(source: Source, tokens: tuple[Token, ...]) -> Iterator[Problem]:
    opened: list[int] = []
    for token in tokens:
        if token.written == "(":
            opened.append(token.start)
            if len(opened) > MOST_LEVELS:
                yield too_deep(source, token.start)
                return
        elif token.written == ")" and not opened:
            yield source.problem("')' closes nothing.", token.start, "Leave it out.")
        elif token.written == ")":
            opened.pop()
        elif token.written == "=" and not opened:
            yield source.problem("'=' cannot be used here.", token.start, "Use '==' to compare.")
    for start in opened:
        yield source.problem("'(' is never closed.", start, "Add ')'.")


def too_deep(source: Source, start: int) -> Problem:
    """Return the problem of a text whose parts stand too deep inside each other."""
    hint = f"Split it: at most {MOST_LEVELS} levels can stand inside each other."
    return source.problem("The expression is nested too deeply.", start, hint, "too-deep")


def _too_long(source: Source) -> Problem:
    message = f"The expression has {len(source.text):,} characters."
    hint = f"Split it: at most {MOST_CHARACTERS:,} are read."
    return source.problem(message, MOST_CHARACTERS, hint, "too-long")


def _allowed_in_text(sign: str) -> bool:
    return sign != "\\" and (sign.isprintable() or sign in "\u00a0\u202f")
