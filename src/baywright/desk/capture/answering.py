"""Answers of a question list: read one by one or from a file, checked, and kept between times."""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterator
from pathlib import Path as File
from typing import Any

from baywright.desk.capture.cells import NotUnderstoodError, Style, content
from baywright.desk.capture.questions import (
    MORE,
    UNKNOWN,
    Answers,
    Path,
    Question,
    every_question,
    listed,
)
from baywright.desk.capture.targets import Leaf
from baywright.facts.fact import Scalar
from baywright.files.books import label_of
from baywright.files.disk import read_bytes
from baywright.files.tree import Node, read_tree
from baywright.problems import Problem, Problems, suggestion

_STYLE = Style("point")
_ID = re.compile(r"[^\s/,:#'\"{}\[\]&*!|>%@]+")


def checked(question: Question, text: str) -> Any:  # noqa: ANN401 - as a book writes it
    """Return an answer as a book writes it: a text, a list or a mapping; ``None`` for unknown.

    Args:
        question: the question.
        text: the answer as typed.

    Raises:
        NotUnderstoodError: what is wrong with it, and what to do.
    """
    text = text.strip()
    if text == UNKNOWN and question.shape not in ("ids", "number", "more"):
        return None
    match question.shape:
        case "ids":
            return _ids(text, needed=question.needed)
        case "number":
            return _number(text)
        case "more":
            return _words(text, question.choices)
        case "list":
            return [_value(question, each) for each in listed(text)]
        case "pairs":
            return dict(_pair(question, each) for each in listed(text))
    if not text:
        raise NotUnderstoodError("Nothing was said. Say unknown where nobody knows.")
    return _value(question, text)


def _ids(text: str, *, needed: bool) -> list[str]:
    found = listed(text)
    for each in found:
        if not _ID.fullmatch(each):
            raise NotUnderstoodError(f"{each!r} is no id. An id is one word of letters and digits.")
    if needed and not found:
        raise NotUnderstoodError("One id is needed at least.")
    if len(set(found)) < len(found):
        raise NotUnderstoodError("Every id stands for one thing.")
    return found


def _number(text: str) -> str:
    if not (text.isascii() and text.isdigit() and int(text) <= 100):
        raise NotUnderstoodError("A number from 0 to 100 is wanted.")
    return text


def _words(text: str, known: tuple[str, ...]) -> list[str]:
    for word in listed(text):
        if word not in known:
            raise NotUnderstoodError(f"{word!r} is none of them. {suggestion(word, known)}".strip())
    return listed(text)


def _value(question: Question, text: str) -> Any:  # noqa: ANN401 - as a book writes it
    if question.choices and text not in question.choices:
        hint = suggestion(text, question.choices, most=20)
        raise NotUnderstoodError(f"{text!r} is none of the words wanted. {hint}".strip())
    return content(text, Leaf(question.path, question.annotation), "", _STYLE)


def _pair(question: Question, text: str) -> tuple[str, Any]:
    key, sign, value = text.partition(":")
    if not sign:
        raise NotUnderstoodError(f"{text!r} is no pair. Write an id, a colon and a value.")
    return key.strip(), _value(question, value.strip())


def tree_of(answers: Answers) -> tuple[dict[str, Any], list[Question]]:
    """Return the tree of a book, and the questions whose answer is unknown.

    Args:
        answers: answers that have been checked; those that no question leads to are left out.
    """
    root: dict[str, Any] = {}
    unknown: list[Question] = []
    for question in every_question(answers):
        if question.path not in answers or question.shape == MORE:
            continue
        value = checked(question, answers[question.path])
        if question.shape in ("ids", "number"):
            _place(root, question.path, {} if question.shape == "ids" else [])
        elif value is None:
            unknown.append(question)
        else:
            _place(root, question.path, value)
    return root, unknown


def _place(root: dict[str, Any], path: Path, value: Any) -> None:  # noqa: ANN401
    holder: Any = root
    for step, following in itertools.pairwise(path):
        holder = _step(holder, step, following)
    if isinstance(holder, list):
        holder.append(value)
    else:
        holder[path[-1]] = value


def _step(holder: Any, step: str, following: str) -> Any:  # noqa: ANN401 - a mapping or a list
    if isinstance(holder, list):
        while len(holder) <= int(step):
            holder.append({})
        return holder[int(step)]
    return holder.setdefault(step, [] if following.isdigit() and step not in holder else {})


def read_answers(path: File) -> Answers:
    """Read answers from a file that has the shape of a book; ``unknown`` may stand for a value.

    Raises:
        Problems: for what is no answer, each with its line.
    """
    file = label_of(path)
    tree = read_tree(read_bytes(path, file), file)
    if tree.problems:
        raise Problems(tree.problems)
    answers: Answers = {}
    marks: dict[Path, Scalar] = {}
    root = tree.root if isinstance(tree.root, dict) else {}
    _flatten(root, answers, marks)
    wrong = list(_wrong(answers, marks, root))
    if wrong:
        raise Problems(wrong)
    return answers


