"""Files that are broken or built to harm: a problem with its place, and soon."""

from __future__ import annotations

import io
import time
import zipfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import docx
import pytest

from baywright.exchange.drafts.draft import read_draft
from baywright.exchange.drafts.refusing import MOST_TEXT_BYTES
from baywright.problems import Problems

SOON = 2.0
"""Seconds of a processor in which a file is refused; other work on the machine does not count."""


@contextmanager
def soon() -> Iterator[None]:
    """Hold that what is done inside is done soon."""
    start = time.process_time()
    yield
    assert time.process_time() - start < SOON


def _refused(path: Path) -> str:
    with soon(), pytest.raises(Problems) as caught:
        read_draft(path)
    first = caught.value.problems[0]
    assert first.hint
    assert str(path) in (first.message + (first.mark.file if first.mark else ""))
    return str(first)


def _document() -> bytes:
    target = io.BytesIO()
    docx.Document().save(target)
    return target.getvalue()


def _packed(parts: dict[str, bytes]) -> bytes:
    target = io.BytesIO()
    with zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED) as packed:
        for name, data in parts.items():
            packed.writestr(name, data)
    return target.getvalue()


def _with_part(name: str, data: bytes) -> bytes:
    with zipfile.ZipFile(io.BytesIO(_document())) as held:
        parts = {entry.filename: held.read(entry) for entry in held.infolist()}
    return _packed({**parts, name: data})


def _corrupt() -> bytes:
    data = bytearray(_document())
    data[200:260] = bytes(60)
    return bytes(data)


LAUGHS = (
    b'<?xml version="1.0"?><!DOCTYPE a [<!ENTITY a "ha"><!ENTITY b "&a;&a;&a;">]>'
    b'<w:document xmlns:w="x">&b;</w:document>'
)
DEEP = b"<a>" * 5000 + b"</a>" * 5000


@pytest.mark.parametrize(
    ("name", "data", "kind"),
    [
        ("cut.docx", lambda: _document()[:-2000], "damaged"),
        ("cut.docx", lambda: _document()[:10], "damaged"),
        ("corrupt.docx", _corrupt, "damaged"),
        ("bomb.docx", lambda: _with_part("word/a.xml", bytes(50_000_000)), "unsafe"),
        ("bomb.docx", lambda: _with_part("word/a.bin", bytes(30_000_000)), "unsafe"),
        ("parts.docx", lambda: _packed({f"{n}": b"" for n in range(20_001)}), "unsafe"),
        ("laughs.docx", lambda: _with_part("word/document.xml", LAUGHS), "unsafe"),
        (
            "laughs.docx",
            lambda: _with_part("word/document.xml", LAUGHS.decode().encode("utf-16")),
            "unsafe",
        ),
        ("deep.docx", lambda: _with_part("word/document.xml", DEEP), "unsafe"),
        ("broken.docx", lambda: _with_part("word/document.xml", b"<a><b></a>"), "damaged"),
        ("other.docx", lambda: _with_part("word/document.xml", b"<a/>"), "damaged"),
        ("slides.pptx", _document, "wrong-form"),
        ("text.docx", lambda: b"It is text.", "wrong-form"),
        ("empty.docx", lambda: b"", "wrong-form"),
        ("packed.docx", lambda: _packed({"a.txt": b"a"}), "wrong-form"),
        ("packed.txt", _document, "wrong-form"),
        ("paper.txt", lambda: b"%PDF-1.7", "wrong-form"),
        ("old.docx", lambda: b"\xd0\xcf\x11\xe0" + bytes(100), "wrong-form"),
        ("web.txt", lambda: b"WEBVTT\n\n", "wrong-form"),
        ("sub.vtt", lambda: b"1\n00:00:01,000 --> 00:00:02,000\nA.\n", "wrong-form"),
        ("no.vtt", lambda: b"It is text.", "wrong-form"),
        ("a.xyz", lambda: b"It is text.", "wrong-form"),
        (
            "mixed.txt",
            lambda: "Zone A.\nKühl".encode() + "\nwarm\xfc".encode("latin-1"),
            "not-text",
        ),
        ("odd.txt", lambda: "Zone A.".encode("utf-16") + b"\x00", "not-text"),
        ("wide.txt", lambda: "Zone A.".encode("utf-32"), "not-text"),
        ("nul.md", lambda: b"Zone\nA\x00.", "not-text"),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_it_is_refused_with_its_place(
    tmp_path: Path, name: str, data: Callable[[], bytes], kind: str
) -> None:
    path = tmp_path / name
    path.write_bytes(data())
    assert _refused(path).endswith(f"[{kind}]")


def test_the_place_of_a_fault_is_its_line_and_column(tmp_path: Path) -> None:
    path = tmp_path / "mixed.txt"
    path.write_bytes("Zone A.\nKühl ".encode() + "w\xe4rm".encode("latin-1"))
    assert _refused(path).startswith(f"{path}:2:7: ")


def test_a_hundred_megabytes_of_text_are_not_read(tmp_path: Path) -> None:
    path = tmp_path / "long.txt"
    with path.open("wb") as stream:
        stream.truncate(100_000_000)
    assert "at most 20,000,000 are read" in _refused(path)
    assert MOST_TEXT_BYTES == 20_000_000


@pytest.mark.parametrize(
    ("timing", "why"),
    [
        ("00:00:02.000 --> 00:00:01.000", "ends at"),
        ("00:00:61.000 --> 00:01:02.000", "is no time"),
        ("00:00:01 --> 00:00:02", "is no timing"),
        ("0:1.000 --> x", "is no timing"),
        ("It is spoken.", "has no timing"),
    ],
)
def test_a_wrong_time_code_is_told_with_its_line(tmp_path: Path, timing: str, why: str) -> None:
    path = tmp_path / "a.vtt"
    path.write_text(f"WEBVTT\n\n00:01.000 --> 00:02.000\nA.\n\n{timing}\nB.\n", encoding="utf-8")
    told = _refused(path)
    assert told.startswith(f"{path}:6:1: ")
    assert why in told


def test_many_wrong_time_codes_are_not_all_told(tmp_path: Path) -> None:
    path = tmp_path / "a.srt"
    path.write_text("x\n\n" * 1000, encoding="utf-8")
    with pytest.raises(Problems) as caught:
        read_draft(path)
    assert len(caught.value.problems) == 21
    assert "980 more" in caught.value.problems[-1].message


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("a.md", "[" * 20_000),
        ("a.md", "> " * 5_000 + "a"),
        ("a.md", "*a **a " * 5_000),
        ("a.md", "`" * 20_000),
        ("a.md", "| a " * 5_000 + "\n" + "|-" * 5_000 + "\n"),
        ("a.html", "<a " * 20_000),
        ("a.html", "<!" * 20_000),
        ("a.html", "<b>" * 50_000 + "a"),
        ("a.html", "<table><tr><td>" * 5_000 + "a"),
        ("a.html", "&" * 50_000),
        ("a.txt", "a. " * 200_000),
        ("a.txt", "." * 200_000),
        ("a.txt", " " * 500_000),
        ("a.txt", "e.g. " * 100_000),
        ("a.vtt", "WEBVTT\n\n00:01.000 --> 00:02.000\n" + "<" * 100_000),
        ("a.vtt", "WEBVTT\n\n00:01.000 --> 00:02.000\n" + "&" * 100_000),
    ],
    ids=lambda value: value[:12].strip(),
)
def test_odd_texts_are_read_soon(tmp_path: Path, name: str, text: str) -> None:
    path = tmp_path / name
    path.write_text(text, encoding="utf-8")
    with soon():
        assert read_draft(path).passages is not None
