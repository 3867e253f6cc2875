"""Files from strangers: each gives problems, quickly, and nothing else."""

from __future__ import annotations

import gc
import os
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from baywright.files.books import book_from, build_from, find_book, read_book, read_build
from baywright.problems import Problem, Problems
from tests.files.example import changed_example, example_book, write_example


@pytest.fixture(autouse=True)
def _quick() -> Iterator[None]:
    """Two seconds of our own work: what else the machine does, or other tests hold, is left out."""
    gc.freeze()
    start = time.process_time()
    yield
    taken = time.process_time() - start
    gc.unfreeze()
    assert taken < 2


@pytest.fixture
def book(tmp_path: Path) -> Path:
    return write_example(tmp_path)


def refused(folder: Path) -> tuple[Problem, ...]:
    with pytest.raises(Problems) as caught:
        read_book(folder)
    assert caught.value.problems
    return caught.value.problems


def kinds(folder: Path) -> set[str]:
    return {problem.kind for problem in refused(folder)}


def with_change(name: str, old: str, new: str) -> tuple[Problem, ...]:
    with pytest.raises(Problems) as caught:
        book_from(changed_example(name, old, new))
    return caught.value.problems


@pytest.mark.parametrize(
    ("name", "old", "new", "kind", "says"),
    [
        ("t1/places.yaml", "  M1:", "  M1: x", "yaml", ""),
        ("t1/parts.yaml", "cores: 8", "coers: 8", "unknown-key", "Did you mean 'cores'?"),
        ("t1/parts.yaml", "tdp: 65 W", "tdp: 65 kg", "wrong-dimension", "a power is wanted"),
        ("t1/parts.yaml", "tdp: 65 W", "tdp: 65", "no-unit", "such as '1300 W'"),
        ("t1/parts.yaml", "tdp: 65 W", "tdp: 65 WW", "unknown-unit", "Did you mean"),
        ("t1/parts.yaml", "tdp: 65 W", "tdp: " + "9" * 900 + " W", "not-a-number", ""),
        ("t1/parts.yaml", "cores: 8", "cores: " + "9" * 900, "not-a-number", ""),
        ("t1/parts.yaml", "50 %: 0.94", "50 %: 1e999999999", "not-a-ratio", "0.62"),
        ("t1/parts.yaml", "50 %: 0.94", "50 %: 1/0", "not-a-ratio", ""),
        ("t1/parts.yaml", "kind: drive", "kind: drvie", "unknown-kind", "Did you mean 'drive'?"),
        ("t1/parts.yaml", "    kind: drive\n", "", "missing", "Give kind, one of processor"),
        ("t1/parts.yaml", "kind: drive", "kind: {a: b}", "not-a-name", "processor"),
        ("t1/parts.yaml", "holds: [sas]", "holds: sas", "not-a-list", "[a, b]"),
        ("t1/parts.yaml", "cores: 8", "cores: [8]", "not-a-value", "one text or number"),
        ("t1/parts.yaml", "cores: 8", "cores: {valu: 8}", "unknown-key", "Did you mean 'value'?"),
        ("t1/parts.yaml", "cores: 8", "cores: {value: {value: 8}}", "not-a-value", ""),
        ("t1/parts.yaml", "cores: 8", "cores: {note: 8}", "fact-without-value", ""),
        ("t1/parts.yaml", "status: pre-release", "status: maybe", "unknown-status", "stated"),
        ("t1/parts.yaml", "70 FLO", "70 W", "wrong-dimension", "a price"),
        ("t1/parts.yaml", "70 FLO", "[70 FLO]", "not-a-value", ""),
        ("t1/parts.yaml", "name: fan,", "name: {},", "not-a-name", ""),
        ("t1/parts.yaml", "  dimm-16:", "  cpu-8:", "given-twice", "first at t1/parts.yaml:2:3"),
        ("t1/places.yaml", "type: bank", "type: bnak", "unknown-type", "Did you mean 'bank'?"),
        ("t1/places.yaml", "P1: {type: socket, name: processor 1}", "P1: x", "missing", "type"),
        ("t1/places.yaml", "P1: {type: socket, name: processor 1}", "P1: [a]", "not-a-mapping", ""),
        ("t1/places.yaml", "owner: P1", "owner: P2", "unknown-reference", "P1"),
        ("t1/places.yaml", "owner: P1", "owner: A", "unknown-reference", "a processor socket"),
        ("t1/book.yaml", "current: AC", "current: A", "unknown-word", "Did you mean 'AC'?"),
        ("t1/book.yaml", "currency: FLO", "currency: FLU", "wrong-currency", "an amount of FLU"),
        ("t1/book.yaml", "edition: 2031-07-01", "edition: July", "not-a-date", "2031-07-01"),
        ("t1/book.yaml", "power:", "powr:", "unknown-key", "Did you mean 'power'?"),
        ("t1/book.yaml", "one_size: yes", "one_size: perhaps", "not-yes-or-no", "yes or no"),
        ("t1/book.yaml", "count(drive) > 2", "count(drive", "syntax", ""),
        ("t1/rules.yaml", "places: {P1: cpu-8", "places: {P1: {a: b}", "unknown-key", "cage"),
        ("t1/rules.yaml", "places: {P1: cpu-8", "places: {P1: [[a]]", "not-a-part", "8 x dimm-64"),
    ],
)
def test_a_slip_in_a_book(name: str, old: str, new: str, kind: str, says: str) -> None:
    found = [problem for problem in with_change(name, old, new) if problem.kind == kind]
    assert found
    assert says in f"{found[0].message} {found[0].hint}"
    assert found[0].mark is not None
    assert found[0].mark.file == name


