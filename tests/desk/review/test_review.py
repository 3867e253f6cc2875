"""Defects planted in copies of the demo's books are found, and the books as they are have none.

The books are invented, and so is what is planted in them.
"""

from __future__ import annotations

import shutil
from dataclasses import dataclass
from pathlib import Path

import pytest

from baywright.desk.checking import check
from baywright.desk.opening import open_book
from baywright.desk.review.finding import Finding
from baywright.desk.review.review import review
from baywright.files.books import bundled_books, find_book

RULES = "rules:\n"


@dataclass(frozen=True)
class Planted:
    """A defect: where it is planted, and the finding that shows it.

    Args:
        book: the book whose copy gets it.
        file: the file that is changed.
        old: what is replaced there, once.
        new: what stands there then.
        kind: kind of the finding.
        says: something its sentence says.
        proof: something its proof says, or empty.
    """

    book: str
    file: str
    old: str
    new: str
    kind: str
    says: str
    proof: str = ""


PLANTED = (
    # A part too long for every slot.
    Planted(
        "f2", "parts.yaml", "length: full", "length: 400 mm", "never-fitted", "accel-dw", "length"
    ),
    Planted("f1", "parts.yaml", "length: half", "length: 400 mm", "never-fitted", "S8i", "length"),
    # A rule implied by another, and one that laws see to.
    Planted(
        "f2",
        "rules.yaml",
        RULES,
        RULES
        + "  fixed-without-sas:\n"
        + "    says: the fixed-drive variant has no SAS cage in zone A\n"
        + '    holds: implies(variant == "fixed", A != "S8")\n',
        "implied-rule",
        "fixed-without-sas follows from fixed-has-f4",
        "The fixed-drive variant has the cage for four fixed drives in zone A.",
    ),
    Planted(
        "f2",
        "rules.yaml",
        RULES,
        RULES + "  few-sockets:\n    says: it has two sockets\n    holds: processors <= 2\n",
        "idle-rule",
        "few-sockets forbids nothing",
    ),
    Planted(
        "p1",
        "rules.yaml",
        RULES,
        RULES
        + "  wall-without-tray:\n"
        + "    says: a box on a wall has no tray\n"
        + '    holds: not (mounting == "wall" and MOUNT == "tray-kit")\n',
        "implied-rule",
        "wall-without-tray",
    ),
    # Two sources that differ.
    Planted(
        "f2",
        "book.yaml",
        "base: {value: 45 W, source: power-sheet}",
        "base: {told: [{value: 45 W, source: power-sheet}, {value: 47 W, source: air-report}]}",
        "disputed",
        "45 W in Brackenmoor power data sheet; 47 W in Ferryman F2 air test report",
    ),
    # A maximum out of reach, in numbers and in words.
    Planted(
        "p1",
        "rules.yaml",
        RULES,
        RULES + "  few:\n    says: it has four modules at most\n    holds: count(memory) <= 4\n",
        "never-counted",
        "Memory never holds 6",
        "It has four modules at most.",
    ),
    Planted(
        "f2",
        "must_say.yaml",
        "must_say:\n",
        "must_say:\n  many:\n    says: F2 takes up to 26 fast drives.\n",
        "wrong-prose",
        "26 fast drives",
        "24",
    ),
    # A place that nothing can fill, and a part that a place takes and never holds.
    Planted(
        "p1", "places.yaml", "takes: [media]", "takes: []", "never-filled", "Media bay is empty"
    ),
    Planted(
        "f1",
        "rules.yaml",
        RULES,
        RULES + "  no-b:\n    says: zone B stays empty\n    holds: B == empty\n",
        "never-filled",
        "Zone B is empty",
        "Zone B stays empty.",
    ),
    # A word for two things.
    Planted(
        "f2",
        "words.yaml",
        "display: [fault display]",
        "display: [fault display, boot module]",
        "ambiguous-word",
        "'boot module' stands for",
    ),
    # A setting with a value that a rule takes away.
    Planted(
        "p1",
        "rules.yaml",
        RULES,
        RULES + '  no-wall:\n    says: nobody has a wall\n    holds: mounting != "wall"\n',
        "never-set",
        "wall",
        "Nobody has a wall.",
    ),
    # A ready-made model that a rule makes impossible.
    Planted(
        "f2",
        "rules.yaml",
        RULES,
        RULES + "  small:\n    says: memory is at most 1 TB\n    holds: memory <= 1 TB - 1 GB\n",
        "unbuildable-model",
        "F2-c",
        "Memory is at most 1 TB.",
    ),
    # Rules that exclude each other.
    Planted(
        "l4",
        "rules.yaml",
        "rules: {}",
        "rules:\n"
        "  many:\n    says: it has four cards or more\n    holds: count(accelerator) >= 4\n"
        "  few:\n    says: it has three cards at most\n    holds: count(accelerator) <= 3\n",
        "nothing-built",
        "No build is legal.",
        "It has three cards at most.",
    ),
)


@pytest.mark.parametrize("name", sorted(bundled_books()))
def test_the_books_as_they_are_have_no_defect(name: str) -> None:
    checked = check(open_book(name))
    assert (checked.buildable, checked.defects) == (True, ())


@pytest.mark.parametrize("planted", PLANTED, ids=lambda planted: f"{planted.book}-{planted.says}")
def test_a_planted_defect_is_found_with_its_proof(planted: Planted, tmp_path: Path) -> None:
    found = [each for each in _reviewed(planted, tmp_path) if each.kind == planted.kind]
    shown = [each for each in found if planted.says.lower() in each.says.lower()]
    assert shown, [each.says for each in found]
    assert all(each.defect and (each.where or planted.kind == "nothing-built") for each in shown)
    assert any(planted.proof in " ".join(each.proof) for each in shown), shown


def test_an_unknown_fact_says_which_questions_it_blocks(tmp_path: Path) -> None:
    planted = Planted(
        "f2",
        "book.yaml",
        "base: {value: 45 W, source: power-sheet}",
        "base: {could_be: [45 W, 945 W], note: asked on 2031-06-20}",
        "unknown",
        "power.base could be 45 W or 945 W",
    )
    (found,) = (each for each in _reviewed(planted, tmp_path) if each.kind == "unknown")
    assert planted.says in found.says
    assert not found.defect
    assert found.proof
    assert all("45 W: " in each and "945 W: " in each for each in found.proof)


def test_a_word_for_nothing_is_a_problem_of_reading(tmp_path: Path) -> None:
    planted = Planted("f2", "words.yaml", "O2: [", "O9: [", "", "")
    with pytest.raises(Exception, match="O9"):
        _reviewed(planted, tmp_path)


def _reviewed(planted: Planted, tmp_path: Path) -> tuple[Finding, ...]:
    folder = Path(shutil.copytree(find_book(planted.book), tmp_path / planted.book))
    file = folder / planted.file
    text = file.read_text(encoding="utf-8")
    assert planted.old in text
    file.write_text(text.replace(planted.old, planted.new, 1), encoding="utf-8")
    return review(open_book(folder))
