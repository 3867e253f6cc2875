"""The space: the compiled choices of a book, and the plain evaluator that re-checks a build.

Three kinds of thing and no more: choices, tables and sums. Nothing else enters an engine.
"""

from baywright.space.evaluator import broken, holds
from baywright.space.model import (
    Assignment,
    Choice,
    Kind,
    Law,
    Origin,
    Space,
    Sum,
    Table,
)

__all__ = [
    "Assignment",
    "Choice",
    "Kind",
    "Law",
    "Origin",
    "Space",
    "Sum",
    "Table",
    "broken",
    "holds",
]
