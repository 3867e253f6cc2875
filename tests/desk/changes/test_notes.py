"""CN-1 to CN-5, the late changes of the demo: what flips, worked out by hand.

The notes and the books are invented; the arithmetic stands beside each.
"""

from __future__ import annotations

from functools import cache

import pytest

from baywright.desk.changes.changing import Changes, changes
from baywright.desk.changes.versions import change, every_note
from baywright.desk.request import Request


@cache
def carried_out(book: str, note: str, as_of: str = "") -> Changes:
    with change(book, note, Request(as_of)) as asked:
        return changes(asked.old, asked.new, None, asked.title, asked.says)


def flips(found: Changes, kind: str) -> dict[str, tuple[str, str]]:
    return {
        pair.name: (pair.before.words, pair.after.words)
        for pair in found.flips
        if pair.kind == kind
    }


def test_every_note_is_beside_its_books() -> None:
    assert every_note() == [
        ("f2", "cn-1"),
        ("f2", "cn-2"),
        ("f2", "cn-3"),
        ("f2", "cn-4"),
        ("l4", "cn-2"),
        ("l4", "cn-5"),
    ]


def test_cn_1_takes_o2_and_r3b_from_fast_drives_in_zone_c() -> None:
    """C-N8h excluded O2 before too; what is new is that R3b stays empty.

    None of the demo's questions, builds, models and orders has fast drives in zone C and a card in
    R3b, so of these nothing flips; a question about both does.
    """
    found = carried_out("f2", "cn-1")
    changed = {each.path: each.words for each in found.facts}
    assert "2 becomes 4" in changed["parts.N8h.lanes_per_bay"]
    assert "16 becomes 32" in changed["links.module-2-or-zone-c.lanes"]
    assert "rules.fast-c-takes-r3b.says" in changed
    assert found.flips == ()


def test_cn_2_makes_the_128_gb_module_late() -> None:
    """Ten weeks after 2031-06-02 is 2031-08-11; on the edition, 2031-07-01, it does not ship.

    The most is then 2 processors x 16 modules x 96 GB = 3,072 GB = 3 TB instead of 4 TB, 4 TB
    cannot be reached at all, and 4,400 MT/s, which only 128 GB modules run at, falls away.
    """
    found = carried_out("f2", "cn-2")
    (date,) = flips(found, "date").values()
    assert date == ("2031-06-02.", "2031-08-11. From 2031-06-02 until 2031-08-10 it does not ship.")
    answers = flips(found, "answer")
    assert set(answers) == {
        "How much memory at most?",
        "How fast is 4 TB of memory?",
        "Does memory always run at 4800 MT/s or faster?",
    }
    assert answers["How much memory at most?"][1].startswith("Memory: at most 3 TB.")
    assert "at most 4,400 MT/s" in answers["How fast is 4 TB of memory?"][0]
    assert "no" in answers["How fast is 4 TB of memory?"][1]
    assert (
        "every legal build has it" in answers["Does memory always run at 4800 MT/s or faster?"][1]
    )
    assert len(found.flips) == 4


def test_cn_3_makes_three_of_the_nearest_builds_redundant_at_120_v() -> None:
    """One 1300 W supply carries 1,100 W at 120 V instead of 1,000 W; N4 draws 1,159 W, 59 over.

    What N4 would have to save is now 59 W: half the modules, eight of 9 W, save 72; five of 24
    drives of 12 W save 60; two 24-core processors instead of 32-core save 2 x (225 - 185) / 0.9 =
    88.9. Each of them draws more than 1,000 W and was not redundant before.
    """
    found = carried_out("f2", "cn-3")
    answers = flips(found, "answer")
    assert list(answers) == ["How much may it draw at 120 V with redundant supplies?"]
    before, after = answers["How much may it draw at 120 V with redundant supplies?"]
    assert "at most 1,000 W" in before
    assert "at most 1,100 W" in after
    assert "159 W over" in flips(found, "build")["n4"][0]
    assert "59 W over" in flips(found, "build")["n4"][1]
    nearest = flips(found, "nearest build")
    drawn = {
        "n4: P1 and P2: cpu-32 becomes cpu-24": "1,071 W",
        "n4: C drives: 8 x sas-2400 becomes 3 x sas-2400": "1,099 W",
        "n4: M1 and M2: 8 x dimm-64 becomes 4 x dimm-64": "1,087 W",
    }
    assert set(nearest) == set(drawn)
    for name, watts in drawn.items():
        assert f"{watts} against 1,000 W" in nearest[name][0]
        assert f"{watts} against 1,100 W" in nearest[name][1]
        assert nearest[name][1].startswith("It can be built and keeps what is asked besides")


def test_cn_4_lets_the_fans_carry_more() -> None:
    """No answer, build, model or order of the demo is bound by the fans at sea level."""
    found = carried_out("f2", "cn-4")
    (fact,) = (each for each in found.facts if each.path == "parts.fan.flow")
    assert fact.words.endswith("32 CFM becomes 35 CFM.")
    assert found.flips == ()


@pytest.mark.parametrize(
    ("day", "status"),
    [
        ("2031-04-13", None),
        ("2031-04-14", ("Sample on", "Shipping on")),
        ("2031-05-11", ("Sample on", "Shipping on")),
        ("2031-05-12", None),
    ],
)
def test_cn_5_ships_the_l4_four_weeks_earlier(day: str, status: tuple[str, str] | None) -> None:
    found = carried_out("l4", "cn-5", day)
    (date,) = flips(found, "date").values()
    assert date[1] == "2031-04-14. From 2031-04-14 until 2031-05-11 it ships."
    shown = flips(found, "status").get("Longstrand L4")
    assert (shown is None) == (status is None)
    if shown and status:
        assert shown[0].startswith(status[0])
        assert shown[1].startswith(status[1])
