"""A condition as one plain English clause."""

from __future__ import annotations

from dataclasses import dataclass

from baywright.terms.phrases import RELATION, Phrases, listing
from baywright.terms.simplify import opposite
from baywright.terms.syntax import (
    IMPLIES,
    Amount,
    And,
    Call,
    Compare,
    Comparison,
    Expression,
    Member,
    Name,
    Not,
    Number,
    Or,
    Text,
    Truth,
)
from baywright.terms.vocabulary import Sort, Vocabulary, Words

_MIRRORED: dict[Comparison, Comparison] = {
    "==": "==",
    "!=": "!=",
    "<": ">",
    ">": "<",
    "<=": ">=",
    ">=": "<=",
}


def wording(expression: Expression, vocabulary: Vocabulary) -> str:
    """Return a checked expression as one clause, without a capital or a full stop.

    A condition reads like ``at least 12 drives with interface sas in zone A, and the supplies are
    redundant``; any other value as a noun phrase.
    """
    return _Wording(vocabulary, Phrases(vocabulary)).top(expression)


@dataclass(frozen=True, slots=True)
class _Wording:
    vocabulary: Vocabulary
    phrases: Phrases

    def top(self, node: Expression) -> str:
        """Word a whole condition; only here is a number without its verb or an if without doubt."""
        match node:
            case Not(And() | Or() as term):
                return self.top(opposite(term))
            case Call(name, (first, second)) if name == IMPLIES:
                return f"if {self.clause(first)}, then {self.clause(second)}"
            case And(terms):
                return ", and ".join(self._inner_or_counted(term) for term in terms)
            case Or(terms):
                return ", or ".join(self._inner_or_counted(term) for term in terms)
            case _:
                return self._inner_or_counted(node)

    def _inner_or_counted(self, node: Expression) -> str:
        return self._counted(node) or self.clause(node)

    def clause(self, node: Expression) -> str:
        """Word a condition inside another, so that it stands as a clause of its own."""
        match node:
            case And() | Or():
                return self._joined(node)
            case Not(term):
                return self._denied(term)
            case Compare():
                return self._there(node) or self._compared(node)
            case Member():
                return self._one_of(node, holds=True)
            case Call(name, (first, second)) if name == IMPLIES:
                return self.clause(Or((Not(first), second)))
            case Call():
                return self.phrases.call(node)
            case Name(name):
                return self._truth(name)
            case _:
                return self.phrases.value(node)

    def _joined(self, node: And | Or) -> str:
        clauses = [self.clause(term) for term in node.terms]
        if isinstance(node, Or):
            return f"either {listing(clauses, 'or')}"
        return f"{'both' if len(clauses) == 2 else 'all of'} {listing(clauses, 'and')}"

    def _there(self, node: Compare) -> str:
        """Word a number of parts as a clause; nothing for any other comparison."""
        counted = self._counted(node)
        verb = "is" if counted.partition(" 1 ")[1] else "are"
        return f"there {verb} {counted}" if counted else ""

    def _truth(self, name: str) -> str:
        entry = self.vocabulary.names.get(name)
        if entry and entry.type.sort is Sort.TRUTH:
            return entry.words.one if entry.words else f"{name} is true"
        return self.phrases.value(Name(name))

    def _denied(self, term: Expression) -> str:
        match term:
            case Name(name):
                entry = self.vocabulary.names.get(name)
                denial = entry.words.many if entry and entry.words else ""
                return denial or f"it is not so that {self._truth(name)}"
            case Member():
                return self._one_of(term, holds=False)
            case Call(name) if name != IMPLIES:
                return f"it is not so that {self.clause(term)}"
            case _:
                return self.clause(opposite(term))

    def _counted(self, node: Expression) -> str:
        """Word a comparison of a number of parts with a plain number; nothing for any other."""
        if isinstance(node, Not) and isinstance(node.term, Compare):
            node = opposite(node.term)
        if not isinstance(node, Compare):
            return ""
        turned = _literal_last(node)
        words = self.phrases.countable(turned.left)
        if words is None or not isinstance(turned.right, Number):
            return ""
        count = turned.right.value
        if count == 0 and turned.op in ("==", "<="):
            return f"no {words.many}"
        if count == 0 and turned.op in ("!=", ">"):
            return f"at least 1 {words.one}"
        relation = RELATION[turned.op].replace("less", "fewer")
        return f"{relation} {self.phrases.value(turned.right)} {_form(words, turned)}"

    def _compared(self, node: Compare) -> str:
        turned = _mirror(node) if self._sort(node.left) is Sort.EMPTY else _literal_last(node)
        left, op, right = turned.left, turned.op, turned.right
        if isinstance(right, Truth):
            return self.clause(left) if right.value is (op == "==") else self._denied(left)
        subject, value = self.phrases.value(left), self.phrases.value(right)
        if self._sort(left) is Sort.CONTENT and op in ("==", "!="):
            return self._held(subject, right, holds=op == "==")
        if isinstance(right, Number | Amount) or op not in ("==", "!="):
            return f"{subject} is {RELATION[op]} {value}"
        return f"{subject} is {value}" if op == "==" else f"{subject} is not {value}"

    def _held(self, subject: str, right: Expression, *, holds: bool) -> str:
        """Word what is, or is not, in a place."""
        if self._sort(right) is Sort.EMPTY:
            return f"{subject} is empty" if holds else f"{subject} is not empty"
        if self._sort(right) is Sort.CONTENT:
            same = "the same as" if holds else "something other than"
            return f"{subject} holds {same} {self.phrases.value(right)}"
        return f"{subject} {'holds' if holds else 'does not hold'} {self.phrases.value(right)}"

    def _one_of(self, node: Member, *, holds: bool) -> str:
        subject = self.phrases.value(node.item)
        named = [each for each in node.options if self._sort(each) is not Sort.EMPTY]
        listed = listing([self.phrases.value(each) for each in named], "or" if holds else "nor")
        if self._sort(node.item) is not Sort.CONTENT:
            return f"{subject} is {listed}" if holds else f"{subject} is {_neither(listed, named)}"
        verb = f"holds {listed}" if holds else f"holds {_neither(listed, named)}"
        if len(named) == len(node.options):
            return f"{subject} {verb}"
        first = "is empty or" if holds else "is not empty and"
        return f"{subject} {first} {verb}" if named else f"{subject} {first.rpartition(' ')[0]}"

    def _sort(self, node: Expression) -> Sort | None:
        entry = self.vocabulary.names.get(node.name) if isinstance(node, Name) else None
        return entry.type.sort if entry else None


def _neither(listed: str, options: list[Expression]) -> str:
    return f"neither {listed}" if len(options) > 1 else f"something other than {listed}"


def _literal_last(node: Compare) -> Compare:
    """Return the comparison with the value that is written out on the right."""
    if isinstance(node.left, Number | Amount | Text | Truth):
        return _mirror(node)
    return node


def _mirror(node: Compare) -> Compare:
    return Compare(node.right, _MIRRORED[node.op], node.left, node.span)


def _form(words: Words, node: Compare) -> str:
    alone = isinstance(node.right, Number) and node.right.value == 1
    return words.one if alone else words.many
