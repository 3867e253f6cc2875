"""Space files on the desk: how many builds, what is left, and questions, without a book."""

from __future__ import annotations

import time
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from baywright.answers.counting import BuildCount, Counters, count_builds
from baywright.answers.inquiry import Panel, RecheckError, SpaceInquiry, StoppedError
from baywright.answers.space_questions import always, extreme, possible
from baywright.answers.verdicts import Proof, Stopped, Verdict
from baywright.desk.request import Request
from baywright.desk.space_terms import SpaceTerms
from baywright.engines.contract import Assumptions, Limit, OutOfTime
from baywright.engines.diagram import Diagram
from baywright.files.spaces import SpaceFile, read_space
from baywright.laws.wishes import Wish, with_wishes
from baywright.problems import Mark, problem, suggestion
from baywright.space import Origin, Space, Table
from baywright.terms import Expression, opposite, parse, text
from baywright.terms.syntax import Call

QUESTION = Mark("question", 1, 1)
FORMS = ("can", "always", "most", "least")
"""Question words. A bare condition asks whether some build has it, a bare number for the most."""


@dataclass(frozen=True)
class OpenSpace:
    """A space file that is open on the desk.

    Args:
        file: the file.
        panel: the engines that answer questions.
        diagram: the engine that counts and tells what is left.
    """

    file: SpaceFile
    panel: Panel
    diagram: Diagram

    @property
    def counters(self) -> Counters:
        """The engines that count."""
        return Counters(self.diagram, self.panel.prover, self.panel.limit)


@dataclass(frozen=True, slots=True)
class SpaceCount:
    """A count of a space file.

    Args:
        file: name of the file.
        given: what the builds have to have, in words.
        without: names of budget sums that were left out.
        found: the count.
    """

    file: str
    given: tuple[str, ...]
    without: tuple[str, ...]
    found: BuildCount


@dataclass(frozen=True, slots=True)
class ChoiceOptions:
    """What one choice can still be.

    Args:
        choice: its name.
        free: labels that some legal build has.
        closed: labels that no legal build has.
    """

    choice: str
    free: tuple[str, ...]
    closed: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SpaceOptions:
    """What every choice of a space that is not derived can still be.

    Args:
        file: name of the file.
        given: what is chosen, in words.
        choices: the choices in their order.
        proof: who answered, and who checked; an empty text when that took too long.
    """

    file: str
    given: tuple[str, ...]
    choices: tuple[ChoiceOptions, ...]
    proof: Proof


@dataclass(frozen=True, slots=True)
class SpaceAnswer:
    """A question about a space file with its verdict.

    Args:
        file: name of the file.
        question: as it was asked.
        reading: what was understood.
        verdict: the outcome.
    """

    file: str
    question: str
    reading: str
    verdict: Verdict


def open_space(path: Path, request: Request) -> OpenSpace:
    """Open a space file.

    Args:
        path: the file.
        request: time limit and number of sets of reasons; a space knows neither day nor site.

    Raises:
        Problems: everything that is wrong with the file or the request.
    """
    if request != Request(seconds=request.seconds, reasons=request.reasons):
        message = "A space file knows neither day nor site."
        raise problem("no-site", message, None, "Ask a book, or leave out day and site.")
    return OpenSpace(read_space(path), request.panel(), Diagram())


def count(
    held: OpenSpace, chosen: Iterable[str] = (), given: str = "", *, without_budget: bool = False
) -> SpaceCount:
    """Count the legal builds of a space file, told apart by the choices that are not derived.

    Args:
        held: the open file.
        chosen: choices made, such as ``slot=card``.
        given: a condition that the builds have to meet, or empty.
        without_budget: whether the sums marked as budgets are left out.

    Raises:
        Problems: when a choice or the condition makes no sense, or no sum is marked as budget.
        StoppedError: at a limit.
    """
    budgets = tuple(total.origin.key for total in held.file.budget_sums)
    if without_budget and not budgets:
        message = f"No sum of {held.file.name} is marked as a budget."
        raise problem("no-budget", message, None, "Mark it with 'budget': true in the file.")
    space = held.file.without_budgets() if without_budget else held.file.space
    wishes = [*_chosen(space, chosen), *_given(space, given)]
    found = count_builds(with_wishes(space, wishes), held.counters)
    said = tuple(wish.text for wish in wishes)
    return SpaceCount(held.file.name, said, budgets if without_budget else (), found)


def options(held: OpenSpace, chosen: Iterable[str] = (), given: str = "") -> SpaceOptions:
    """Return what every choice of a space file can still be.

    Args:
        held: the open file.
        chosen: choices made, such as ``slot=card``.
        given: a condition that the builds have to meet, or empty.

    Raises:
        Problems: when a choice or the condition makes no sense.
        StoppedError: at the limit.
        RecheckError: when another engine finds other values.
    """
    start = time.perf_counter()
    made = _chosen(held.file.space, chosen)
    wishes = _given(held.file.space, given)
    space = with_wishes(held.file.space, wishes)
    assumptions = Assumptions(_allowed(space, made))
    limit, engine = held.panel.limit, held.diagram
    try:
        left = engine.options(space, assumptions, limit)
    except OutOfTime as late:
        tried = f"{engine.name} worked for up to {limit.seconds:g} s: {late}"
        raise StoppedError(tried) from late
    checker = _confirmed(held, space, assumptions, left)
    proof = Proof(engine.name, checker, (time.perf_counter() - start) * 1000)
    said = tuple(wish.text for wish in (*made, *wishes))
    return SpaceOptions(held.file.name, said, tuple(_options_of(held.file.space, left)), proof)


