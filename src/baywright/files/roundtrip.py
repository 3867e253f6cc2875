"""YAML text changed in one place, with the comments and the layout of the rest kept."""

from __future__ import annotations

import io
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from typing import Any, cast

from ruamel.yaml import YAML
from ruamel.yaml.comments import CommentedMap, CommentedSeq
from ruamel.yaml.resolver import VersionedResolver
from ruamel.yaml.scalarstring import ScalarString

Steps = tuple[str | int, ...]
"""Keys and list positions from the top of a file to a value."""

# Indentation of mappings, of lists, and of the hyphen inside that of a list.
_LAYOUTS = ((2, 4, 2), (2, 2, 0), (4, 4, 2), (4, 6, 4), (4, 4, 0))
_NO_WRAPPING = 1_000_000
_SHORT = 100
"""Signs of new content that is written in one line, braces and all."""


class LayoutError(Exception):
    """The text has a layout that would not survive being written again."""


class _AllText(VersionedResolver):
    """Takes every plain scalar for a text, so that 8 and yes are written as they were read."""

    @property
    def versioned_resolver(self) -> dict[str | None, list[Any]]:
        """The patterns that make a plain scalar a number, a truth or a date: none."""
        return {}


def changed(text: str, steps: Steps, value: str) -> str:
    """Return YAML text in which one fact has another value.

    Args:
        text: the whole text.
        steps: where the fact stands; one that is unknown becomes known.
        value: the new value, as a person writes it, without quotes.

    Raises:
        LayoutError: when the rest could not be kept as it is.
    """
    plain = text.replace("\r\n", "\n")
    yaml = _writer_for(plain)
    root = yaml.load(plain)
    holder = root
    for step in steps[:-1]:
        holder = holder[step]
    _put(holder, steps[-1], value)
    result = _dump(yaml, root)
    if Counter(_comments(plain)) - Counter(_comments(result)):
        raise LayoutError
    return result.replace("\n", "\r\n") if plain != text else result


def noted(text: str, values: Mapping[Steps, tuple[str, str]], added: Mapping[Steps, Any]) -> str:
    """Return YAML text in which some facts have other values by a source, and some things are new.

    Args:
        text: the whole text; its layout is kept as far as possible.
        values: by where each fact stands, its value, and the id of the source or an empty text.
        added: by where each is to stand, texts, lists and mappings of them; the mappings around
            it are made where there are none.
    """
    yaml = _writer_or_standard(text)
    root = yaml.load(text) or CommentedMap()
    for steps, (value, source) in values.items():
        holder = root
        for step in steps[:-1]:
            holder = holder[step]
        _put(holder, steps[-1], value)
        if source:
            _cite(holder, steps[-1], source)
    for steps, content in added.items():
        holder = root
        for step in steps[:-1]:
            there = isinstance(holder, CommentedSeq) or step in holder
            holder = holder[step] if there else _new(holder, step)
        if isinstance(holder, CommentedSeq):
            holder.append(_styled(content))
        else:
            holder[steps[-1]] = _styled(content)
    return _dump(yaml, root)


def _new(holder: CommentedMap, step: str | int) -> CommentedMap:
    holder[step] = CommentedMap()
    return cast(CommentedMap, holder[step])


def _styled(content: Any) -> Any:  # noqa: ANN401 - texts, lists and mappings of them
    """Return new content as it is written: a line for what is short, lines for the rest."""
    if isinstance(content, dict):
        inner = {key: _styled(value) for key, value in content.items()}
        styled: Any = CommentedMap(inner)
    elif isinstance(content, list):
        styled = CommentedSeq(_styled(value) for value in content)
    else:
        return content
    if len(str(content)) <= _SHORT:
        styled.fa.set_flow_style()
    return styled


def loses_comments(old: str, new: str) -> bool:
    """Say whether a comment of a text is missing in what was made of it."""
    return bool(Counter(_comments(old.replace("\r\n", "\n"))) - Counter(_comments(new)))


def _cite(holder: Any, step: str | int, source: str) -> None:  # noqa: ANN401 - a map or a list
    """Give a fact its source; the date and the status of an older one go."""
    fact = holder[step]
    if not isinstance(fact, CommentedMap):
        fact = CommentedMap(value=fact)
        fact.fa.set_flow_style()
        holder[step] = fact
    fact["source"] = source
    for key in ("date", "status"):
        fact.pop(key, None)


