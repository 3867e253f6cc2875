"""Drafts under two versions: what is said of each of their sentences."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping
from pathlib import Path

from baywright.desk.changes.said import Pair, Said
from baywright.desk.changes.watched import Versions, Watched
from baywright.desk.drafts.checking import proofread_file
from baywright.desk.opening import Opened
from baywright.language.kind_words import KIND_WORDS
from baywright.language.passages import Passage, Remark

NOTHING = Said([], "Nothing is said of it.")


def drafts(versions: Versions, watched: Watched) -> Iterator[Pair]:
    """Yield the sentences of drafts of which something is said under one of the versions."""
    for path in watched.drafts:
        before = _said_of(versions.old.opened, path)
        after = _said_of(versions.new.opened, path)
        for passage in dict.fromkeys((*before, *after)):
            name = f"{path.name}, {passage.place.where}: {passage.text}"
            was, now = before.get(passage, NOTHING), after.get(passage, NOTHING)
            yield Pair("draft", name, was, now)


def _said_of(opened: Opened, path: Path) -> Mapping[Passage, Said]:
    found = proofread_file(opened, path)
    grouped = itertools.groupby(found.remarks, key=lambda remark: remark.passage)
    return {passage: _said(list(remarks)) for passage, remarks in grouped}


def _said(remarks: list[Remark]) -> Said:
    value = [[each.kind, each.sentence] for each in remarks]
    words = (
        f"{KIND_WORDS[each.kind].capitalize()}. {each.sentence or each.said}".strip()
        for each in remarks
    )
    return Said(value, " ".join(words))
