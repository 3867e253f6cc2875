"""Reading an expression: Python's grammar, cut down to a small language without side effects.

The text is cut into tokens first (see ``scan``). Python's parser then sees only names, operators
and the number of each literal, and its tree is turned into our own nodes. Nothing is ever
evaluated by Python.
"""

from __future__ import annotations

import ast
from bisect import bisect_right
from dataclasses import dataclass, field, replace

from baywright.problems import Mark, Problem, Problems
from baywright.terms.scan import MOST_LEVELS, LiteralNode, Source, Token, scan, too_deep
from baywright.terms.syntax import (
    And,
    Arithmetic,
    Call,
    Compare,
    Comparison,
    Expression,
    Keyword,
    Member,
    Name,
    Not,
    Operation,
    Or,
    Span,
    negative,
)

_COMPARISONS: dict[type[ast.cmpop], Comparison] = {
    ast.Eq: "==",
    ast.NotEq: "!=",
    ast.Lt: "<",
    ast.LtE: "<=",
    ast.Gt: ">",
    ast.GtE: ">=",
}
_OPERATIONS: dict[type[ast.operator], Operation] = {ast.Add: "+", ast.Sub: "-", ast.Mult: "*"}


def parse(text: str, mark: Mark | None = None) -> Expression:
    """Read an expression such as ``count(drive, size="large") == 12 and load <= 1300 W``.

    Args:
        text: the expression; line breaks count as spaces.
        mark: place of its first character in a file; without it problems are placed in a file
            called ``expression``.

    Raises:
        Problems: kinds ``syntax``, ``too-long``, ``too-deep`` and those of units, each with its
            place and what to do next.
    """
    source = Source(text, mark)
    return _Reader(source, _Rewritten(scan(source))).read()


@dataclass(slots=True)
class _Rewritten:
    """The tokens as Python's parser sees them, with the way back to the text."""

    tokens: tuple[Token, ...]
    text: str = ""
    literals: list[LiteralNode] = field(default_factory=list)
    _starts: list[int] = field(default_factory=list)

    def __post_init__(self) -> None:
        for token in self.tokens:
            self._starts.append(len(self.text))
            self.text += self._piece(token) + " "

    def _piece(self, token: Token) -> str:
        if token.literal is not None:
            self.literals.append(token.literal)
            return str(len(self.literals) - 1)
        # Python wants arguments by name to come last; an assignment expression may stand anywhere.
        return ":=" if token.written == "=" else token.written

    def token_at(self, column: int) -> Token:
        """Return the token at a column of the rewritten text."""
        return self.tokens[max(bisect_right(self._starts, column) - 1, 0)]


@dataclass(slots=True)
class _Reader:
    source: Source
    rewritten: _Rewritten

    def read(self) -> Expression:
        try:
            tree = ast.parse(self.rewritten.text.strip(), mode="eval").body
        except SyntaxError as error:
            raise Problems([self._unexpected(error)]) from None
        except (RecursionError, MemoryError):
            raise Problems([too_deep(self.source, 0)]) from None
        self._check_depth(tree)
        return self._expression(tree)

    def _unexpected(self, error: SyntaxError) -> Problem:
        column = (error.offset or 1) - 1
        token = self.rewritten.token_at(column)
        shown = self.source.text[token.start : token.end]
        hint = "Check the operator before it and the parentheses around it."
        return self.source.problem(f"{shown!r} is not expected here.", token.start, hint)

    def _check_depth(self, tree: ast.expr) -> None:
        level = [tree]
        for _ in range(MOST_LEVELS):
            inside = [child for node in level for child in ast.iter_child_nodes(node)]
            level = [child for child in inside if isinstance(child, ast.expr)]
            if not level:
                return
        raise Problems([too_deep(self.source, self._span(level[0]).start)])

    def _span(self, node: ast.expr) -> Span:
        first = self.rewritten.token_at(node.col_offset)
        last = self.rewritten.token_at((node.end_col_offset or 1) - 1)
        return self.source.span(first.start, last.end)

    def _expression(self, node: ast.expr) -> Expression:
        match node:
            case ast.Constant(value=int(index)):
                return self.rewritten.literals[index]
            case ast.Name(id=name):
                return Name(name, self._span(node))
            case ast.Call():
                return self._call(node)
            case ast.Compare():
                return self._compare(node)
            case ast.BoolOp(op=op, values=values):
                terms = tuple(self._expression(value) for value in values)
                span = self._span(node)
                return And(terms, span) if isinstance(op, ast.And) else Or(terms, span)
            case ast.UnaryOp():
                return self._unary(node)
            case ast.BinOp(op=op):
                left, right = self._expression(node.left), self._expression(node.right)
                return Arithmetic(_OPERATIONS[type(op)], left, right, self._span(node))
            case _:
                raise self._refused(node)

    def _call(self, node: ast.Call) -> Call:
        if not isinstance(node.func, ast.Name):
            raise self._problem(node.func, "Only a name can be called.", "Write 'name(...)'.")
        args, keywords = [], []
        for argument in node.args:
            if isinstance(argument, ast.NamedExpr):
                keywords.append(self._keyword(argument))
            else:
                args.append(self._expression(argument))
        return Call(node.func.id, tuple(args), tuple(keywords), self._span(node))

    def _keyword(self, node: ast.NamedExpr) -> Keyword:
        return Keyword(node.target.id, self._expression(node.value), self._span(node))

    def _compare(self, node: ast.Compare) -> Expression:
        operands = [node.left, *node.comparators]
        terms = tuple(
            self._compared(left, op, right)
            for left, op, right in zip(operands, node.ops, operands[1:], strict=False)
        )
        return (
            replace(terms[0], span=self._span(node))
            if len(terms) == 1
            else And(terms, self._span(node))
        )

    def _compared(self, left: ast.expr, op: ast.cmpop, right: ast.expr) -> Compare | Member | Not:
        first, last = self._span(left), self._span(right)
        span = replace(first, end=last.end)
        if isinstance(op, ast.In | ast.NotIn):
            member = Member(self._expression(left), self._options(right), span)
            return member if isinstance(op, ast.In) else Not(member, span)
        return Compare(
            self._expression(left), _COMPARISONS[type(op)], self._expression(right), span
        )

    def _options(self, node: ast.expr) -> tuple[Expression, ...]:
        if not isinstance(node, ast.Tuple):
            return (self._expression(node),)
        if not node.elts:
            raise self._problem(node, "There is nothing to choose from.", "Write values in '( )'.")
        return tuple(self._expression(element) for element in node.elts)

    def _unary(self, node: ast.UnaryOp) -> Expression:
        if isinstance(node.op, ast.UAdd):
            raise self._problem(node, "A plus sign stands between two values.", "Leave it out.")
        term = self._expression(node.operand)
        span = self._span(node)
        return Not(term, span) if isinstance(node.op, ast.Not) else negative(term, span)

    def _refused(self, node: ast.expr) -> Problems:
        match node:
            case ast.NamedExpr():
                return self._problem(node, "'=' cannot be used here.", "Use '==' to compare.")
            case ast.Tuple():
                message = "Several values stand where one is wanted."
                return self._problem(node, message, "A list of values comes after 'in'.")
            case ast.Starred():
                return self._problem(node, "'*' stands between two values.", "Leave it out.")
            case _:
                message = "This is not part of the expression language."
                hint = "Use names, numbers, comparisons and functions."
                return self._problem(node, message, hint)

    def _problem(self, node: ast.expr, message: str, hint: str) -> Problems:
        return Problems([self.source.problem(message, self._span(node).start, hint)])
