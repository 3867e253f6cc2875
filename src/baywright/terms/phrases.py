"""Words for values, parts, places and filters: the phrases that clauses are made of."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from baywright.terms.call_checking import kind_of, word_of
from baywright.terms.calls import Arguments, arrange
from baywright.terms.printing import text
from baywright.terms.scope import functions_of
from baywright.terms.simplify import opposite
from baywright.terms.syntax import (
    Amount,
    And,
    Arithmetic,
    Call,
    Compare,
    Comparison,
    Expression,
    Member,
    Name,
    Negative,
    Not,
    Number,
    Or,
    Text,
)
from baywright.terms.vocabulary import (
    FieldEntry,
    FunctionEntry,
    Parameter,
    Role,
    Sort,
    Vocabulary,
    Words,
)
from baywright.units import number

RELATION: Mapping[Comparison, str] = {
    "==": "exactly",
    "!=": "other than",
    "<": "less than",
    "<=": "at most",
    ">": "more than",
    ">=": "at least",
}
_CALCULATED = {"+": "plus", "-": "minus", "*": "times"}


@dataclass(frozen=True, slots=True)
class Phrases:
    """Turns the parts of an expression into words of a vocabulary."""

    vocabulary: Vocabulary

    def value(self, node: Expression) -> str:
        """Return a noun phrase for a value."""
        match node:
            case Name(name):
                entry = self.vocabulary.names.get(name)
                return entry.words.one if entry and entry.words else name
            case Number(value):
                return number(value)
            case Amount(quantity):
                return f"{number(quantity.magnitude)} {quantity.unit}"
            case Text(content):
                return content
            case Negative(term):
                return f"minus {self._operand(term)}"
            case Arithmetic(op, left, right):
                return f"{self._operand(left)} {_CALCULATED[op]} {self._operand(right)}"
            case Call():
                counted = self.countable(node)
                return f"the number of {counted.many}" if counted else self.call(node)
            case _:
                return text(node)

    def countable(self, node: Expression) -> Words | None:
        """Return singular and plural of what a call counts, or ``None`` when it counts nothing."""
        entry = self.entry(node)
        if not isinstance(node, Call) or entry is None or not entry.words or not entry.words.many:
            return None
        one = self._filled(node, entry, entry.words.one, many=False)
        return Words(one, self._filled(node, entry, entry.words.many, many=True))

    def call(self, node: Call) -> str:
        """Return the sentence template of a function with its arguments filled in."""
        entry = self.entry(node)
        if entry is None or entry.words is None:
            return text(node)
        return self._filled(node, entry, entry.words.one, many=True)

    def entry(self, node: Expression) -> FunctionEntry | None:
        """Return the entry of the function that a node calls."""
        return functions_of(self.vocabulary).get(node.name) if isinstance(node, Call) else None

    def _operand(self, node: Expression) -> str:
        return f"({self.value(node)})" if isinstance(node, Arithmetic) else self.value(node)

    def _filled(self, call: Call, entry: FunctionEntry, template: str, *, many: bool) -> str:
        arguments = arrange(call, entry)
        kind = kind_of(call, entry, self.vocabulary)
        fields = kind.fields if kind else {}
        adjectives = [each for each in arguments.filters if _adjective(each, fields)]
        with_fields = [each for each in arguments.filters if each not in adjectives]
        parts = [_adjective(each, fields) for each in adjectives]
        parts.append(self._parts(arguments, entry, many=many))
        listed = {each.name: "" for each in entry.keywords} | {
            each.name: self._argument(each, arguments, fields) for each in entry.parameters
        }
        if "at" in arguments.given:
            listed["at"] = f" in {self._place(arguments.given['at'])}"
        conditions = " and ".join(self._filter(each, fields) for each in with_fields)
        listed["filters"] = f" with {conditions}" if conditions else ""
        return template.format_map({**listed, "parts": " ".join(parts)})

    def _argument(
        self, parameter: Parameter, arguments: Arguments, fields: Mapping[str, FieldEntry]
    ) -> str:
        given = arguments.given.get(parameter.name)
        if given is None:
            return ""
        if parameter.role is Role.FIELD:
            return _field(word_of(given) or "", fields)
        return listing([self.value(each) for each in (given, *arguments.repeated)], "and")

    def _parts(self, arguments: Arguments, entry: FunctionEntry, *, many: bool) -> str:
        """Return the noun of the parts a call is about: of their kind, or the id of the part."""
        selections = [each.name for each in entry.parameters if each.role is Role.SELECTION]
        selected = arguments.given.get(selections[0]) if selections else None
        word = (word_of(selected) if selected else None) or entry.kind
        kind = self.vocabulary.kinds.get(word)
        if kind is None or word in self.vocabulary.parts:
            return word
        noun = kind.words or Words(word, f"{word}s")
        return noun.many if many else noun.one

    def _place(self, node: Expression) -> str:
        word = word_of(node) or text(node)
        noun = self.vocabulary.places.get(word)
        return noun.one if noun else word

    def _filter(self, node: Expression, fields: Mapping[str, FieldEntry]) -> str:
        match node:
            case Compare(Name(name), op, right):
                relation = "" if op == "==" else f" {RELATION[op]}"
                return f"{_field(name, fields)}{relation} {self.value(right)}"
            case Member(Name(name), options):
                return f"{_field(name, fields)} {self._options(options)}"
            case Not(Member(Name(name), options)):
                return f"{_field(name, fields)} other than {self._options(options)}"
            case And(terms):
                return "both " + " and ".join(self._filter(term, fields) for term in terms)
            case Or(terms):
                return "either " + " or ".join(self._filter(term, fields) for term in terms)
            case Not(Compare() | And() | Or() | Not() as term):
                return self._filter(opposite(term), fields)
            case _:
                return _adjective(node, fields) or text(node)

    def _options(self, options: Iterable[Expression]) -> str:
        return listing([self.value(option) for option in options], "or")


def listing(words: list[str], joint: str) -> str:
    """Return words as a list in a sentence, such as ``a, b or c``."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {joint} {words[-1]}"


def _field(name: str, fields: Mapping[str, FieldEntry]) -> str:
    entry = fields.get(name)
    return entry.words.one if entry and entry.words else name.replace("_", " ")


def _adjective(node: Expression, fields: Mapping[str, FieldEntry]) -> str:
    """Return the word for a truth of a part, or nothing when the node is no such truth."""
    match node:
        case Name(name) if name in fields and fields[name].type.sort is Sort.TRUTH:
            return _field(name, fields)
        case Not(Name(name)) if name in fields:
            words = fields[name].words
            return words.many if words and words.many else f"not {_field(name, fields)}"
        case _:
            return ""
