"""Questions in plain words answered: verdict, what it stands on, and a reply to paste."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction

from baywright.answers.verdicts import Bound, Count, Verdict
from baywright.desk.asking import Answer, ask
from baywright.desk.opening import Opened, open_book
from baywright.desk.proofreading.judging import Finding
from baywright.desk.proofreading.natural import natural_conditions
from baywright.desk.proofreading.proofreading import NOWHERE, Proofreader
from baywright.desk.proofreading.proving import NotSayable
from baywright.desk.telling import answer_sheet
from baywright.facts.citation import Citation
from baywright.facts.fact import Fact
from baywright.language.claims import Claim
from baywright.language.passages import Passage
from baywright.language.question_forms import Form
from baywright.language.questions import Query, Questions
from baywright.language.saying import conditions_said, yes_or_no
from baywright.language.stated import Stated, features
from baywright.language.things import Condition, Thing
from baywright.laws.wording import capitalised, listed
from baywright.problems import Mark, Problems
from baywright.terms import parse
from baywright.units.printing import number

MOST_BARE_WORDS = 3
"""From so many words on, a text without signs of an expression is plain language."""

FACT_VERDICTS = {"true": "Yes", "false": "No", "only-if": "Only if"}


@dataclass(frozen=True, slots=True)
class Told:
    """An answer to a question in plain words.

    Args:
        question: as it was asked.
        form: the form it has.
        reading: how it was understood, as an expression or fact.
        not_understood: words that were not understood; then there is no answer.
        answer: the answer, one sentence.
        verdict: the whole verdict, where an engine was asked.
        facts: the facts it stands on.
        book: name of the machine.
        as_of: the day it holds for.
    """

    question: str
    form: Form
    reading: str = ""
    not_understood: tuple[str, ...] = ()
    answer: str = ""
    verdict: Answer | None = None
    facts: tuple[Citation, ...] = ()
    book: str = ""
    as_of: str = ""

    @property
    def reply(self) -> str:
        """The answer with its facts, ready to be pasted into a reply."""
        if self.not_understood:
            return ""
        sources = dict.fromkeys(_source(fact) for fact in self.facts if fact.source)
        lines = [self.answer, f"This holds for the {self.book} as of {self.as_of}."]
        if sources:
            lines.append(f"Source: {'; '.join(sources)}.")
        return " ".join(lines)


def _source(fact: Citation) -> str:
    return f"{fact.source}, {fact.date}" if fact.date else fact.source


@dataclass
class Answerer:
    """Answers questions in plain words about an open book; opens it once for all of them.

    Args:
        opened: the book, with day and site.
    """

    opened: Opened
    _proofreader: Proofreader = field(init=False)

    def __post_init__(self) -> None:
        self._proofreader = Proofreader.of(self.opened)

    def ask(self, question: str) -> Told:
        """Answer a question; one of which a part is not understood has no answer."""
        query = Questions(self._proofreader.reader).read(question)
        told = Told(
            question, query.form, book=self.opened.book.book.name,
            as_of=self.opened.as_of.isoformat(),
        )  # fmt: skip
        if not query.understood:
            return replace(told, not_understood=query.words)
        try:
            return self._answered(query, told)
        except NotSayable as reason:
            return replace(told, not_understood=(str(reason),))
        except Problems as problems:
            message = str(problems.problems[0].message)
            return replace(told, not_understood=(message,))

    def _answered(self, query: Query, told: Told) -> Told:
        if query.expression:
            return self._by_engine(query, told)
        forms: Mapping[str, Callable[[Query, Told], Told]] = {
            "where": self._where,
            "which": self._which,
            "what-does-it-need": self._needs,
            "what-if-it-fails": self._fails,
            "since-when": self._when,
            "what-changed": self._changed,
        }
        return forms.get(query.form, self._by_finding)(query, told)

    def _by_engine(self, query: Query, told: Told) -> Told:
        """Answer by an engine; where a question can be read in several ways, all must agree."""
        kinds = {_worst([self._proofreader.found(c) for c in way]) for way in query.others}
        if kinds and kinds != {_worst([self._proofreader.found(c) for c in query.claims])}:
            return replace(told, not_understood=("it can be read in ways that differ",))
        claim = query.claims[0] if query.claims else Claim("can")
        opened = self._proofreader.at(claim.altitude or query.altitude, claim.inlet or query.inlet)
        answer = ask(opened, query.expression, Mark("question", 1, 1))
        values = {_value(ask(opened, each, Mark("question", 1, 1)).verdict) for each in query.same}
        if values and values != {_value(answer.verdict)}:
            return replace(told, not_understood=("it is not the same everywhere",))
        sheet = answer_sheet(opened, answer)
        said = _count_said(answer.verdict) or sheet.sentence
        return replace(
            told, reading=query.expression, answer=said, verdict=answer,
            facts=tuple(_grounds(answer.verdict)),
        )  # fmt: skip

    def _by_finding(self, query: Query, told: Told) -> Told:
        """Answer by the facts of the book, or by claims that have to hold one by one."""
        found = [self._proofreader.found(claim) for claim in query.claims]
        kinds = {_worst([self._proofreader.found(c) for c in way]) for way in query.others}
        if kinds - {_worst(found)}:
            return replace(told, not_understood=("it can be read in ways that differ",))
        reading = ", ".join(each.claim.text for each in found)
        bad = [each for each in found if each.kind not in FACT_VERDICTS]
        if bad:
            return replace(told, reading=reading, not_understood=(bad[0].said or bad[0].kind,))
        word = _worst(found)
        facts = tuple(each for one in found for each in one.facts)
        answer = yes_or_no(word, facts)
        return replace(told, reading=reading, answer=answer, facts=self._cited(facts))

    def _cited(self, facts: Sequence[Stated]) -> tuple[Citation, ...]:
        return self.opened.book.cite(*(fact for each in facts for fact in each.facts))

    def _where(self, query: Query, told: Told) -> Told:
        """Say in which places a part can be, or on which sides ports are."""
        thing = query.thing or Thing("parts", "", "", "")
        reading = f"where {thing.expression}"
        if thing.sort == "port":
            return replace(told, reading=reading, answer=self._sides(thing, query.given))
        homes = [
            place.name
            for name, place in self.opened.book.places.items()
            if self._can_be_at(thing, name, query.given)
        ]
        said = f"It goes in {listed(homes, 'or')}." if homes else "No place takes it."
        return replace(told, reading=reading, answer=said)

    def _more_features(self, thing: Thing, older: Opened, told: Told) -> Told:
        """Say how many more there are of what the structure of a machine fixes."""
        now, then = (features(each.book, thing, Condition()) for each in (self.opened, older))
        if len(now) != 1 or len(then) != 1:
            return replace(told, not_understood=(f"the number of {thing.many} is not one",))
        values = [Fraction(str(each[0].value)) for each in (now, then)]
        difference = values[0] - values[1]
        side = "more" if difference >= 0 else "fewer"
        before = f"{values[1]} in {older.book.book.name}"
        answer = f"{abs(difference)} {side}: {values[0]} here, {before}."
        return replace(told, reading=f"{thing.many} here and before", answer=answer)

    def _which(self, query: Query, told: Told) -> Told:
        """Name the parts or places that make a statement true, each proven on its own."""
        kinds = {
            name: self._proofreader.remark(Passage(said, NOWHERE, 0), correct=False).kind
            for name, said in query.choices
        }
        if set(kinds.values()) - {"true", "false"}:
            return replace(told, not_understood=("not every choice could be decided",))
        names = [name for name, kind in kinds.items() if kind == "true"]
        answer = f"{len(names)}: {listed(names)}." if names else "None."
        return replace(told, reading="; ".join(said for _, said in query.choices), answer=answer)

    def _can_be_at(self, thing: Thing, place: str, given: Sequence[str]) -> bool:
        there = f"{thing.placed((place,)).expression} >= 1"
        return self._proofreader.possible((there, *given))

    def _sides(self, thing: Thing, given: Sequence[str]) -> str:
        found = []
        for side in ("front", "rear", "inside"):
            numbers = [n for n in range(20) if self._has_ports(thing, side, n, given)]
            if numbers and numbers != [0]:
                found.append(f"{' or '.join(map(str, numbers))} {side}")
        return f"{capitalised(thing.many)}: {', '.join(found) or 'none'}."

    def _has_ports(self, thing: Thing, side: str, number: int, given: Sequence[str]) -> bool:
        try:
            there = f"{replace(thing, sides=(side,)).expression} == {number}"
            return self._proofreader.possible((there, *given))
        except NotSayable:
            return False

    def _needs(self, query: Query, told: Told) -> Told:
        """Say which conditions hold in every build that has something."""
        if query.thing is not None and query.thing.name == "voltage":
            return self._voltages(told)
        needed = [
            condition
            for condition in (*natural_conditions(self.opened.book), *self._kits())
            if condition not in query.given
            and not self._proofreader.possible((f"not ({condition})", *query.given))
            and self._proofreader.possible((f"not ({condition})",))
        ]
        said = conditions_said(self.opened.book, needed)
        answer = f"It needs {listed(said)}." if said else "It needs nothing beside."
        return replace(told, reading=f"what holds whenever {query.given[0]}", answer=answer)

    def _voltages(self, told: Told) -> Told:
        """Say from which kinds of input power there are builds."""
        lines = self.opened.book.power.lines
        usable = [
            line for name, line in lines.items()
            if self._proofreader.possible((f'line == "{name}"',))
        ]  # fmt: skip
        said = [
            f"{number(line.volts_from.known.magnitude)} to {line.volts_to.text}" for line in usable
        ]
        facts = [fact for line in usable for fact in (line.volts_from, line.volts_to)]
        return replace(
            told, reading="line", answer=f"It runs from {listed(said, 'or')}.",
            facts=self.opened.book.cite(*facts),
        )  # fmt: skip

    def _kits(self) -> Iterator[str]:
        kits = self.opened.book.parts_of("kit")
        yield from (f'count("{name}") >= 1' for name in kits if not name.startswith("blank"))

    def _fails(self, query: Query, told: Told) -> Told:
        """Say what the loss of a supply, a fan or a processor means."""
        if query.claims:
            return self._by_finding(query, told)
        kind = query.thing.name if query.thing else ""
        term = {"supply": "supplies_redundant", "fan": "air_redundant"}.get(kind)
        if term is None:
            return self._without_processor(told) if kind == "processor" else _lost(told)
        finding = self._proofreader.found(Claim("always", (term,), query.given))
        answers = {
            "true": "It keeps running, in every build.",
            "false": "It stops, in every build.",
        }
        partly = {
            "supply": "It keeps running while the peak draw is within what the others carry; "
            "otherwise it stops.",
            "fan": "It keeps running in builds whose draw the other fans carry, in others not.",
        }
        answer = answers.get(finding.kind, partly[kind])
        return replace(told, reading=f"always({term})", answer=answer)

    def _without_processor(self, told: Told) -> Told:
        book = self.opened.book
        given = ("processors == 1",)
        lost = [
            place.name
            for name, place in book.places.items()
            if place.type in ("zone", "slot", "mount")
            and self._proofreader.possible((f"{name} != empty",))
            and not self._proofreader.possible((f"{name} != empty", *given))
        ]
        said = f"Lost without it: {listed(lost)}." if lost else "Every place can still be used."
        return replace(told, reading="what processors == 1 rules out", answer=said)

    def _when(self, query: Query, told: Told) -> Told:
        """Say a date of the machine."""
        event, part = query.claims[0].event, query.claims[0].subject
        book = self.opened.book
        fact = getattr(book.parts[part] if part else book.book, event, None)
        if not isinstance(fact, Fact):
            return replace(told, not_understood=(f"the book states no {event}",))
        words = {"ships": "It ships since", "announced": "It was announced on",
                 "last_order": "It can be ordered until"}  # fmt: skip
        answer = f"{words[event]} {fact.text}."
        return replace(
            told, reading=f"book.{event}", answer=answer, facts=self.opened.book.cite(fact)
        )

    def _changed(self, query: Query, told: Told) -> Told:
        """Say how much more of something there is than in the machine before."""
        before = self.opened.book.book.predecessor
        if before is None or query.thing is None:
            return replace(told, not_understood=("the book names no machine before",))
        older = open_book(
            self.opened.folder.parent / before, self.opened.setting, self.opened.panel
        )
        if query.thing.sort == "feature":
            return self._more_features(query.thing, older, told)
        expression = f"most({query.thing.expression})"
        now, then = (ask(each, expression).verdict for each in (self.opened, older))
        if not isinstance(now, Bound) or not isinstance(then, Bound):
            return replace(told, not_understood=("the most of it is not proven",))
        difference = now.figure.value - then.figure.value
        side = "more" if difference >= 0 else "fewer"
        number = f"{abs(difference).numerator:,}"
        answer = (
            f"{number} {side}: {now.figure.value} here, {then.figure.value} in "
            f"{older.book.book.name}."
        )
        return replace(told, reading=f"{expression} here and in {before}", answer=answer)


def _value(verdict: Verdict) -> object:
    """Return the number of an answer, for comparison with others."""
    return verdict.figure.value if isinstance(verdict, Bound) else verdict


def _lost(told: Told) -> Told:
    return replace(told, not_understood=("what happens when that fails",))


def _worst(found: Sequence[Finding]) -> str:
    kinds = {each.kind for each in found}
    return next((kind for kind in ("false", "only-if") if kind in kinds), "true")


def _count_said(verdict: Verdict) -> str:
    if not isinstance(verdict, Count):
        return ""
    if len(verdict.over) == 1:
        return f"{verdict.number}: {listed([row[0] for row in verdict.rows])}."
    return f"{verdict.number} ways."


def _grounds(verdict: Verdict) -> Iterator[Citation]:
    for name in ("reasons", "always"):
        for reason in getattr(verdict, name, ()):
            yield from reason.facts


def is_expression(question: str) -> bool:
    """Say whether a question is written, well or badly, as an expression.

    Plain words end with a question mark, or are three words or more without a sign that only
    expressions have.
    """
    plain = question.rstrip().endswith("?")
    wordy = len(question.split()) >= MOST_BARE_WORDS and not set(question) & set('()=<>_[]"')
    if not plain and not wordy:
        return True
    try:
        parse(question, Mark("question", 1, 1))
    except Problems:
        return False
    return True
