"""Checking an expression against a vocabulary: names, types, units and known words."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from baywright.problems import Mark, Problem, Problems, suggestion
from baywright.terms.call_checking import CallChecker
from baywright.terms.fitting import combined, comparable, literal, resolved, unfit
from baywright.terms.printing import text
from baywright.terms.scope import Scope, outer_scope
from baywright.terms.syntax import (
    Amount,
    And,
    Arithmetic,
    Call,
    Compare,
    Expression,
    Member,
    Name,
    Negative,
    Not,
    Number,
    Or,
    Span,
    Text,
    Truth,
)
from baywright.terms.vocabulary import (
    NUMBER,
    TEXT,
    TRUTH,
    Sort,
    Type,
    Vocabulary,
    quantity,
)

_Typed = tuple[Expression, Type | None]
"""The expression with its amounts resolved, and its type, or ``None`` after a problem."""

_SIZED = (Sort.NUMBER, Sort.QUANTITY)


@dataclass(frozen=True, slots=True)
class Checked:
    """An expression that makes sense.

    Args:
        expression: the same expression with each amount in the dimension its surroundings want.
        type: the type of its value.
    """

    expression: Expression
    type: Type


def check(
    expression: Expression,
    vocabulary: Vocabulary,
    mark: Mark | None = None,
    wanted: Type | None = TRUTH,
) -> Checked:
    """Check an expression against a vocabulary.

    Args:
        expression: a tree the parser gave.
        vocabulary: what it may speak of.
        mark: place of the first character of its text.
        wanted: the type its value must have, or ``None`` when any will do.

    Raises:
        Problems: every unknown word, wrong type and missing unit in it: kinds ``unknown-name``,
            ``unknown-function``, ``unknown-field``, ``unknown-part``, ``unknown-place``,
            ``unknown-value``, ``wrong-type``, ``wrong-arguments`` and those of units.
    """
    checker = _Checker(vocabulary, mark)
    found, kind = checker.wanted(expression, outer_scope(vocabulary), wanted)
    if checker.problems or kind is None:
        raise Problems(checker.problems)
    return Checked(found, kind)


@dataclass(slots=True)
class _Checker:
    vocabulary: Vocabulary
    mark: Mark | None
    problems: list[Problem] = field(default_factory=list)

    def add(self, kind: str, message: str, span: Span, hint: str = "") -> None:
        """Note a problem and go on."""
        self.problems.append(Problem(kind, message, span.mark(self.mark), hint))

    def wanted(self, node: Expression, scope: Scope, wanted: Type | None) -> _Typed:
        """Check a node whose value must have a type, if one is given."""
        found, kind = self.typed(node, scope, wanted)
        if wanted is None or kind is None:
            return found, kind
        problem = unfit(found, kind, wanted, node.span.mark(self.mark))
        if problem is None:
            return found, kind
        self.problems.append(problem)
        return found, None

    def typed(self, node: Expression, scope: Scope, lean: Type | None = None) -> _Typed:
        """Check a node; ``lean`` decides between dimensions that share the spelling of a unit."""
        match node:
            case Name():
                return node, self._name(node, scope, lean)
            case Number() | Truth() | Text() | Amount():
                return _literal(node, lean)
            case Compare():
                return self._compare(node, scope), TRUTH
            case Member():
                return self._member(node, scope), TRUTH
            case And() | Or() | Not():
                return self._logic(node, scope), TRUTH
            case Negative():
                return self._negative(node, scope, lean)
            case Arithmetic():
                return self._arithmetic(node, scope, lean)
            case Call():
                return self._call(node, scope)

    def _name(self, node: Name, scope: Scope, lean: Type | None) -> Type | None:
        if node.name in scope.names:
            return scope.names[node.name]
        message = f"There is no {scope.noun} {node.name!r} here."
        self.add(f"unknown-{scope.noun}", message, node.span, self._name_hint(node, scope, lean))
        return None

    def _name_hint(self, node: Name, scope: Scope, lean: Type | None) -> str:
        texts = (lean.known if lean else None) or frozenset()
        if node.name in texts or node.name in self.vocabulary.parts:
            return f'Put it in quotes: "{node.name}".'
        if node.name in scope.functions:
            return f"It is a function: write {node.name}({scope.functions[node.name].usage})."
        return suggestion(node.name, scope.names)

    def _logic(self, node: And | Or | Not, scope: Scope) -> Expression:
        if isinstance(node, Not):
            return replace(node, term=self.wanted(node.term, scope, TRUTH)[0])
        return replace(node, terms=tuple(self.wanted(t, scope, TRUTH)[0] for t in node.terms))

    def _compare(self, node: Compare, scope: Scope) -> Compare:
        if _left_to_the_other(node.left, scope):
            right, kind = self.typed(node.right, scope)
            left, _ = self.wanted(node.left, scope, comparable(kind))
        else:
            left, kind = self.typed(node.left, scope)
            right, _ = self.wanted(node.right, scope, comparable(kind))
        if kind and node.op not in ("==", "!=") and kind.sort not in _SIZED:
            message = f"'{text(node)}' compares {kind.phrase} by size."
            self.add("wrong-type", message, node.span, "Use '==' or '!='.")
        return replace(node, left=left, right=right)

    def _member(self, node: Member, scope: Scope) -> Member:
        if _left_to_the_other(node.item, scope):
            _, kind = self.typed(node.options[0], scope)
            item, _ = self.wanted(node.item, scope, comparable(kind))
        else:
            item, kind = self.typed(node.item, scope)
        among = comparable(kind)
        options = tuple(self.wanted(option, scope, among)[0] for option in node.options)
        return replace(node, item=item, options=options)

    def _negative(self, node: Negative, scope: Scope, lean: Type | None) -> _Typed:
        found, kind = self.typed(node.term, scope, lean)
        if kind and kind.sort not in _SIZED:
            message = f"'{text(node)}' turns the sign of {kind.phrase}."
            self.add("wrong-type", message, node.span, "Use 'not' for the opposite of a truth.")
            return node, None
        return replace(node, term=found), kind

    def _arithmetic(self, node: Arithmetic, scope: Scope, lean: Type | None) -> _Typed:
        summed = node.op != "*"
        if literal(node.left):
            right, right_type = self.typed(node.right, scope, lean)
            left, left_type = self.typed(node.left, scope, right_type if summed else lean)
        else:
            left, left_type = self.typed(node.left, scope, lean)
            right, right_type = self.typed(node.right, scope, left_type if summed else lean)
        found = replace(node, left=left, right=right)
        if left_type is None or right_type is None:
            return found, None
        kind = combined(node.op, left_type, right_type)
        if kind is None:
            message = f"'{text(node)}' brings together {left_type.phrase} and {right_type.phrase}."
            hint = "Add like to like; multiply by a plain number."
            self.add("wrong-type", message, node.span, hint)
        return found, kind

    def _call(self, node: Call, scope: Scope) -> _Typed:
        entry = scope.functions.get(node.name)
        if entry is not None:
            return CallChecker(self, node, entry, scope).typed()
        message = f"There is no function {node.name!r} here."
        hint = suggestion(node.name, scope.functions)
        if not scope.functions:
            hint = "A condition on a part compares its fields and calls nothing."
        self.add("unknown-function", message, node.span, hint)
        return node, None


def _literal(node: Number | Truth | Text | Amount, lean: Type | None) -> _Typed:
    if isinstance(node, Number):
        return node, NUMBER
    if isinstance(node, Truth):
        return node, TRUTH
    found = resolved(node, lean)
    return found, TEXT if isinstance(found, Text) else quantity(found.quantity.dimension)


def _left_to_the_other(node: Expression, scope: Scope) -> bool:
    """Return whether the other side of a comparison says more about the type than this one."""
    kind = scope.names.get(node.name) if isinstance(node, Name) else None
    return literal(node) or (kind is not None and kind.sort is Sort.EMPTY)
