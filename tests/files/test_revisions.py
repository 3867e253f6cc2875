"""A book as it was at a revision of git."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import pytest

from baywright.desk.changes.changing import changes
from baywright.desk.changes.versions import change
from baywright.desk.request import Request
from baywright.files.books import find_book
from baywright.files.revisions import write_revision
from baywright.problems import Problems

pytestmark = pytest.mark.skipif(shutil.which("git") is None, reason="there is no git here")


@pytest.fixture
def book(tmp_path: Path) -> Path:
    """A book in a repository, with one revision and a change that is not committed."""
    folder = Path(shutil.copytree(find_book("p1"), tmp_path / "books" / "p1"))
    _git(tmp_path, "init", "-q")
    _git(tmp_path, "add", ".")
    _git(tmp_path, "commit", "-q", "-m", "one")
    file = folder / "book.yaml"
    file.write_text(file.read_text("utf-8").replace("4.1 kg", "4.3 kg", 1), "utf-8")
    return folder


def test_a_revision_is_the_book_as_it_was(book: Path, tmp_path: Path) -> None:
    written = write_revision(book, "HEAD", tmp_path / "old")
    assert "4.1 kg" in (written / "book.yaml").read_text("utf-8")
    assert "4.3 kg" in (book / "book.yaml").read_text("utf-8")


def test_a_revision_is_compared_with_the_folder(book: Path) -> None:
    with change(f"{book}@HEAD", str(book), Request()) as asked:
        found = changes(asked.old, asked.new)
    (fact,) = found.facts
    assert fact.words == "chassis: mass empty: 4.1 kg becomes 4.3 kg."


@pytest.mark.parametrize("revision", ["nope", "--output=/tmp/x", "HEAD~9"])
def test_a_revision_that_is_none_is_told(book: Path, tmp_path: Path, revision: str) -> None:
    with pytest.raises(Problems) as found:
        write_revision(book, revision, tmp_path / "old")
    assert found.value.problems[0].kind == "no-revision"
    assert not (tmp_path / "old").exists()


def _git(folder: Path, *arguments: str) -> None:
    who = ("-c", "user.email=a@example.org", "-c", "user.name=A")
    subprocess.run(["git", "-C", str(folder), *who, *arguments], check=True, capture_output=True)  # noqa: S607 - git, with arguments of this test
