"""What cannot be written in an expression, and what to write instead."""

from __future__ import annotations

REFUSED_OPERATORS = {
    "**": "Powers are not part of an expression.",
    "//": "Division is not part of an expression; multiply the other side instead.",
    ":=": "Nothing can be assigned here; compare with '=='.",
}
REFUSED_CHARACTERS = {
    ".": "A point stands only between the digits of a number, such as 0.5; nothing has attributes.",
    "[": "Use parentheses for a list of values; nothing has elements.",
    "{": "Use parentheses for a list of values.",
    ":": "Write 'implies(a, b)' for a condition.",
    "/": "Division is not part of an expression; multiply the other side instead.",
    "%": "A percent sign stands only after a number, such as '90 %'.",
    "&": "Write 'and'.",
    "|": "Write 'or'.",
    "!": "Write 'not', or '!=' between two values.",
    '"': "Close the text with the quote that opened it, on the same line.",
    "'": "Close the text with the quote that opened it, on the same line.",
    "“": "Use straight quotes.",
    "”": "Use straight quotes.",
    "‘": "Use straight quotes.",
    "’": "Use straight quotes.",
}
REFUSED_WORDS = {
    "if": "Write 'implies(a, b)' for a condition.",
    "else": "Write 'implies(a, b)' for a condition.",
    "is": "Write '=='.",
    "None": "Write 'empty' for a place with nothing in it.",
}
