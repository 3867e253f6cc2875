"""SMBIOS tables: what they hold, and what they may lie about.

Offsets and codes are those of DMTF DSP0134 3.7, sections 5.2 and 7: entry points, structures 17 and
39 seen in a header file that quotes the standard, the others from memory. The machines are
invented.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baywright.exchange.smbios import read_tables
from baywright.exchange.smbios.structures import read_structures
from baywright.facts.record import Record
from baywright.problems import Problems
from baywright.units import parse
from tests.exchange.smbios import tables

GB64 = parse("64 GB", "memory")


def read(table: bytes, folder: Path) -> Record:
    return read_tables(tables.folder_of(table, folder))


def test_a_machine_as_linux_shows_it(tmp_path: Path) -> None:
    record = read(tables.ferryman(), tmp_path)
    assert record.standard == "SMBIOS 3.7.0"
    assert record.machine == "Brackenmoor Works Ferryman F2"
    assert [each.label for each in record.present("processor")] == ["PROC 1"]
    assert record.present("processor")[0].values["cores"].value == 32
    modules = record.present("memory")
    assert [each.label for each in modules] == ["PROC 1 DIMM 1", "PROC 1 DIMM 2"]
    values = {name: each.value for name, each in modules[0].values.items()}
    assert values == {
        "size": GB64,
        "generation": "DDR5",
        "type": "registered",
        "ranks": 2,
        "check_bits": 16,
        "speed": parse("5600 MT/s"),
        "speed_now": parse("5600 MT/s"),
    }
    slots = {each.label: each.present for each in record.entries if each.kind == "slot"}
    assert slots == {"Riser 1 Slot A": False, "Riser 1 Slot B": True}
    assert [each.values["rating"].value for each in record.present("supply")] == [
        parse("1300 W")
    ] * 2
    assert record.listed_in_full.keys() == {"processor", "memory"}
    assert not record.findings


def test_totals_are_stated_beside_their_parts(tmp_path: Path) -> None:
    totals = {each.words: each for each in read(tables.ferryman(), tmp_path).totals}
    sockets, memory = totals["structures of its sockets"], totals["memory of all modules"]
    assert (sockets.stated.value, sockets.listed) == (16, 16)
    assert memory.stated.value == memory.listed == parse("128 GB", "memory")


@pytest.mark.parametrize("gigabytes", [1, 31, 32, 64, 128, 2048])
def test_sizes_below_and_from_32_gb(gigabytes: int, tmp_path: Path) -> None:
    table = tables.system() + tables.module(0x1101, "DIMM 1", gigabytes) + tables.END
    (entry,) = read(table, tmp_path).present("memory")
    assert entry.values["size"].value == parse(f"{gigabytes} GB", "memory")


@pytest.mark.parametrize("cores", [1, 254, 255, 256, 600])
def test_cores_below_and_from_255(cores: int, tmp_path: Path) -> None:
    table = tables.system() + tables.processor(0x0400, "PROC 1", cores) + tables.END
    (entry,) = read(table, tmp_path).present("processor")
    assert entry.values["cores"].value == cores


def test_unknown_values_keep_what_was_recorded(tmp_path: Path) -> None:
    table = b"".join(
        (
            tables.system(),
            tables.processor(0x0400, "PROC 1", 0),
            tables.module(0x1101, "DIMM 1", 64, speed=0, ranks=0),
            tables.supply(0x2700, "Supply 1", 0x8000),
            tables.END,
        )
    )
    entries = {each.kind: each for each in read(table, tmp_path).entries}
    unknown = {
        (kind, name): reading.text
        for kind, entry in entries.items()
        for name, reading in entry.values.items()
        if reading.value is None
    }
    assert unknown == {
        ("processor", "cores"): "0 (0x0)",
        ("memory", "speed"): "0 (0x0)",
        ("memory", "ranks"): "0 (0x0)",
        ("supply", "rating"): "32768 (0x8000)",
    }
    assert all(entry.rest["formatted area"] for entry in entries.values())


def test_older_structures_end_early(tmp_path: Path) -> None:
    # Version 2.1: structure 17 has 21 bytes, and neither a speed nor ranks.
    whole = tables.module(0x1101, "DIMM 1", 16)
    short = whole[:1] + b"\x15" + whole[2:21] + whole[92:]
    (entry,) = read(tables.system() + short + tables.END, tmp_path).present("memory")
    assert entry.label == "DIMM 1"
    assert entry.values["size"].value == parse("16 GB", "memory")
    assert "speed" not in entry.values


@pytest.mark.parametrize("at", [0, 16, 0x40])
def test_dumps_with_their_entry_point(at: int, tmp_path: Path) -> None:
    table = tables.ferryman()
    path = tmp_path / "dump.bin"
    path.write_bytes(bytes(at) + tables.entry_3(len(table), 0x7FFF0000).ljust(32, b"\0") + table)
    assert len(read_tables(path).present("memory")) == 2


def test_a_32_bit_entry_point_counts_structures(tmp_path: Path) -> None:
    table = tables.ferryman()
    count = len(read_structures(table).structures)
    path = tmp_path / "dump.bin"
    for stated, findings in ((count, 0), (count + 3, 1)):
        path.write_bytes(tables.entry_2(len(table), stated).ljust(32, b"\0") + table)
        record = read_tables(path)
        assert record.standard == "SMBIOS 2.8"
        assert len(record.findings) == findings


def test_a_table_alone_has_no_version(tmp_path: Path) -> None:
    path = tmp_path / "table.bin"
    path.write_bytes(tables.ferryman())
    record = read_tables(path)
    assert record.standard == "SMBIOS of no stated version"
    assert [each.kind for each in record.findings] == ["unknown"]


@pytest.mark.parametrize("missing", [1, 6, 7, 30, 200])
def test_a_table_cut_off_is_read_as_far_as_it_goes(missing: int, tmp_path: Path) -> None:
    record = read(tables.ferryman()[:-missing], tmp_path)
    assert len(record.present("memory")) == 2
    assert "memory" not in record.listed_in_full
    assert any("cut off" in e.says or "without an end" in e.says for e in record.findings)


def test_lies_of_a_table_are_findings(tmp_path: Path) -> None:
    more = (
        tables.module(0x1101, "PROC 1 DIMM 17", 64),  # a handle that is taken
        tables.structure(200, 0x3000, b"\1\2\3"),
        tables.supply(0x2702, "Supply 3", 1300, group=2, bits=0b101_0000111),
    )
    says = [each.says for each in read(tables.ferryman(*more), tmp_path).findings]
    assert says == [
        "2 structures have this handle.",
        "Structures that nothing was made of: 1 of type 200.",
        "This supply has no input power.",
        "This supply reports that it has failed.",
    ]


def test_a_group_of_one_supply_is_no_redundancy(tmp_path: Path) -> None:
    lone = tables.supply(0x2702, "Supply 3", 1300, group=2)
    groups = {each.claim: each.members for each in read(tables.ferryman(lone), tmp_path).groups}
    assert groups == {"Power Unit Group 1": 2, "Power Unit Group 2": 1}


@pytest.mark.parametrize("data", [b"", b"\0" * 64, b"hello, this is no table", b"\xff" * 500])
def test_what_is_no_table_is_told(data: bytes, tmp_path: Path) -> None:
    path = tmp_path / "file.bin"
    path.write_bytes(data)
    with pytest.raises(Problems) as found:
        read_tables(path)
    assert [each.kind for each in found.value.problems] == ["no-tables"]


def test_files_that_cannot_be_read_are_told(tmp_path: Path) -> None:
    for path, kind in ((tmp_path / "none", "unreadable"), (tmp_path, "unreadable")):
        with pytest.raises(Problems) as found:
            read_tables(path)
        assert [each.kind for each in found.value.problems] == [kind]
    large = tmp_path / "large"
    with large.open("wb") as stream:
        stream.truncate(20_000_000)
    with pytest.raises(Problems) as found:
        read_tables(large)
    assert [each.kind for each in found.value.problems] == ["too-large"]


@given(st.binary(max_size=400))
def test_any_bytes_end(data: bytes) -> None:
    table = read_structures(data)
    assert len(table.structures) <= len(data) / 6
    assert table.complete or table.trouble or not data


@st.composite
def damaged(draw: st.DrawFn) -> bytes:
    """A sound table with some bytes overwritten, cut off, or both."""
    table = bytearray(tables.ferryman())
    for _ in range(draw(st.integers(0, 12))):
        table[draw(st.integers(0, len(table) - 1))] = draw(st.integers(0, 255))
    return bytes(table[: draw(st.integers(0, len(table)))])


@given(damaged())
def test_damaged_tables_are_read_or_told(
    tmp_path_factory: pytest.TempPathFactory, table: bytes
) -> None:
    path = tmp_path_factory.getbasetemp() / "damaged.bin"
    path.write_bytes(tables.entry_3(len(table)).ljust(32, b"\0") + table)
    try:
        record = read_tables(path)
    except Problems:
        return
    texts = [label for entry in record.entries for label in (*entry.locators, *entry.names)]
    assert all(text.isprintable() and len(text) <= 200 for text in texts)
