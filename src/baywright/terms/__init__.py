"""The expression language of rules, needs and questions.

``parse`` reads a text, ``check`` gives it types against a vocabulary, ``evaluate`` gives its value,
``wording`` says it in English and ``text`` writes it back. Nothing is evaluated by Python.
"""

from baywright.terms.calls import Arguments, arrange
from baywright.terms.checking import Checked, check
from baywright.terms.evaluate import Environment, Fields, Value, evaluate, holds
from baywright.terms.parse import parse
from baywright.terms.printing import text
from baywright.terms.simplify import conjunction, conjuncts, negation_normal, opposite
from baywright.terms.syntax import Expression, children, walk
from baywright.terms.vocabulary import FunctionEntry, Parameter, Role, Type, Vocabulary
from baywright.terms.wording import wording

__all__ = [
    "Arguments",
    "Checked",
    "Environment",
    "Expression",
    "Fields",
    "FunctionEntry",
    "Parameter",
    "Role",
    "Type",
    "Value",
    "Vocabulary",
    "arrange",
    "check",
    "children",
    "conjunction",
    "conjuncts",
    "evaluate",
    "holds",
    "negation_normal",
    "opposite",
    "parse",
    "text",
    "walk",
    "wording",
]
