"""What is wrong with text that is not YAML, in words for people who do not know YAML."""

from __future__ import annotations

import yaml

from baywright.problems import Mark, Problem

# Each row: words the parser says, what that means, what to do next. The first that fits is used.
_MEANINGS: tuple[tuple[str, str, str], ...] = (
    (
        "mapping values are not allowed",
        "A colon stands where none can.",
        "Put a text that holds a colon in quotes, and check the indentation of this line.",
    ),
    (
        "cannot start any token",
        "A text cannot start with this character.",
        "Put the text in quotes.",
    ),
    (
        "while scanning a quoted scalar",
        "A quote is opened here and never closed.",
        "Close it on the line where the text ends.",
    ),
    (
        "escape",
        "A backslash inside double quotes is followed by something without a meaning.",
        "Use single quotes, or double the backslash.",
    ),
    (
        "could not find expected ':'",
        "A key without its colon.",
        "Write 'key: value', with a space after the colon.",
    ),
    ("nesting", "Brackets are far too deep here.", "Close brackets, or indent less."),
    (
        "while parsing a flow",
        "A bracket or brace is not closed, or a comma is missing.",
        "Close it, and put a comma between the values.",
    ),
    (
        "block sequence entries are not allowed",
        "A list cannot start here.",
        "Start it on the next line, each value after a hyphen and a space.",
    ),
    (
        "while parsing a block",
        "This line does not fit the lines above it.",
        "Start it in the same column as its neighbours, and close what is open above it.",
    ),
    ("undefined tag handle", "A word starts with an exclamation mark.", "Put it in quotes."),
    ("alias", "An asterisk starts a word here.", "Put the text in quotes."),
    ("anchor", "An ampersand starts a word here.", "Put the text in quotes."),
    ("directive", "A line starts with a per cent sign.", "Put the text in quotes."),
)
_OTHERWISE = ("This cannot be read as YAML.", "Compare the line with one that is right.")


def explain(error: yaml.YAMLError, file: str) -> Problem:
    """Return what a YAML parser found as a problem, with its place and what to do next."""
    said = " ".join(str(error).split())
    for words, message, hint in _MEANINGS:
        if words in said:
            return Problem("yaml", message, _mark(error, file, words), hint)
    message, hint = _OTHERWISE
    return Problem("yaml", message, _mark(error, file, ""), hint)


def _mark(error: yaml.YAMLError, file: str, words: str) -> Mark:
    start = getattr(error, "problem_mark", None)
    context = getattr(error, "context_mark", None)
    if start is None or (context is not None and words in str(getattr(error, "context", ""))):
        # An opening quote or bracket tells more than the place where the parser gave up.
        start = context if context is not None and "block" not in words else start
    return Mark(file, start.line + 1, start.column + 1) if start else Mark(file, 1, 1)
