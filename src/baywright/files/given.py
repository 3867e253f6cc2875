"""Supposing a value for an unknown fact before a book is read."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from baywright.facts.fact import Scalar
from baywright.facts.readers import shown
from baywright.files.tree import Node
from baywright.problems import Problem, suggestion


def put_given(root: dict[Scalar, Node], given: Mapping[str, str]) -> list[Problem]:
    """Replace unknown facts in a tree by values they could have; they read as assumed.

    Args:
        root: the tree of a book; it is changed.
        given: values as written in the book, by dotted path of the fact.

    Returns:
        A problem for each path that is no unknown fact, or value that it could not have.
    """
    unknown = dict(_unknown(root)) if given else {}
    problems = []
    for path, wanted in given.items():
        if path not in unknown:
            message = f"{path!r} is not an unknown fact of this book."
            problems.append(Problem("not-unknown", message, None, suggestion(path, unknown)))
            continue
        problems += _put(unknown[path], path, wanted)
    return problems


def _put(fact: dict[Scalar, Node], path: str, wanted: str) -> list[Problem]:
    key = next(key for key in fact if key in ("could_be", "told"))
    ways = list(_ways(fact[key]))
    chosen = next((way for way in ways if way[0].strip() == wanted.strip()), None)
    if chosen is None:
        hint = f"It could be {' or '.join(value for value, _ in ways)}."
        return [Problem("not-possible", f"{path!r} cannot be {shown(wanted)}.", key.mark, hint)]
    value, source = chosen
    del fact[key]
    for old in [old for old in fact if old == "status"]:
        del fact[old]
    fact.update(source)
    fact[Scalar("value", key.mark, key.path)] = Scalar(value, value.mark, f"{path}.value")
    fact[Scalar("status", key.mark)] = Scalar("assumed", key.mark, f"{path}.status")
    return []


def _ways(listed: Node) -> Iterator[tuple[Scalar, dict[Scalar, Node]]]:
    """Yield each value that a fact could have, with the source and date of the one told."""
    for entry in listed if isinstance(listed, list) else []:
        if isinstance(entry, Scalar):
            yield entry, {}
        elif isinstance(entry, dict):
            beside = {key: value for key, value in entry.items() if key != "value"}
            value = next((value for key, value in entry.items() if key == "value"), None)
            if isinstance(value, Scalar):
                yield value, beside


def _unknown(root: Node) -> Iterator[tuple[str, dict[Scalar, Node]]]:
    waiting: list[Node] = [root]
    while waiting:
        node = waiting.pop()
        if isinstance(node, dict):
            for key, value in node.items():
                if key in ("could_be", "told") and isinstance(value, list):
                    yield key.path.removesuffix(f".{key}"), node
            waiting += node.values()
        elif isinstance(node, list):
            waiting += node
