"""Checking the arguments of one call."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Protocol, TypeVar

from baywright.problems import suggestion
from baywright.terms.calls import Other, Use, arrange, as_comparison, missing, uses
from baywright.terms.printing import text
from baywright.terms.scope import Scope, filter_scope
from baywright.terms.syntax import Call, Expression, Keyword, Name, Span, Text
from baywright.terms.vocabulary import (
    TRUTH,
    FunctionEntry,
    KindEntry,
    Parameter,
    Role,
    Type,
    Vocabulary,
)

_Node = TypeVar("_Node", bound=Expression)


class Checker(Protocol):
    """What checking a call needs from the checker of whole expressions."""

    @property
    def vocabulary(self) -> Vocabulary:
        """What the expression may speak of."""

    def add(self, kind: str, message: str, span: Span, hint: str = "") -> None:
        """Note a problem and go on."""

    def wanted(
        self, node: Expression, scope: Scope, wanted: Type | None
    ) -> tuple[Expression, Type | None]:
        """Check a node whose value must have a type, if one is given."""


@dataclass(slots=True)
class CallChecker:
    """Checks the arguments of one call of a known function."""

    checker: Checker
    call: Call
    entry: FunctionEntry
    scope: Scope

    def typed(self) -> tuple[Expression, Type | None]:
        """Return the call with its amounts resolved, and the type of its value."""
        for parameter in missing(self.call, self.entry):
            self._wrong(f"{self.call.name}() needs {parameter.name}.", self.call.span)
        args: list[Expression] = []
        keywords: list[Keyword] = []
        for argument, use in uses(self.call, self.entry):
            if isinstance(argument, Keyword):
                keywords.append(self._keyword(argument, use))
            else:
                args.append(self._argument(argument, use))
        found = replace(self.call, args=tuple(args), keywords=tuple(keywords))
        return found, self.entry.result or self._type_of_field()

    def _keyword(self, argument: Keyword, use: Use) -> Keyword:
        if use is Other.SURPLUS:
            self._wrong(
                f"{self.call.name}() has no place for {argument.name}={text(argument.value)}.",
                argument.span,
            )
            return argument
        if use is Other.FILTER:
            found = self._filter(as_comparison(argument))
            return replace(argument, value=found.right)
        return replace(argument, value=self._argument(argument.value, use))

    def _argument(self, argument: Expression, use: Use) -> Expression:
        if use is Other.FILTER:
            return self._filter(argument)
        if not isinstance(use, Parameter):
            self._wrong(f"{self.call.name}() has no use for '{text(argument)}'.", argument.span)
            return argument
        match use.role:
            case Role.VALUE:
                return self.checker.wanted(argument, self.scope, use.type)[0]
            case Role.SELECTION:
                known = (*self.checker.vocabulary.kinds, *self.checker.vocabulary.parts)
                self._known(argument, known, "part", "kind of part or part")
            case Role.FIELD:
                kind = self._kind()
                self._known(argument, kind.fields if kind else None, "field", "field")
            case Role.PLACE:
                self._known(argument, self.checker.vocabulary.places, "place", "place")
        return argument

    def _filter(self, condition: _Node) -> _Node:
        """Check a condition on the fields of one part; the form of the condition stays."""
        kind = self._kind()
        if kind is None:
            return condition
        found, _ = self.checker.wanted(condition, filter_scope(kind), TRUTH)
        return found if isinstance(found, type(condition)) else condition

    def _known(
        self, argument: Expression, known: Iterable[str] | None, kind: str, noun: str
    ) -> None:
        """Check a bare name or a text that must be one of some words, if these are known."""
        word = word_of(argument)
        joined = text(argument).replace(" ", "")
        if word is None and known is not None and joined in known:
            message = f"Without quotes '{joined}' is a subtraction."
            self.checker.add("wrong-arguments", message, argument.span, f'Write "{joined}".')
        elif word is None:
            self._wrong(f"'{text(argument)}' is not the name of a {noun}.", argument.span)
        elif known is not None and word not in known:
            hint = suggestion(word, known)
            self.checker.add(
                f"unknown-{kind}", f"There is no {noun} {word!r} here.", argument.span, hint
            )

    def _kind(self) -> KindEntry | None:
        return kind_of(self.call, self.entry, self.checker.vocabulary)

    def _type_of_field(self) -> Type | None:
        kind = self._kind()
        given = arrange(self.call, self.entry).given
        for parameter in self.entry.parameters:
            if kind and parameter.role is Role.FIELD and parameter.name in given:
                entry = kind.fields.get(word_of(given[parameter.name]) or "")
                return entry.type if entry else None
        return None

    def _wrong(self, message: str, span: Span) -> None:
        hint = f"Write {self.call.name}({self.entry.usage})."
        self.checker.add("wrong-arguments", message, span, hint)


def word_of(argument: Expression) -> str | None:
    """Return the word of a bare name or a text in quotes, or ``None`` for anything else."""
    match argument:
        case Name(word) | Text(word):
            return word
        case _:
            return None


def kind_of(call: Call, entry: FunctionEntry, vocabulary: Vocabulary) -> KindEntry | None:
    """Return the kind of the parts a call selects, or ``None`` when it selects none we know."""
    given = arrange(call, entry).given
    for parameter in entry.parameters:
        if parameter.role is Role.SELECTION and parameter.name in given:
            word = word_of(given[parameter.name]) or ""
            return vocabulary.kinds.get(vocabulary.parts.get(word, word))
    return vocabulary.kinds.get(entry.kind)
