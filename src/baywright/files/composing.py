"""Composing YAML of a new book: sections with what they are about, entries a person can extend."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

_PLAIN = re.compile(r"[\w/+(<≤≥.][^\n\t]*", re.ASCII)
_WIDTH = 96


@dataclass(frozen=True, slots=True)
class Remarks:
    """What stands beside values, for readers.

    Args:
        above: lines above a section, by its name.
        beside: a remark behind a value, by the path of it.
        left_out: lines at the end of an entry for what it leaves out, by the path of the entry.
    """

    above: Mapping[str, str] = field(default_factory=dict)
    beside: Mapping[tuple[str, ...], str] = field(default_factory=dict)
    left_out: Mapping[tuple[str, ...], tuple[str, ...]] = field(default_factory=dict)


def composed(sections: Mapping[str, Any], remarks: Remarks) -> str:
    """Return sections as YAML.

    Args:
        sections: texts, lists and mappings of them, by the name of each section.
        remarks: what stands beside them.
    """
    blocks = []
    for name, content in sections.items():
        above = [f"# {remarks.above[name]}"] if name in remarks.above else []
        blocks.append("\n".join([*above, *_entry(name, content, (name,), 0, remarks)]))
    return "\n\n".join(blocks) + "\n"


def _entry(
    key: str,
    content: Any,  # noqa: ANN401 - a text, a list or a mapping
    path: tuple[str, ...],
    depth: int,
    remarks: Remarks,
) -> Iterator[str]:
    indent = "  " * depth
    open_ends = any(each[: len(path)] == path for each in (*remarks.left_out, *remarks.beside))
    line = f"{indent}{_scalar(key)}: {_flow(content)}"
    if not isinstance(content, dict | list) or (
        depth and not open_ends and len(line) <= _WIDTH and (depth > 1 or _is_flat(content))
    ):
        beside = remarks.beside.get(path, "")
        yield f"{line}{f'  # {beside}' if beside else ''}"
        return
    yield f"{indent}{_scalar(key)}:"
    if isinstance(content, dict):
        for inner, value in content.items():
            yield from _entry(inner, value, (*path, inner), depth + 1, remarks)
    else:
        yield from (f"{indent}  - {_flow(each)}" for each in content)
    yield from (f"{indent}  # {line}" for line in remarks.left_out.get(path, ()))


def _is_flat(content: Any) -> bool:  # noqa: ANN401 - a mapping or a list
    inner: Iterable[Any] = content.values() if isinstance(content, dict) else content
    return all(not isinstance(each, dict) for each in inner)


def _flow(content: Any) -> str:  # noqa: ANN401 - a text, a list or a mapping
    """Return a value in one line."""
    if isinstance(content, dict):
        return "{" + ", ".join(f"{_inner(k)}: {_flow_inner(v)}" for k, v in content.items()) + "}"
    if isinstance(content, list):
        return "[" + ", ".join(map(_flow_inner, content)) + "]"
    return _scalar(str(content))


def _flow_inner(content: Any) -> str:  # noqa: ANN401 - a text, a list or a mapping
    return _flow(content) if isinstance(content, dict | list) else _inner(str(content))


def _inner(text: str) -> str:
    """Return a text inside braces, where commas and brackets mean something."""
    return json.dumps(text, ensure_ascii=False) if re.search(r"[,\[\]{}]", text) else _scalar(text)


def _scalar(text: str) -> str:
    """Return a text, in quotes where YAML would read it as something else."""
    odd = ": " in text or " #" in text or text.endswith((":", " ")) or not _PLAIN.fullmatch(text)
    return json.dumps(text, ensure_ascii=False) if odd else text