def _flatten(root: dict[Scalar, Node], answers: Answers, marks: dict[Path, Scalar]) -> None:
    """Answer each question that the tree of a file leads to, until none is new."""
    while True:
        new = [each for each in every_question(answers) if each.path not in answers]
        found = 0
        for question in new:
            node = _node(root, question)
            if node is None:
                continue
            answers[question.path], found = _text(node, question), found + 1
            key = _key(root, question.path)
            if key is not None:
                marks[question.path] = key
        if not found:
            return


def _node(root: Node, question: Question) -> Node | None:
    """Return what a file says to a question; to what else there is, the fields it gives."""
    path = question.path[:-1] if question.shape == MORE else question.path
    node: Node | None = root
    for step in path:
        if isinstance(node, dict):
            node = node.get(Scalar(step))
        elif isinstance(node, list) and step.isdigit() and int(step) < len(node):
            node = node[int(step)]
        else:
            return None
    return node


def _text(node: Node, question: Question) -> str:
    """Return what a file says as one would type it."""
    if question.shape == MORE:
        return ", ".join(key for key in node if key in question.choices) if node else ""
    if isinstance(node, list):
        return str(len(node)) if question.shape == "number" else ", ".join(map(_said, node))
    if not isinstance(node, dict):
        return str(node)
    if question.shape == "ids":
        return ", ".join(node)
    if question.shape == "pairs":
        return ", ".join(f"{key}: {_said(value)}" for key, value in node.items())
    return _said(node)


def _said(node: Node) -> str:
    """Return a value as one would type it: an unknown one with what it could be."""
    if isinstance(node, dict):
        could_be = node.get(Scalar("could_be"))
        if isinstance(could_be, list):
            return f"{UNKNOWN}: {' or '.join(map(str, could_be))}"
        return str(node.get(Scalar("value"), ""))
    return str(node)


def _key(root: Node, path: Path) -> Scalar | None:
    """Return the key of a path in a file, which knows its line."""
    node: Node = root
    key: Scalar | None = None
    for step in path:
        if isinstance(node, dict):
            key = next((each for each in node if each == step), key)
            node = node.get(Scalar(step), {})
        elif isinstance(node, list) and step.isdigit() and int(step) < len(node):
            node = node[int(step)]
    return key


def _wrong(answers: Answers, marks: dict[Path, Scalar], root: Node) -> Iterator[Problem]:
    known = {question.path: question for question in every_question(answers)}
    for path, question in known.items():
        if path in answers:
            more = _beside_value(_node(root, question)) if question.shape == "value" else ""
            if more:
                message = f"{'.'.join(path)}: an answer is a value or could_be, without {more}."
                hint = f"Add {more} to the book once it is written."
                yield Problem("no-answer", message, marks[path].mark, hint)
                continue
            try:
                checked(question, answers[path])
            except NotUnderstoodError as error:
                mark = marks[path].mark if path in marks else None
                yield Problem("no-answer", f"{'.'.join(path)}: {error.why}", mark)
    for path, key in _keys(root, ()):
        asked = any(each[: len(path)] == path for each in known)
        value = any(path[:cut] in known for cut in range(1, len(path)))
        if not asked and not (value and _is_inside(path, known)):
            hint = suggestion(
                path[-1], {each[len(path) - 1] for each in known if _beside(each, path)}
            )
            yield Problem("unknown-key", f"Nothing asks for {'.'.join(path)}.", key.mark, hint)


def _beside_value(node: Node | None) -> str:
    """Return a key of a fact that is neither its value nor what it could be, or nothing."""
    keys = list(node) if isinstance(node, dict) else []
    return next((str(key) for key in keys if key not in ("value", "could_be")), "")


def _is_inside(path: Path, known: dict[Path, Question]) -> bool:
    """Say whether a key stands inside a value, such as what an unknown one could be."""
    return any(
        path[:cut] in known and known[path[:cut]].shape in ("value", "list", "pairs")
        for cut in range(1, len(path))
    )


def _beside(each: Path, path: Path) -> bool:
    return len(each) >= len(path) and each[: len(path) - 1] == path[:-1]


def _keys(node: Node, path: Path) -> Iterator[tuple[Path, Scalar]]:
    if isinstance(node, dict):
        for key, value in node.items():
            yield (*path, str(key)), key
            yield from _keys(value, (*path, str(key)))
    elif isinstance(node, list):
        for at, value in enumerate(node):
            yield from _keys(value, (*path, str(at)))
