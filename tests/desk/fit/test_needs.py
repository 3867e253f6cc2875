"""The customers' needs, as the scenario tells them; expected numbers are worked out by hand."""

from __future__ import annotations

import shutil
from fractions import Fraction
from functools import cache
from pathlib import Path

import pytest

from baywright.answers.verdicts import Bound
from baywright.desk.asking import ask
from baywright.desk.fit.fit import Fitted, Proposals, Refused, fit
from baywright.desk.fit.picks import picks
from baywright.desk.fit.standing import Standing
from baywright.desk.fit.telling import fit_sheet
from baywright.desk.opening import Opened, Setting, open_book
from baywright.facts.need import Need
from baywright.files.books import find_book, need_from, read_need
from baywright.sizing.demand import demands
from baywright.space import broken


@cache
def read(book: str, name: str) -> tuple[Opened, Need]:
    need = read_need(find_book(book) / "needs" / f"{name}.yaml")
    altitude, inlet = need.site.altitude, need.site.inlet
    setting = Setting(None, altitude.known if altitude else None, inlet.known if inlet else None)
    return open_book(book, setting), need


@cache
def fitted(book: str, name: str) -> Fitted:
    return fit(*read(book, name))


def proposed(book: str, name: str) -> Proposals:
    ((_, outcome),) = fitted(book, name).worlds
    assert isinstance(outcome, Proposals)
    return outcome


def refused(book: str, name: str) -> Refused:
    ((_, outcome),) = fitted(book, name).worlds
    assert isinstance(outcome, Refused)
    return outcome


@pytest.mark.parametrize(("book", "name"), [("p1", "n1"), ("f2", "n2")])
def test_there_are_two_to_five_proposals_and_sizing_accepts_each(book: str, name: str) -> None:
    outcome, (opened, need) = proposed(book, name), read(book, name)
    assert 2 <= len(outcome.proposals) <= 5
    for each in outcome.proposals:
        assert not broken(opened.machine.space, each.candidate.values)
        standing = Standing(need, each.candidate.hosts)
        case = standing.case(opened.machine, [each.candidate.values])
        assert not [check.key for check in standing.checks(case) if check.room[0] < 0]
        assert each.binding is not None


@pytest.mark.parametrize(("book", "name", "least"), [("l4", "n3", 2), ("f2", "n4", 3)])
def test_a_no_has_reasons_and_proven_alternatives_that_sizing_accepts(
    book: str, name: str, least: int
) -> None:
    outcome, (opened, need) = refused(book, name), read(book, name)
    assert outcome.no.reasons
    nearest = outcome.no.nearest
    assert len({near.changes for near in nearest}) == len(nearest) >= least
    standing = Standing(need, outcome.hosts)
    for near in nearest:
        assert not broken(opened.machine.space, near.witness.values)
        case = standing.case(opened.machine, [near.witness.values])
        assert not [check.key for check in standing.checks(case) if check.room[0] < 0]


def test_the_clinics_take_at_least_four_hosts_for_their_cores() -> None:
    """420 × 2.5 / 4 = 262.5 cores over the hosts left; the most of one is 2 × 48 = 96: 3 + 1.
    420 × 12 × 1.08 = 5,443.2 GB, 32 GB kept back; the most of one is 32 × 128 = 4,096: 2 + 1.
    420 × 90 GB × 3 / 75 % = 151.2 TB over all; the most of one is 24 × 7.68 = 184.32: 1."""
    least = {d.resource: (d.total, most, n) for d, most, n in proposed("f2", "n2").explored.least}
    assert least["cores"] == (Fraction("262.5"), Fraction(96), 4)
    assert least["memory"] == (Fraction("5443.2"), Fraction(4096), 3)
    assert least["raw"] == (Fraction("151.2e12"), Fraction("184.32e12"), 1)