def test_a_section_left_out_is_named() -> None:
    found = with_change("t1/book.yaml", "chassis:", "chasis:")
    assert (found[0].kind, found[1].kind) == ("missing", "unknown-key")
    assert "'chassis'" in found[0].message


def test_everything_is_gathered() -> None:
    files = example_book()
    parts = files["t1/parts.yaml"].replace(b"65 W", b"65 kg").replace(b"cores: 8", b"cores: x")
    places = files["t1/places.yaml"].replace(b"type: bank", b"type: bnak")
    with pytest.raises(Problems) as caught:
        book_from({**files, "t1/parts.yaml": parts, "t1/places.yaml": places})
    found = {problem.kind for problem in caught.value.problems}
    assert found == {"wrong-dimension", "not-a-number", "unknown-type"}


def test_no_words_of_the_library_that_checks() -> None:
    text = "book: 5\nchassis: [a]\npower: {lines: 7}\nplaces: {a: {}, b: 1, c: []}\nparts: [x]\n"
    with pytest.raises(Problems) as caught:
        book_from({"f": text.encode()})
    for word in ("Input should", "valid dictionary", "discriminator", "Field required", "pydantic"):
        assert word not in str(caught.value)


def test_a_file_of_50_megabytes(book: Path) -> None:
    with (book / "large.yaml").open("wb") as stream:
        stream.truncate(50_000_000)
    assert kinds(book) == {"too-large"}


def test_many_files(book: Path) -> None:
    for i in range(300):
        (book / f"x{i}.yaml").write_text("a: b\n")
    assert kinds(book) == {"too-large"}


def test_files_too_large_together(book: Path) -> None:
    for i in range(5):
        (book / f"x{i}.yaml").write_text("# " + "x" * 1_900_000)
    assert kinds(book) == {"too-large"}


def test_aliases_that_expand_without_end(book: Path) -> None:
    lines = ["a0: &a0 [x, x]"]
    lines += [f"a{i}: &a{i} [*a{i - 1}, *a{i - 1}]" for i in range(1, 60)]
    (book / "bomb.yaml").write_text("\n".join(lines))
    assert "anchor" in kinds(book)


@pytest.mark.parametrize("opening", ["[", "{a: ", "- ", "a:\n", "[{a: "])
def test_deep_nesting(book: Path, opening: str) -> None:
    text = opening * 100_000
    if opening == "a:\n":
        text = "".join(" " * i + "a:\n" for i in range(1500))
    (book / "deep.yaml").write_text(text)
    assert kinds(book) <= {"too-deep", "yaml"}


