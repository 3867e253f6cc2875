"""Questions as people type them: a condition, a number, or one of a few question words."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial

from baywright.answers import extremes, questions
from baywright.answers.extremes import Goal, Value
from baywright.answers.verdicts import Verdict
from baywright.desk.opening import Opened
from baywright.desk.worlds import over_worlds, possible_over_worlds
from baywright.facts.status import Status
from baywright.laws.formula import NotEncodable
from baywright.laws.linear import Linear
from baywright.laws.machine import Machine
from baywright.laws.subsystem import Lookup, Lowest, Span
from baywright.laws.wishes import Wish, wish_of, wishes_of
from baywright.laws.wording import listed
from baywright.problems import Mark, problem
from baywright.terms import Checked, Expression, opposite, parse, text, wording
from baywright.terms.syntax import Call, Compare, Name
from baywright.terms.vocabulary import Sort

QUESTION = "question"


@dataclass(frozen=True, slots=True)
class Answer:
    """A question with its reading and its verdict.

    Args:
        question: as it was asked.
        reading: what was understood, in words.
        verdict: the outcome.
        book: id of the book.
        as_of: the day it holds for, as written in ISO form.
        status: what the machine is on that day.
    """

    question: str
    reading: str
    verdict: Verdict
    book: str
    as_of: str
    status: Status


@dataclass(frozen=True, slots=True)
class Asked:
    """A question taken apart.

    Args:
        word: the question word.
        terms: what follows it.
        given: the condition after ``given=``, if there is one.
        mark: where it was written.
        then: what comes after it, number by number, with ``most`` or ``least``.
    """

    word: str
    terms: tuple[Expression, ...]
    given: Expression | None
    mark: Mark
    then: tuple[tuple[str, Expression], ...] = ()


_Form = Callable[[Opened, Asked], Verdict]
_InWorld = Callable[[Opened, Machine, Asked], Verdict]


def _in_worlds(answer: _InWorld) -> _Form:
    """Return the form that answers in every world of unknown facts."""
    return lambda opened, asked: over_worlds(opened, lambda each: answer(opened, each, asked))


def ask(opened: Opened, question: str, mark: Mark | None = None) -> Answer:
    """Answer a question about an open book.

    A bare condition asks whether some legal build has it, a bare number for the most it can
    be. Other questions start with one of the words of ``FORMS``; ``given=`` adds a condition.

    Args:
        opened: the book, with day and site.
        question: the question.
        mark: where it was written.

    Raises:
        Problems: when the question makes no sense.
    """
    asked = taken_apart(opened.machine, question, mark or Mark(QUESTION, 1, 1))
    return Answer(
        question,
        reading_of(opened.machine, asked),
        FORMS[asked.word].answer(opened, asked),
        opened.book.book.id,
        opened.as_of.isoformat(),
        opened.status,
    )


def taken_apart(machine: Machine, question: str, mark: Mark) -> Asked:
    """Take a question apart; raises ``Problems`` when it makes no sense."""
    expression = parse(question, mark)
    if isinstance(expression, Call) and expression.name in FORMS:
        words = ("given", "then") if expression.name in SIDES else ("given",)
        given, then = _keywords(expression, words, mark)
        goals = tuple(_goals_after(then, expression.name, mark))
        return Asked(expression.name, expression.args, given, mark, goals)
    if machine.read(expression, mark).type.sort is Sort.TRUTH:
        return Asked("can", (expression,), None, mark)
    return Asked("most", (expression,), None, mark)


def _keywords(
    call: Call, words: Sequence[str], mark: Mark
) -> tuple[Expression | None, Expression | None]:
    """Return what stands after ``given=`` and after ``then=`` in a question.

    Raises:
        Problems: for other words, and for a question without terms.
    """
    found = {keyword.name: keyword.value for keyword in call.keywords}
    other = next((name for name in found if name not in words), None)
    if other is not None:
        hint = f"Use {listed([f'{word}=' for word in words], 'or')}."
        raise problem("unknown-word", f"{call.name} takes no {other}=", mark, hint)
    if not call.args:
        message = f"{call.name}() asks for nothing."
        raise problem("empty-question", message, mark, f"Write {FORMS[call.name].usage}.")
    return found.get("given"), found.get("then")


def _goals_after(
    then: Expression | None, side: str, mark: Mark
) -> Iterator[tuple[str, Expression]]:
    """Yield what comes after a number, with its side: that of the number before unless written.

    Raises:
        Problems: when a side holds anything but a number and what comes after it.
    """
    while then is not None:
        number, after = then, None
        if isinstance(then, Call) and then.name in SIDES:
            side, (_, after) = then.name, _keywords(then, ("then",), mark)
            if len(then.args) != 1:
                message = f"{side}() takes one number after then=."
                raise problem("one-number", message, mark, "Conditions go after the first given=.")
            number = then.args[0]
        yield side, number
        then = after


def reading_of(machine: Machine, asked: Asked) -> str:
    """Return what was understood, in words."""
    said = [
        wording(machine.read(term, asked.mark).expression, machine.vocabulary)
        for term in asked.terms
    ]
    base = FORMS[asked.word].reading.format("; ".join(said))
    for word, term in asked.then:
        number = wording(machine.read(term, asked.mark).expression, machine.vocabulary)
        base += f", then {FORMS[word].reading.format(number)}"
    if asked.given is None:
        return base
    given = wording(machine.condition(asked.given, asked.mark), machine.vocabulary)
    return f"{base}, given {given}"


def wishes_asked(
    machine: Machine, asked: Asked, terms: Sequence[Expression] = (), start: int = 1
) -> list[Wish]:
    """Return terms of a question, and what follows its ``given=``, as wishes."""
    every = [*terms, *([asked.given] if asked.given is not None else [])]
    wishes: list[Wish] = []
    for term in every:
        wishes += wishes_of(machine, term, asked.mark, start + len(wishes))
    return wishes


def _can(opened: Opened, asked: Asked) -> Verdict:
    return possible_over_worlds(opened, lambda machine: wishes_asked(machine, asked, asked.terms))


def _always(opened: Opened, machine: Machine, asked: Asked) -> Verdict:
    if len(asked.terms) != 1 or asked.given is not None:
        hint = "Write always(implies(condition, claim)) for a claim under a condition."
        raise problem("one-claim", "always() takes one claim.", asked.mark, hint)
    claim = machine.condition(asked.terms[0], asked.mark)
    return questions.always(
        opened.inquiry(machine),
        wishes_of(machine, claim, asked.mark),
        wishes_of(machine, negation(machine, claim), asked.mark),
    )


def negation(machine: Machine, claim: Expression) -> Expression:
    """Return the opposite of a checked condition."""
    return opposite(claim, partial(_turns, machine))


def _turns(machine: Machine, comparison: Compare) -> bool:
    """Say whether exactly one of a comparison and its opposite holds in every build.

    A build may have no memory speed, and its voltage lies somewhere between two.
    """
    names = [side.name for side in (comparison.left, comparison.right) if isinstance(side, Name)]
    meanings = (machine.names[name].meaning for name in names if name in machine.names)
    return not any(isinstance(meaning, Lookup | Lowest | Span) for meaning in meanings)


def _extreme(opened: Opened, machine: Machine, asked: Asked) -> Verdict:
    number, *conditions = asked.terms
    goals = [
        _goal(machine, term, asked.mark, most=side == "most")
        for side, term in ((asked.word, number), *asked.then)
    ]
    return extremes.best(opened.inquiry(machine), goals, wishes_asked(machine, asked, conditions))


def _goal(machine: Machine, number: Expression, mark: Mark, *, most: bool) -> Goal:
    checked = machine.read(number, mark)
    value = number_asked(machine, checked, mark)
    return Goal(wording(checked.expression, machine.vocabulary), value, most)


def number_asked(machine: Machine, checked: Checked, mark: Mark) -> Value:
    """Return what an expression stands for, where it has a most and a least."""
    said = text(checked.expression)
    if checked.type.sort not in (Sort.NUMBER, Sort.QUANTITY):
        hint = 'Name a number, such as load, or compare it, such as A == "S8".'
        raise problem("not-a-number", f"{said} has no most and no least.", mark, hint)
    try:
        value = machine.translator.value(checked.expression)
    except NotEncodable as reason:
        raise problem("not-a-number", f"{said}: {reason}.", mark) from reason
    if isinstance(value, Linear | Lookup | Lowest):
        return value
    raise problem("not-a-number", f"{said} has no most and no least.", mark, "Compare it.")


def _list(opened: Opened, machine: Machine, asked: Asked) -> Verdict:
    return questions.listed(opened.inquiry(machine), asked.terms, wishes_asked(machine, asked))


def _together(opened: Opened, machine: Machine, asked: Asked) -> Verdict:
    claims = [
        wish_of(machine, machine.condition(term, asked.mark), f"wish:{position}", asked.mark)
        for position, term in enumerate(asked.terms, 1)
    ]
    given = [
        replace(wish, hard=True) for wish in wishes_asked(machine, asked, start=len(claims) + 1)
    ]
    return questions.together(opened.inquiry(machine), claims, given)


@dataclass(frozen=True, slots=True)
class Form:
    """A way to ask.

    Args:
        answer: finds the verdict.
        usage: how it is written.
        reading: the reading, with a place for what is asked.
    """

    answer: _Form
    usage: str
    reading: str


FORMS: Mapping[str, Form] = {
    "can": Form(_can, "can(condition)", "this can be: {}"),
    "always": Form(_in_worlds(_always), "always(claim)", "this is always so: {}"),
    "most": Form(
        _in_worlds(_extreme), "most(number, then=number, given=condition)", "the most of {}"
    ),
    "least": Form(
        _in_worlds(_extreme), "least(number, then=number, given=condition)", "the least of {}"
    ),
    "list": Form(_in_worlds(_list), "list(A, B, given=condition)", "every combination of {}"),
    "ways": Form(_in_worlds(_list), "ways(A, B, given=condition)", "how many combinations of {}"),
    "together": Form(_in_worlds(_together), "together(claim, claim)", "these can be together: {}"),
}
"""The question words. A new one is a line here."""

SIDES = ("most", "least")
"""The question words for a number; after ``then=`` they stand inside a question too."""
