"""What the sentences of the planted draft claim, put as questions, on 2031-03-17 as it was written.

"Can", "takes", "up to" speak of some legal build, "has" and "is" of each one.
"""

from __future__ import annotations

import pytest

from baywright.answers.verdicts import No, Together
from baywright.problems import Problems
from tests.desk.demo import answer, holds, number, reasons

DAY = "2031-03-17"

FAST = 'count(drive, interface="fast")'
SAS = 'count(drive, interface="sas")'

CLAIMS = [
    # F2 takes up to 24 fast drives and two network modules: each alone, not together.
    (f"{FAST} == 24", True),
    ("O2 != empty", True),
    (f"{FAST} == 24 and O2 != empty", False),
    # One controller drives all 24 SAS drives.
    (f"{SAS} == 24 and count(controller) == 1", False),
    (f"{SAS} == 24 and count(C16) == 2", True),
    # One processor can drive 16 SAS drives.
    (f"processors == 1 and {SAS} == 16", True),
    # If one supply fails, the machine keeps running: in some builds, not in each.
    ("supplies_redundant", True),
    ("always(supplies_redundant)", False),
    # Six fans, N+1: six with two processors only, and not always with one to spare.
    ("always(fans == 6)", False),
    ("always(implies(processors == 2, fans == 6))", True),
    ("always(implies(processors == 1, fans == 4))", True),
    ("fans == 6 and air_redundant", True),
    ("always(implies(fans == 6, air_redundant))", False),
    # Full-length cards in all slots.
    ('R1a == "accel-dw"', True),
    ('R1b == "accel-dw"', False),
    ('R3a == "accel-dw"', True),
    ('R3b == "accel-dw"', False),
    # 128 GB modules are available now.
    ("count(memory, size=128 GB) >= 1", False),
    # Mixed supplies are fine.
    ('count("ps-800") == 1 and count("ps-1300") == 1', False),
]


@pytest.mark.parametrize(("claim", "true"), CLAIMS)
def test_a_claim_is_as_the_scenario_has_it(claim: str, true: bool) -> None:
    assert holds("f2", claim, DAY) == true


def test_the_joined_maxima_come_apart_into_the_two_that_hold() -> None:
    verdict = answer("f2", f"together({FAST} == 24, O2 != empty)", DAY)
    assert isinstance(verdict, Together)
    assert {kept for kept, _ in verdict.largest} == {(0,), (1,)}
    assert "lanes.shared/module-2-or-zone-c" in {reason.key for reason in verdict.reasons}
    assert number("f2", f"most({FAST}, given=O2 != empty)", DAY) == 16


def test_it_has_32_memory_sockets_and_not_28() -> None:
    assert number("f2", "most(count(memory))") == 32


def test_4_tb_run_at_4400_and_not_at_5600() -> None:
    assert not holds("f2", "memory == 4 TB and memory_speed == 5600 MT/s")
    assert number("f2", "most(memory_speed, given=memory == 4 TB)") == 4400
    assert number("f2", "most(memory)") == 4 * 1024
    # 128 GB modules do not ship yet on the day of the draft, so less was possible then.
    assert number("f2", "most(memory)", DAY) == 32 * 96


def test_all_24_sas_drives_need_two_controllers() -> None:
    assert number("f2", f"least(count(C16), given={SAS} == 24)", DAY) == 2


@pytest.mark.parametrize(
    ("side", "least", "most"),
    [('"front"', 0, 2), ('"rear"', 3, 3), ('"inside"', 1, 1), (None, 4, 6)],
)
def test_usb_ports_are_counted_by_side(side: str | None, least: int, most: int) -> None:
    ports = f'ports("usb", at={side})' if side else 'ports("usb")'
    assert number("f2", f"least({ports})", DAY) == least
    assert number("f2", f"most({ports})", DAY) == most


def test_the_predecessor_has_ddr4_and_its_book_knows_no_ddr5() -> None:
    assert holds("f1", 'always(count(memory, generation="DDR4") >= 1)', DAY)
    with pytest.raises(Problems, match="DDR5"):
        answer("f1", 'count(memory, generation="DDR5") >= 1', DAY)


def test_the_date_is_why_there_is_no_128_gb_module() -> None:
    assert reasons("f2", "count(memory, size=128 GB) >= 1", DAY) == {"parts.ships/dimm-128"}


def test_one_model_of_supply_is_why_they_are_not_mixed() -> None:
    mixed = 'count("ps-800") == 1 and count("ps-1300") == 1'
    assert "supplies.identical/PS" in reasons("f2", mixed, DAY)


def test_two_arrays_of_twelve_do_not_fit_and_16_and_8_do() -> None:
    verdict = answer("f2", 'arrays(12, 12, interface="sas")')
    assert isinstance(verdict, No)
    # Zones A and B reach riser 1 and zone C riser 3, so 16 drives are behind one and 8 the other.
    laws = {reason.key for reason in verdict.reasons if reason.kind == "law"}
    assert laws
    assert all(key.startswith("controllers.reach/") for key in laws)
    first = verdict.nearest[0].changes
    assert [(c.what, c.asked, c.instead) for c in first] == [("arrays", "12 + 12", "16 + 8")]
    assert holds("f2", 'arrays(16, 8, interface="sas")')