def test_too_many_values(book: Path) -> None:
    (book / "wide.yaml").write_text("x: [" + "a, " * 200_000 + "a]")
    assert kinds(book) == {"too-many-values"}


def test_a_binary_file(book: Path) -> None:
    (book / "picture.yaml").write_bytes(b"\x89PNG\r\n\x1a\n" + bytes(range(256)) * 100)
    assert kinds(book) == {"not-text"}


def test_null_bytes(book: Path) -> None:
    (book / "nulls.yaml").write_bytes(bytes(1000))
    assert kinds(book) == {"strange-character"}


def test_folders_that_are_no_book(tmp_path: Path) -> None:
    assert kinds(tmp_path) == {"no-book"}
    assert kinds(tmp_path / "nowhere") == {"no-book"}
    (tmp_path / "a.yaml").write_text("parts: {}\n")
    assert kinds(tmp_path) == {"no-book"}


def test_a_file_that_holds_no_sections(book: Path) -> None:
    (book / "list.yaml").write_text("- a\n- b\n")
    assert kinds(book) == {"not-a-mapping"}


def test_a_folder_with_the_name_of_a_file(book: Path) -> None:
    (book / "x.yaml").mkdir()
    assert kinds(book) == {"not-a-file"}


def test_a_pipe_with_the_name_of_a_file(book: Path) -> None:
    os.mkfifo(book / "x.yaml")
    assert kinds(book) == {"not-a-file"}


def test_a_link_to_nothing(book: Path) -> None:
    (book / "x.yaml").symlink_to(book / "nothing")
    assert kinds(book) == {"unreadable"}


def test_a_link_to_itself(book: Path) -> None:
    (book / "x.yaml").symlink_to(book / "x.yaml")
    assert kinds(book) == {"unreadable"}


@pytest.mark.skipif(os.geteuid() == 0, reason="the superuser may read everything")
def test_a_file_nobody_may_read(book: Path) -> None:
    (book / "parts.yaml").chmod(0)
    assert kinds(book) == {"unreadable"}


def test_a_file_that_may_not_be_read(book: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def forbidden(path: Path, mode: str) -> None:
        raise PermissionError(13, "Permission denied", str(path), mode)

    monkeypatch.setattr(Path, "open", forbidden)
    assert kinds(book) == {"unreadable"}


@pytest.mark.parametrize(
    "name", ["nowhere", "", "a\0b", "x" * 5000, "../../../etc", "/dev/null", "f2/../f2x", "."]
)
def test_names_that_are_no_book(name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    with pytest.raises(Problems):
        read_book(find_book(name))


def test_the_path_of_a_file_is_not_a_book(book: Path) -> None:
    with pytest.raises(Problems, match="Give its folder"):
        find_book(book / "parts.yaml")


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("", "empty-file"),
        ("x", "not-a-mapping"),
        ("- x", "not-a-mapping"),
        ("name: x", "missing"),
        ("book: t1\nname: x\nplaces: [a]\n", "not-a-mapping"),
        ("book: t1\nname: x\nplaces: {A: {cage: {a: b}}}\n", "not-a-part"),
        ("book: t1\nname: x\nplaces: {A: {cage: S4, controller: [O1]}}\n", "not-a-name"),
        ("book: t1\nname: x\nplaces: {A: {cage: S4, drive: x}}\n", "unknown-key"),
        ("book: t1\nname: x\nplaces: {A: 5 x}\n", "not-a-part"),
        ("book: t1\nname: x\nmust: a\n", "not-a-list"),
        ("book: t1\nname: x\nsite: {voltage: 5 W}\n", "wrong-dimension"),
    ],
)
def test_builds_that_are_none(text: str, kind: str) -> None:
    with pytest.raises(Problems) as caught:
        build_from(text.encode(), "b.yaml")
    (found,) = caught.value.problems
    assert found.kind == kind
    assert found.mark is not None


def test_a_build_that_is_not_there(tmp_path: Path) -> None:
    for path in (tmp_path / "nothing", tmp_path, Path("/dev/zero")):
        with pytest.raises(Problems):
            read_build(path)