def test_three_hosts_of_the_clinics_are_refused_in_the_words_of_the_need() -> None:
    explored = proposed("f2", "n2").explored
    assert [count.hosts for count in explored.counts if not count.candidates] == [3]
    assert [reason.sentence for reason in explored.reasons] == [
        "Asked: at least 131.25 cores in each of 3 machines (420 × 2.5 / 4 over 2)."
    ]


def test_four_hosts_of_the_clinics() -> None:
    """2 × 48 cores, 32 × 64 GB = 2,048 of 5,443.2 / 3 + 32 = 1,846.4 GB, 5 × 7.68 TB of 37.8 TB:
    45 + 2 × 300 / 0.9 + 32 × 9 + 5 × 20 + 18 + 6 × 22 = 1,249.67 W; 1300 W supplies leave 50.33.
    2,400 + 2 × 3,600 + 32 × 310 + 290 + 5 × 1,290 + 260 + 2 × 290 + 6 × 45 = 27,370 FLO."""
    candidate = next(
        p.candidate for p in proposed("f2", "n2").proposals if "fewest machines" in p.names
    )
    assert candidate.hosts == 4
    assert candidate.space == 8
    assert candidate.load == 4 * Fraction(3749, 3)
    assert candidate.headroom == 1300 - Fraction(3749, 3)
    assert candidate.price >= 4 * 27_370


def test_seven_hosts_of_the_clinics_are_cheapest() -> None:
    """262.5 / 6 = 43.75 cores, 5,443.2 / 6 + 32 = 939.2 GB, 151.2 / 7 = 21.6 TB in each; asked
    as a question of one host, with the 1300 W that its supplies carry after a feed is lost."""
    outcome, (opened, _) = proposed("f2", "n2"), read("f2", "n2")
    cheapest = outcome.proposals[0].candidate
    assert cheapest.hosts == 7
    given = (
        "voltage == 230 V and cores >= 43.75 and memory >= 939.2 GB and raw_capacity >= 21.6 TB "
        "and supplies_redundant"
    )
    verdict = ask(opened, f"least(price, given={given})").verdict
    assert isinstance(verdict, Bound)
    assert cheapest.price == 7 * verdict.figure.value
    assert all(7 * verdict.figure.value <= each.price for each in outcome.explored.front)


def test_virtual_machines_are_not_split() -> None:
    """420 over the 8 left of 9 hosts are 53 on the fullest: 53 × 2.5 / 4 = 33.125 cores and
    53 × 12.96 + 32 = 718.88 GB in each, not the 32.8125 and 712.4 of an even share."""
    _, need = read("f2", "n2")
    cores, memory, _ = demands(need)
    assert cores.of_host(9) == Fraction("33.125")
    assert memory.of_host(9) == Fraction("718.88")
    assert cores.of_host(4) == Fraction("87.5")


def test_the_feeds_bind_the_racks_of_the_clinics_and_every_number_says_why_not_fewer() -> None:
    """The host above: one supply of 1300 W left at 96.13 % of its rating and .9173 takes 1,362 W,
    6.044 A at 230 V and 0.98; a feed of 32 A at four fifths has 25.6 A: four hosts."""
    outcome = proposed("f2", "n2")
    steps = {step.hosts: step for step in outcome.steps}
    four = steps[4].racks
    assert four is not None
    assert (four.bears, four.binds, four.racks) == (4, "feeds when one is lost", 1)
    assert all(step.racks and step.racks.binds.startswith("feeds") for step in steps.values())
    assert all(step.fewer for step in steps.values())
    assert "cores with 1 failed: 96 of 131.25 in each" in steps[4].fewer
    assert outcome.explored.from_on is not None


