"""Fresh statements about facts: written before the grammar was extended, labelled by thought."""

from __future__ import annotations

import sys
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import yaml

from tests.language.corpus import Statement
from tests.language.test_judged import FIRM, remark
from tests.language.truth import holds

FRESH = Path(__file__).parent / "fresh" / "facts.yaml"

LEAST_RECALL = 0.85


@cache
def fresh() -> tuple[Statement, ...]:
    """Return the statements with their labels and grounds."""
    # Every value is wanted as it is written, so that true stays a text.
    file: dict[str, list[dict[str, Any]]] = yaml.load(
        FRESH.read_text(encoding="utf-8"),
        Loader=yaml.BaseLoader,  # noqa: S506 - it makes nothing but texts
    )
    return tuple(
        Statement(
            text=each["text"],
            book=book,
            expressions=(),
            verdict=each["verdict"],
            grounds=tuple(f"{book} {ground}" for ground in each["grounds"]),
        )
        for book, entries in file.items()
        for each in entries
    )


def test_what_the_labels_stand_on_is_so() -> None:
    wrong = [(e.text, g) for e in fresh() for g in e.grounds if not holds(g, e)]
    assert wrong == []


@pytest.mark.slow
@pytest.mark.timeout(600)
def test_what_is_called_true_or_false_is_so_and_most_is_found() -> None:
    judged = [(each, remark(each).kind) for each in fresh()]
    wrong = [(e.text, k) for e, k in judged if k in FIRM and k != e.verdict]
    firm = [(e, k) for e, k in judged if e.verdict in FIRM]
    recall = sum(k == e.verdict for e, k in firm) / len(firm)
    sys.stdout.write(f"fresh statements about facts: recall {recall:.2f} of {len(firm)}\n")
    assert wrong == []
    assert recall >= LEAST_RECALL
