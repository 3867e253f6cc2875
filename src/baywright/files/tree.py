"""YAML text to a tree in which every key and value is a text that knows its place.

The tree is built from parser events, one at a time and without recursion, so a hostile file meets
a limit before it costs anything. Nothing is guessed: ``no``, ``1e3`` and ``12:30`` stay texts.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any, TypeAlias

import yaml

from baywright.facts.fact import Scalar
from baywright.facts.readers import shown
from baywright.files.syntax import explain
from baywright.problems import Mark, Problem, Problems, problem

MOST_NODES = 100_000
MOST_LEVELS = 40

Node: TypeAlias = "Scalar | dict[Scalar, Node] | list[Node]"

_LOADER: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
_STRANGE = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u2028\u2029\u202a-\u202e\u2066-\u2069\ufeff\ufffe\uffff"
    "\ud800-\udfff]"
)
_STRANGE_TEXT = re.compile(rf"{_STRANGE.pattern}|\t|\r(?!\n)")
_QUOTES = ("'", '"')
_NOTHING = frozenset({"", "~", "null", "Null", "NULL"})


@dataclass(frozen=True, slots=True)
class Tree:
    """What a YAML file holds.

    Args:
        root: the outermost value.
        problems: what is wrong with single values; the rest of the tree can still be checked.
    """

    root: Node
    problems: tuple[Problem, ...]


def read_tree(data: bytes, file: str) -> Tree:
    """Read one YAML document.

    Args:
        data: the bytes of the file, in UTF-8.
        file: name of the file in problems.

    Raises:
        Problems: kinds ``not-text``, ``strange-character``, ``tab``, ``yaml``, ``empty-file``,
            ``several-documents``, ``complex-key``, ``too-deep`` and ``too-many-values``: what
            leaves no tree to go on with.
    """
    text = decode(data, file)
    builder = _Builder(file)
    for event in _events(text, file):
        builder.take(event)
    if builder.root is None:
        hint = "Write a section, or delete the file."
        raise problem("empty-file", "There is nothing in this file.", Mark(file, 1, 1), hint)
    return Tree(builder.root, tuple(builder.problems))


def decode(data: bytes, file: str) -> str:
    """Turn bytes into text and refuse characters that nobody can see.

    Raises:
        Problems: kinds ``not-text``, ``strange-character`` and ``tab``.
    """
    try:
        text = data.decode("utf-8")
    except UnicodeDecodeError as error:
        mark = _mark_at(data[: error.start].decode("utf-8"), file)
        raise problem("not-text", "This is not UTF-8 text.", mark, "Save it as UTF-8.") from error
    strange = _STRANGE_TEXT.search(text)
    if strange:
        raise _strange(strange[0], _mark_at(text[: strange.start()], file))
    return text


def _mark_at(before: str, file: str) -> Mark:
    return Mark(file, before.count("\n") + 1, len(before) - before.rfind("\n"))


def _strange(character: str, mark: Mark) -> Problems:
    if character == "\t":
        return problem("tab", "There is a tab here.", mark, "Use spaces instead of tabs.")
    message = f"There is a character here that cannot be seen, U+{ord(character):04X}."
    hint = "Delete it, or save the file as plain UTF-8."
    return problem("strange-character", message, mark, hint)


def _events(text: str, file: str) -> Iterator[yaml.Event]:
    try:
        yield from yaml.parse(text, Loader=_LOADER)
    except yaml.YAMLError as error:
        raise Problems([explain(error, file)]) from error
    except (ValueError, OverflowError) as error:  # an escape too large for the parser in Python
        hint = "Write the characters themselves."
        raise problem("yaml", "An escape is wrong.", Mark(file, 1, 1), hint) from error


@dataclass(slots=True)
class _Frame:
    """A mapping or list that is still open."""

    node: dict[Scalar, Node] | list[Node]
    path: str
    key: Scalar | None = None
    keys: dict[str, Scalar] = field(default_factory=dict)

    def inner_path(self) -> str:
        last = str(len(self.node)) if isinstance(self.node, list) else (self.key or "")
        return f"{self.path}.{last}" if self.path else last

    def wants_key(self) -> bool:
        return isinstance(self.node, dict) and self.key is None

    def add(self, node: Node) -> None:
        if isinstance(self.node, list):
            self.node.append(node)
        elif self.key is not None:
            self.node[self.key] = node
            self.key = None


class _Builder:
    """Takes parser events and builds the tree."""

    def __init__(self, file: str) -> None:
        self.file = file
        self.root: Node | None = None
        self.problems: list[Problem] = []
        self._open: list[_Frame] = []
        self._nodes = 0

    def take(self, event: yaml.Event) -> None:
        """Take the next event."""
        if isinstance(event, yaml.NodeEvent):
            self._count(event)
            self._check_node(event)
        if isinstance(event, yaml.ScalarEvent):
            self._scalar(event, event.value)
        elif isinstance(event, yaml.AliasEvent):
            self._scalar(event, "")
        elif isinstance(event, yaml.CollectionStartEvent):
            self._start(event)
        elif isinstance(event, yaml.CollectionEndEvent):
            self._open.pop()
        elif isinstance(event, yaml.DocumentStartEvent) and self.root is not None:
            hint = "Put it into a file of its own."
            message = "A second document starts here."
            raise problem("several-documents", message, self._mark(event), hint)

    def _mark(self, event: yaml.Event) -> Mark:
        start = event.start_mark
        return Mark(self.file, start.line + 1, start.column + 1) if start else Mark(self.file, 1, 1)

    def _complain(self, kind: str, message: str, event: yaml.Event, hint: str) -> None:
        self.problems.append(Problem(kind, message, self._mark(event), hint))

    def _count(self, event: yaml.Event) -> None:
        self._nodes += 1
        if self._nodes > MOST_NODES:
            message = f"The file holds more than {MOST_NODES:,} values."
            hint = "Spread them over several files."
            raise problem("too-many-values", message, self._mark(event), hint)

    def _check_node(self, event: yaml.NodeEvent) -> None:
        if isinstance(event, yaml.AliasEvent) or event.anchor is not None:
            message = "Anchors and aliases are not taken here."
            self._complain("anchor", message, event, "Write the value out.")
        if getattr(event, "tag", None) is not None:
            hint = "Delete the word that starts with an exclamation mark."
            self._complain("tag", "Tags are not taken here.", event, hint)

    def _start(self, event: yaml.CollectionStartEvent) -> None:
        node: dict[Scalar, Node] | list[Node] = {}
        if isinstance(event, yaml.SequenceStartEvent):
            node = []
        if len(self._open) >= MOST_LEVELS:
            message = f"Values are more than {MOST_LEVELS} levels deep here."
            raise problem("too-deep", message, self._mark(event), "Close brackets, or indent less.")
        path = self._open[-1].inner_path() if self._open else ""
        self._place(node, event)
        self._open.append(_Frame(node, path))

    def _scalar(self, event: yaml.Event, value: str) -> None:
        frame = self._open[-1] if self._open else None
        self._check_text(event, value)
        if frame is not None and frame.wants_key():
            self._key(frame, event, value)
            return
        path = frame.inner_path() if frame else ""
        mark = self._mark(event)
        if getattr(event, "style", None) in _QUOTES:  # the text starts after its quote
            mark = Mark(mark.file, mark.line, mark.column + 1)
        self._place(Scalar(value, mark, path), event)

    def _key(self, frame: _Frame, event: yaml.Event, value: str) -> None:
        first = frame.keys.get(value)
        frame.key = Scalar(value, self._mark(event))
        frame.key.path = frame.inner_path()
        if first is None:
            frame.keys[value] = frame.key
            return
        message = f"{shown(value)} is given twice, first at {first.mark}."
        self._complain("given-twice", message, event, "Keep one of the two.")

    def _check_text(self, event: yaml.Event, value: str) -> None:
        plain = getattr(event, "style", None) in (None, "")
        if isinstance(event, yaml.ScalarEvent) and value.strip() in (_NOTHING if plain else {""}):
            hint = "Write a value, or delete the line."
            self._complain("no-value", "Nothing is given here.", event, hint)
        strange = _STRANGE.search(value)
        if strange:
            raise _strange(strange[0], self._mark(event))

    def _place(self, node: Node, event: yaml.Event) -> None:
        if not self._open:
            self.root = node
        elif self._open[-1].wants_key():
            message = "A key cannot be a list or mapping."
            hint = "A key is one word or text, followed by a colon; quote a text with brackets."
            raise problem("complex-key", message, self._mark(event), hint)
        else:
            self._open[-1].add(node)