def test_the_quarry_gets_six_cards_or_weaker_ones_or_two_machines() -> None:
    """Above 900 m by 1,400 m: 30 - 4.67 = 25.33 °C for 7 or 8 cards above 250 W, 27 are there;
    33 - 4.67 for 6. Eight cards of 250 W: 34 - 4.67 = 29.33 °C, 8 × 250 = 2,000 W."""
    outcome = refused("l4", "n3")
    assert any("25.3 °C" in reason.sentence for reason in outcome.no.reasons)
    changes = {(c.what, c.asked, c.instead) for n in outcome.no.nearest for c in n.changes}
    assert ("accelerators", "8", "6") in changes
    assert ("power of the accelerators", "2,800 W", "2,000 W") in changes
    assert outcome.more is not None
    assert outcome.more.candidate.hosts == 2
    assert outcome.more.parts["accel-350"] == 8


def test_the_record_office_is_159_watts_over() -> None:
    """1,159 W as the scenario has it, on the 1,000 W of one 1300 W supply at 120 V. With 16 drives
    or fewer one controller will do: 1,159 - 16 - 12 × 12 = 999 W, so 12 drives."""
    outcome = refused("f2", "n4")
    totals = [reason.tally for reason in outcome.no.reasons if reason.tally]
    assert (Fraction(1159), Fraction(1000)) in [(t.used, t.given) for t in totals]
    changes = {(c.what, c.asked, c.instead) for n in outcome.no.nearest for c in n.changes}
    assert ("sas-2400", "24", "12") in changes
    assert ("supplies_redundant", "asked", "given up") in changes


def test_the_shops_are_told_battery_backup_and_spares() -> None:
    """Worked at 10 min: W / 6 h over 0.9 and 0.8; 600 GB to the cartridge unit at the rate of its
    port of 5 Gb/s; both are figures that `size` shows too."""
    outcome = proposed("p1", "n1")
    (first, *_) = outcome.proposals
    told = dict(first.told)
    assert any(words.startswith("energy the battery needs") for words in told)
    assert any(words.startswith("time of one backup") for words in told)
    assert any(words.startswith("spares in the stock") for words in told)
    assert first.parts["fan"] == 140 * 3
    assert first.total == 140 * first.candidate.price


def test_picks_are_of_the_front_and_differ() -> None:
    front = proposed("f2", "n2").explored.front
    chosen = picks(front)
    assert len({id(pick.candidate) for pick in chosen}) == len(chosen) == 5
    assert picks(front[:1])[0].candidate is front[0]
    assert len(picks(front[:2])) == 2


@pytest.mark.parametrize("name", ["n2", "n4"])
def test_what_is_printed_ends_with_who_decides(name: str) -> None:
    opened, _ = read("f2", name)
    sheet = fit_sheet(opened, fitted("f2", name))
    assert sheet.aid.startswith("Planning aid")
    titles = [note.title for note in sheet.notes]
    assert "Asked" in titles
    assert "Taken for granted" in titles


def test_an_unknown_price_is_gone_through(tmp_path: Path) -> None:
    """With a 32-core processor of 900 FLO two of them are cheapest for 50 cores, with one of
    9,000 FLO two of another."""
    folder = tmp_path / "f2"
    shutil.copytree(find_book("f2"), folder)
    parts = (folder / "parts.yaml").read_text("utf-8")
    price = "price: {value: 2200 FLO, source: price-list}"
    assert price in parts
    unknown = "price: {could_be: [900 FLO, 9000 FLO], source: price-list}"
    (folder / "parts.yaml").write_text(parts.replace(price, unknown), "utf-8")
    need = need_from(b"book: f2\nname: n\nhosts: 1\ndemand: {cores: 50}\n", "need.yaml")
    opened = open_book(folder)
    found = fit(opened, need)
    cheapest = {}
    for given, outcome in found.worlds:
        assert isinstance(outcome, Proposals)
        cheapest[given["parts.cpu-32.price"]] = outcome.proposals[0].parts
    assert cheapest["900 FLO"]["cpu-32"] == 2
    assert "cpu-32" not in cheapest["9000 FLO"]
    sheet = fit_sheet(opened, found)
    assert sheet.word == "Not decided"
    assert len(sheet.outcomes) == 2
    assert any("9000 FLO" in note.title for note in sheet.notes)
