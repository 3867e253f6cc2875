"""The frame of a clause: its pieces without adjuncts, and what the adjuncts say."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from baywright.language.pieces import Piece
from baywright.language.things import Condition

ADJUNCTS = "CSLd"
_JOINS = "&|,;"


@dataclass(frozen=True, slots=True)
class Frame:
    """A clause.

    Args:
        pieces: its pieces without adjuncts.
        conditions: its conditions.
        sides: sides of the machine that are named apart from a noun, or ``None``.
        at: places that are named apart from a noun.
        dates: dates.
        each: whether each is said of several places, so that they are meant one by one.
        muddled: whether its conditions are alternatives, or cannot hold together.
    """

    pieces: tuple[Piece, ...]
    conditions: tuple[Condition, ...] = ()
    sides: tuple[str, ...] | None = None
    at: tuple[str, ...] = ()
    dates: tuple[Piece, ...] = ()
    each: bool = False
    muddled: bool = False

    @property
    def letters(self) -> str:
        """The letters of its pieces."""
        return "".join(piece.letter for piece in self.pieces)

    @property
    def given(self) -> tuple[str, ...]:
        """Expressions of the conditions."""
        return tuple(c.expression for c in self.conditions if c.expression)

    @property
    def condition(self) -> Condition:
        """All conditions as one, for per, state and line."""
        whole = Condition()
        for each in self.conditions:
            expression = each.expression or whole.expression
            whole = replace(
                whole,
                expression=expression,
                altitude=each.altitude or whole.altitude,
                inlet=each.inlet or whole.inlet,
                only=each.only or whole.only,
                per=each.per or whole.per,
                state=each.state or whole.state,
            )
        return whole


def clauses(pieces: Sequence[Piece]) -> Iterator[tuple[Piece, ...]]:
    """Yield the clauses of a sentence; one that starts with its verb takes the subject before.

    An alternative to the clause before keeps its or, as its first piece.
    """
    found, either = _split(pieces)
    subject: tuple[Piece, ...] = ()
    leading: tuple[Piece, ...] = ()
    verb: tuple[Piece, ...] = ()
    for held in found:
        elided = bool(verb) and subject[:1] and subject[0].letter in "MOWc"
        clause = (*verb, *held) if elided and not _has_verb(held) else held
        inherits = bool(subject) and _is_verb(clause)
        whole = (*subject, *clause) if inherits else clause
        if inherits and not any(piece.letter == "C" for piece in clause):
            whole = (*leading, *whole)
        subject = _subject(whole) or subject
        verb = tuple(piece for piece in whole if piece.letter in "HK")[:1]
        leading = leading if inherits else _leading(clause)
        yield (either[held], *whole) if held in either else whole


def _split(
    pieces: Sequence[Piece],
) -> tuple[list[tuple[Piece, ...]], dict[tuple[Piece, ...], Piece]]:
    """Return the clauses of a sentence, and those that an or joins to what is before."""
    found: list[tuple[Piece, ...]] = []
    joins: dict[int, str] = {}
    start = 0
    for at, piece in enumerate(pieces):
        if piece.letter in _JOINS and at >= start and _starts_clause(pieces, at, start):
            found.append(tuple(pieces[start:at]))
            start = at
            while start < len(pieces) and pieces[start].letter in _JOINS:
                joins[len(found)] = joins.get(len(found), "") + pieces[start].letter
                start += 1
    found.append(tuple(pieces[start:]))
    whole = [list(_with_elided(clause)) for clause in found]
    alternatives = {whole[at][0]: _OR for at in joins if _is_alternative(joins, at)}
    return [each for clause in whole for each in clause], alternatives


_OR = Piece("|", "or", "or")


def _is_alternative(joins: Mapping[int, str], at: int) -> bool:
    """Say whether a clause is an alternative: after or, or a comma of a list that ends with it."""
    later = [joins[each] for each in sorted(joins) if each >= at]
    return "|" in joins[at] or (joins[at] == "," and any("|" in each for each in later))


def _leading(clause: Sequence[Piece]) -> tuple[Piece, ...]:
    """Return the conditions before the verb of a clause, and its modal: they hold further on."""
    at = next((i for i, piece in enumerate(clause) if piece.letter in "HKBRDZXwsk"), 0)
    return tuple(piece for piece in clause[:at] if piece.letter == "C")


def _with_elided(clause: tuple[Piece, ...]) -> Iterator[tuple[Piece, ...]]:
    """Yield a clause, and one more where a number at its end counts the same thing elsewhere.

    So it is with ``three USB ports at the rear and one inside``.
    """
    for at in range(len(clause) - 1, 0, -1):
        if clause[at].letter in "&,;":
            tail = clause[at + 1 :]
            letters = "".join(piece.letter for piece in tail)
            counted = [piece for piece in clause[:at] if piece.letter == "T"]
            if letters.strip("CSL") == "N" and len(letters) > 1 and len(counted) == 1:
                yield from _with_elided(clause[:at])
                yield _repeated(clause[:at], counted[0], tail)
                return
    yield clause


def _repeated(
    clause: tuple[Piece, ...], counted: Piece, tail: tuple[Piece, ...]
) -> tuple[Piece, ...]:
    """Return a clause with another number of the same thing, under other adjuncts."""
    number = next(piece for piece in tail if piece.letter == "N")
    measure = counted.value[0]
    thing = replace(measure.thing, sides=(), at=())
    other = replace(measure, thing=thing, values=number.value[0].values, op=number.value[0].op)
    kept = [piece for piece in clause if piece.letter not in "CSLd"]
    found = [replace(p, value=(other,)) if p is counted else p for p in kept]
    return (*found, *(piece for piece in tail if piece is not number))


def _starts_clause(pieces: Sequence[Piece], at: int, start: int) -> bool:
    """Say whether a new clause starts after a joining word."""
    after = at + 1
    while after < len(pieces) and pieces[after].letter in _JOINS:
        after += 1
    if after >= len(pieces) or not _has_verb(pieces[start:at]):
        return False
    if pieces[at].letter == ";":
        return True
    rest = pieces[after:]
    following = "".join(piece.letter for piece in rest)
    verb = following[:1] in set("HKBRDmnuwsz") or following[:2] in ("ZC", "ZW")
    return verb or _own_clause(following)


def _own_clause(letters: str) -> bool:
    """Say whether pieces are a clause with a subject and a verb of their own."""
    head = letters.lstrip("CSLd")
    return (head[:1] in set("MTPcW") and head[1:2] in set("HKBRDmuw")) or (
        head[:1] == "H" and letters[:1] in set("CSLd")
    )


def _has_verb(pieces: Sequence[Piece]) -> bool:
    return any(piece.letter in "HKBRDZXwskz" for piece in pieces)


def _is_verb(clause: Sequence[Piece]) -> bool:
    return bool(clause) and clause[0].letter in set("HKBRDmnuwszZ")


def _subject(clause: Sequence[Piece]) -> tuple[Piece, ...]:
    kept: list[Piece] = []
    for piece in clause:
        if piece.letter == "m":
            kept.append(piece)
            break
        if piece.letter in "HKBRDnuZXwsz":
            break
        if piece.letter not in "CSLd,&":
            kept.append(piece)
    return tuple(kept)


def frame(clause: Sequence[Piece]) -> Frame:
    """Return a clause with its adjuncts taken out and its joining words put in order."""
    kept: list[Piece] = []
    conditions: list[Condition] = []
    sides: tuple[str, ...] | None = None
    at: tuple[str, ...] = ()
    dates: list[Piece] = []
    for piece in _without_each(clause):
        if piece.letter == "C":
            conditions.append(piece.value)
        elif piece.letter == "S":
            sides = piece.value
        elif piece.letter == "L":
            at = (*at, *piece.value) if at else piece.value
        elif piece.letter == "d":
            dates.append(piece)
        else:
            kept.append(piece)
    each = bool(kept) and kept[-1].letter == "q" and kept[-1].value == "every"
    if each:
        kept.pop()
    each = each or any(_says_each(clause, i) for i in range(len(clause)))
    muddled = _alternatives(clause) or _contradicts(conditions)
    return Frame(tuple(_tidied(kept)), tuple(conditions), sides, at, tuple(dates), each, muddled)


def _says_each(clause: Sequence[Piece], at: int) -> bool:
    """Say whether each is said of places named before: zones A and B can each hold."""
    piece = clause[at]
    if piece.letter != "q" or piece.value != "every" or not at:
        return False
    before = "".join(each.letter for each in clause[:at])
    return before.endswith(("P", "Pm"))


def _without_each(clause: Sequence[Piece]) -> Iterator[Piece]:
    yield from (piece for at, piece in enumerate(clause) if not _says_each(clause, at))


def _alternatives(clause: Sequence[Piece]) -> bool:
    """Say whether conditions are joined by or."""
    letters = "".join(piece.letter for piece in clause)
    return re.search(r"C[,]*\|[,]*C", letters) is not None


def _contradicts(conditions: Sequence[Condition]) -> bool:
    """Say whether conditions name two values of one setting or number."""
    said = dict.fromkeys(each.expression for each in conditions if " == " in each.expression)
    names = [text.partition(" == ")[0] for text in said if text.count(" == ") == 1]
    settings = [name for name in names if name.isidentifier()]
    return len(set(settings)) < len(settings)


_LISTED = set("TANPcGFW")


def _tidied(pieces: Sequence[Piece]) -> Iterator[Piece]:
    """Yield pieces with one joining word between things of a list, and none elsewhere."""
    held: Piece | None = None
    last: Piece | None = None
    for piece in pieces:
        if piece.letter in _JOINS:
            stronger = held is None or piece.letter == "|" or held.letter in ",;"
            held = piece if stronger else held
            continue
        if held is not None and last is not None and {last.letter, piece.letter} <= _LISTED:
            yield Piece("|" if held.letter == "|" else "&", held.value, held.text)
        held = None
        yield piece
        last = piece
