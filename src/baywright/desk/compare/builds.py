"""Two builds, of one book or of two: places, parts, numbers, and what holds of either."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from baywright.answers.questions import possible
from baywright.answers.verdicts import Figure, Verdict, Witness, Yes
from baywright.answers.wording import Names
from baywright.answers.wording.builds import said
from baywright.desk.compare.rows import Compared, Comparison, Side, differences, flat, word_of
from baywright.desk.judging import wishes_of_build
from baywright.desk.opening import Opened
from baywright.facts.build import Build
from baywright.facts.references import check_build
from baywright.laws.blanks import blanks
from baywright.laws.linear import Linear
from baywright.laws.power import LINE
from baywright.laws.subsystem import Lookup, Lowest, Span
from baywright.laws.wishes import Wish, read_wishes, with_wishes
from baywright.problems import Mark, Problems

PASSING = frozenset(
    ("price", "mass", "power", "typical", "idle", "failure_rate", "ships", "announced", "blank")
)
"""Fields that the numbers of the builds say, or that change with the day."""

YES, NO, ONLY_IF = "yes", "no", "only if"
TRUTHS = "What holds"


@dataclass(frozen=True)
class Made:
    """A build that is compared.

    Args:
        opened: its book.
        name: what it is called.
        verdict: whether it can be built.
        wishes: what it asks for.
        shown: the build, or ``None`` where it cannot be built.
    """

    opened: Opened
    name: str
    verdict: Verdict
    wishes: tuple[Wish, ...]
    shown: Witness | None

    @property
    def names(self) -> Names:
        """What its book calls things."""
        return Names(self.opened.book)


def made(opened: Opened, build: Build) -> Made:
    """Return a build of an open book, judged.

    Raises:
        Problems: when it does not fit its book, or cannot be built and so compared.
    """
    problems = check_build(build, opened.book)
    if problems:
        raise Problems(problems)
    wishes = tuple(wishes_of_build(opened.machine, build))
    verdict = possible(opened.inquiry(), wishes, nearby=0)
    shown = verdict.witness if isinstance(verdict, Yes) else None
    return Made(opened, build.name.known, verdict, wishes, shown)


def compare_made(first: Made, second: Made) -> Comparison:
    """Compare two builds that can be built.

    Raises:
        ValueError: when one cannot be built.
        StoppedError: at a limit.
    """
    one, other = first.shown, second.shown
    if one is None or other is None:
        raise ValueError("a build that cannot be built has no numbers to compare")
    rows = [
        *_places(first, second, one, other),
        *_parts(first, second, one, other),
        *_figures(first, second, one, other),
        *_truths(first, second),
    ]
    return Comparison(_side(first), _side(second), tuple(rows))


def _side(made: Made) -> Side:
    about = made.opened.book.book
    return Side(made.name, f"{about.name} (book {about.id}), as of {made.opened.as_of}")


def _places(first: Made, second: Made, one: Witness, other: Witness) -> Iterator[Compared]:
    """Yield what is in each place; what neither build has is left out."""
    if first.opened.book.book.id != second.opened.book.book.id:
        return  # places of two machines are not the same places
    mine, theirs = ({line.choice: line.label for line in each.lines} for each in (one, other))
    choices = (name for name, f in first.opened.machine.frame.fittings.items() if not f.derived)
    for choice in choices:
        a, b = mine.get(choice), theirs.get(choice)
        if a is None and b is None:
            continue
        what = first.names.choice(choice)
        said_a, said_b = _label(first, choice, a), _label(second, choice, b)
        yield Compared("Places and settings", what, said_a, said_b, word_of(a, b))


def _label(made: Made, choice: str, label: str | None) -> str:
    return made.names.label(choice, label) if label is not None else ""


def _parts(first: Made, second: Made, one: Witness, other: Witness) -> Iterator[Compared]:
    mine, theirs = _counts(first, one), _counts(second, other)
    for part in dict.fromkeys((*mine, *theirs)):
        a, b = mine.get(part), theirs.get(part)
        name = (first if a else second).names.part(part)
        word = word_of(_number(a), _number(b))
        changed = "; ".join(_changed(first, second, part)) if a and b else ""
        said = f"{b}, {changed}" if changed else str(b or "")
        yield Compared("Parts", name, str(a or ""), said, "other" if changed else word)


def _changed(first: Made, second: Made, part: str) -> Iterator[str]:
    """Yield in which fields a part of the same id differs between two books."""
    mine, theirs = (dict(flat(each.opened.book.parts[part])) for each in (first, second))
    kept = [field for field in (mine | theirs) if field.partition(".")[0] not in PASSING]
    yield from differences(
        {field: mine[field] for field in kept if field in mine},
        {field: theirs[field] for field in kept if field in theirs},
    )


def _counts(made: Made, shown: Witness) -> dict[str, int]:
    return {**shown.parts, **blanks(made.opened.machine, shown.values)}


def _number(value: int | None) -> Fraction | None:
    return None if value is None else Fraction(value)


def _figures(first: Made, second: Made, one: Witness, other: Witness) -> Iterator[Compared]:
    mine, theirs = ({figure.name: figure for figure in each.figures} for each in (one, other))
    for name in dict.fromkeys((*mine, *theirs)):
        a, b = mine.get(name), theirs.get(name)
        word = word_of(a.value if a else None, b.value if b else None)
        # Two numbers that read alike are the same to a reader.
        word = "same" if _said(a) == _said(b) else word
        yield Compared("Numbers", _words(a or b), _said(a), _said(b), word)


def _words(figure: Figure | None) -> str:
    return figure.words.removeprefix("the ") if figure else ""


def _said(figure: Figure | None) -> str:
    return said(figure) if figure else ""


def _truths(first: Made, second: Made) -> Iterator[Compared]:
    """Yield what is true of a build, always or only if what it leaves open is so."""
    mine, theirs = _truth_names(first), _truth_names(second)
    for name in dict.fromkeys((*mine, *theirs)):
        a = _truth(first, name) if name in mine else ("", ())
        b = _truth(second, name) if name in theirs else ("", ())
        word = word_of(_level(a[0]), _level(b[0]))
        words = mine.get(name) or theirs[name]
        yield Compared(TRUTHS, words, _with(a), _with(b), word, b[1])


def _truth_names(made: Made) -> Mapping[str, str]:
    return {
        name: named.words or name
        for name, named in made.opened.machine.names.items()
        if not isinstance(named.meaning, Linear | Lookup | Lowest | Span)
    }


def _truth(made: Made, name: str) -> tuple[str, tuple[str, ...]]:
    """Return whether something holds of every build that fits, of none, or only of some."""
    machine, inquiry = made.opened.machine, made.opened.inquiry()
    mark = Mark("comparison", 1, 1)
    base = len(made.wishes) + 1
    holds = [*made.wishes, *read_wishes(machine, name, mark, base)]
    fails = [*made.wishes, *read_wishes(machine, f"not {name}", mark, base)]
    there = with_wishes(machine.space, holds)
    if inquiry.possible(there) is None:
        return NO, ()
    if inquiry.possible(with_wishes(machine.space, fails)) is None:
        return YES, ()
    left = inquiry.options(there)
    usual = inquiry.options(with_wishes(machine.space, made.wishes))
    lines = [machine.frame.options(LINE)[value].label for value in sorted(left[LINE])]
    same = left[LINE] == usual[LINE]
    return ONLY_IF, () if same else (f"the input power is {' or '.join(lines)}",)


def _level(said: str) -> Fraction | None:
    """Return how much of a truth there is, so that "only if" is less than yes."""
    levels = {YES: Fraction(2), ONLY_IF: Fraction(1), NO: Fraction(0)}
    return levels.get(said)


def _with(said: tuple[str, tuple[str, ...]]) -> str:
    word, conditions = said
    if word != ONLY_IF:
        return word
    return f"only if {' and '.join(conditions) or 'what is left open is so'}"