def filled(text: str, values: Mapping[Steps, str | Sequence[str]]) -> str:
    """Return YAML text in which some values are others, new or gone, and all else is as it was.

    Args:
        text: the whole text.
        values: by where each stands, a text or the texts of a list; an empty one is taken out.

    Raises:
        LayoutError: when something else would be lost: a comment, or what stands where a mapping
            is needed.
    """
    plain = text.replace("\r\n", "\n")
    yaml = _writer_or_standard(plain)
    root = yaml.load(plain)
    root = CommentedMap() if root is None else root
    for steps, value in values.items():
        _fill(root, steps, value)
    result = _dump(yaml, root) if root else ""
    if Counter(_comments(plain)) - Counter(_comments(result)):
        raise LayoutError
    return result


def _fill(holder: Any, steps: Steps, value: str | Sequence[str]) -> None:  # noqa: ANN401
    """Put a value where it stands, with the mappings around it; take an empty one out of them."""
    if not isinstance(holder, CommentedMap):
        raise LayoutError
    step, *rest = steps
    if not rest:
        _set(holder, step, value)
        return
    if step not in holder:
        if not value:
            return
        holder[step] = CommentedMap()
    _fill(holder[step], tuple(rest), value)
    if not holder[step]:
        del holder[step]


def _set(holder: CommentedMap, step: str | int, value: str | Sequence[str]) -> None:
    old = holder.get(step)
    if not value:
        holder.pop(step, None)
    elif not isinstance(value, str):
        if old != list(value):
            holder[step] = CommentedSeq(value)
    elif step not in holder:
        holder[step] = value
    elif old != value:
        _put(holder, step, value)


def rewritten(text: str) -> str:
    """Return the same YAML text read and written again; its layout is kept as far as possible."""
    plain = text.replace("\r\n", "\n")
    yaml = _writer_or_standard(plain)
    return _dump(yaml, yaml.load(plain))


def _writer_for(text: str) -> YAML:
    """Return a writer that gives the text back unchanged."""
    for layout in _LAYOUTS:
        yaml = _writer(*layout)
        if _dump(yaml, yaml.load(text)) == text:
            return _writer(*layout)
    raise LayoutError


def _writer_or_standard(text: str) -> YAML:
    """Return a writer that gives the text back unchanged, or the standard one."""
    try:
        return _writer_for(text)
    except LayoutError:
        return _writer(*_LAYOUTS[0])


def _writer(mapping: int, sequence: int, offset: int) -> YAML:
    yaml = YAML()
    yaml.Resolver = _AllText
    yaml.preserve_quotes = True
    yaml.width = _NO_WRAPPING
    yaml.indent(mapping=mapping, sequence=sequence, offset=offset)
    return yaml


def _dump(yaml: YAML, root: Any) -> str:  # noqa: ANN401 - ruamel has no type for a document
    stream = io.StringIO()
    yaml.dump(root, stream)
    return stream.getvalue()


def _put(holder: Any, step: str | int, value: str) -> None:  # noqa: ANN401 - a map or a list
    old = holder[step]
    if not isinstance(old, CommentedMap):
        holder[step] = _like(old, value)
    elif "value" in old:
        old["value"] = _like(old["value"], value)
    else:
        _make_known(old, value)


def _like(old: object, value: str) -> str:
    """Quote a new value as the old one was."""
    if isinstance(old, ScalarString) and "\n" not in value:
        quoted: str = type(old)(value)
        return quoted
    return value


def _make_known(fact: CommentedMap, value: str) -> None:
    key = "could_be" if "could_be" in fact else "told"
    place = list(fact).index(key)
    comment = fact.ca.items.pop(key, None)
    del fact[key]
    fact.insert(place, "value", value)
    if comment is not None:
        fact.ca.items["value"] = comment


def _comments(text: str) -> Iterator[str]:
    """Yield what follows each number sign that may start a comment, and a few that do not."""
    for line in text.splitlines():
        start = line.find("#")
        if start == 0 or (start > 0 and line[start - 1].isspace()):
            yield line[start:].rstrip()