def _confirmed(
    held: OpenSpace,
    space: Space,
    assumptions: Assumptions,
    left: Mapping[str, frozenset[int]],
) -> str:
    """Have the prover find the same values; return its name, or nothing when it had no time."""
    engine = held.panel.prover
    try:
        found = engine.options(space, assumptions, Limit(min(5.0, held.panel.limit.seconds)))
    except OutOfTime:
        return ""
    differing = [name for name, values in found.items() if values != left[name]]
    if differing:
        message = f"{engine.name} finds other values of {', '.join(differing[:5])}"
        raise RecheckError(message)
    return engine.name


def _options_of(space: Space, left: Mapping[str, frozenset[int]]) -> Iterable[ChoiceOptions]:
    for choice in space.choices:
        if not choice.derived:
            values = left[choice.name]
            free = tuple(label for i, label in enumerate(choice.values) if i in values)
            closed = tuple(label for i, label in enumerate(choice.values) if i not in values)
            yield ChoiceOptions(choice.name, free, closed)


def ask(held: OpenSpace, question: str) -> SpaceAnswer:
    """Answer a question about a space file.

    Args:
        held: the open file.
        question: a condition, a number, or one of the words of ``FORMS``; ``given=`` adds a
            condition.

    Raises:
        Problems: when the question makes no sense.
        RecheckError: when an engine's result does not pass its re-check.
    """
    terms = SpaceTerms(held.file.space, QUESTION)
    word, asked, given = _taken_apart(terms, parse(question, QUESTION))
    wishes = terms.wishes(given) if given is not None else []
    said = f"{word}({text(asked)})" + (f", given {text(given)}" if given is not None else "")
    verdict = _verdict(held, terms, word, asked, wishes)
    return SpaceAnswer(held.file.name, question, said, verdict)


def _verdict(
    held: OpenSpace, terms: SpaceTerms, word: str, asked: Expression, wishes: list[Wish]
) -> Verdict:
    space, inquiry = held.file.space, SpaceInquiry(held.panel)
    if word == "can":
        return possible(inquiry, space, [*wishes, *terms.wishes(asked, len(wishes) + 1)])
    if word == "always":
        denial = terms.wishes(opposite(asked), len(wishes) + 1)
        claim = terms.wishes(asked, len(wishes) + 1)
        return always(inquiry, space, [*wishes, *claim], [*wishes, *denial])
    linear, most = terms.number(asked), word == "most"
    found = extreme(inquiry, space, text(asked), linear, wishes, most=most)
    if not isinstance(found, Stopped):
        return found
    # The optimiser came to no end; the diagram takes the question over and is named.
    other = SpaceInquiry(replace(held.panel, optimiser=held.diagram))
    return extreme(other, space, text(asked), linear, wishes, most=most)


def _taken_apart(
    terms: SpaceTerms, expression: Expression
) -> tuple[str, Expression, Expression | None]:
    """Return the question word, what is asked, and the condition after ``given=``."""
    if not isinstance(expression, Call) or expression.name not in FORMS:
        return ("can" if terms.is_condition(expression) else "most"), expression, None
    given = {keyword.name: keyword.value for keyword in expression.keywords}
    if len(expression.args) != 1 or given.keys() - {"given"}:
        hint = f"Write {expression.name}(...) or {expression.name}(..., given=condition)."
        raise problem("one-claim", f"{expression.name}() takes one question.", QUESTION, hint)
    return expression.name, expression.args[0], given.get("given")


def _given(space: Space, given: str) -> list[Wish]:
    mark = Mark("given", 1, 1)
    return SpaceTerms(space, mark).wishes(parse(given, mark)) if given else []


def _chosen(space: Space, chosen: Iterable[str]) -> list[Wish]:
    """Return choices made as wishes, each a table of one row."""
    return [_choice_made(space, number, made) for number, made in enumerate(chosen, 1)]


def _choice_made(space: Space, number: int, made: str) -> Wish:
    """Read a choice such as ``slot=card``; names and labels may hold equals signs themselves."""
    splits = [(made[:i], made[i + 1 :]) for i, sign in enumerate(made) if sign == "="]
    name, label = next(
        ((n, v) for n, v in splits if n in space), (made.split("=", maxsplit=1)[0], "")
    )
    mark = Mark("choose", number, 1)
    if name not in space:
        hint = suggestion(name, (c.name for c in space.choices)) or "Write NAME=VALUE."
        raise problem("unknown-name", f"There is no choice {name!r}.", mark, hint)
    values = space.choice(name).values
    if label not in values:
        hint = suggestion(label, values)
        raise problem("unknown-name", f"{name} has no value {label!r}.", mark, hint)
    place = values.index(label)
    origin = Origin(f"choose:{number}", "wish", f"Chosen: {name} is {label}.")
    table = Table((name,), frozenset([(place,)]), origin)
    return Wish(origin, f"{name}={label}", (), (table,), asked=((name, place),))


def _allowed(space: Space, made: Iterable[Wish]) -> dict[str, frozenset[int]]:
    left: dict[str, frozenset[int]] = {}
    for wish in made:
        for name, value in wish.asked:
            left[name] = left.get(name, frozenset(range(space.choice(name).size))) & {value}
    return left
