"""A workbench for the tests: a store in a folder, and a copy of a book that may be changed."""

from __future__ import annotations

import re
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from baywright.files.books import find_book
from baywright.store import Store, open_store
from baywright.web.app import create_app
from baywright.web.settings import Settings
from tests.store.conftest import server

__all__ = ["server"]

MARK = re.compile(r'name="mark" value="([0-9a-f]{64})"')


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    with open_store(f"sqlite:///{tmp_path / 'store.sqlite'}") as opened:
        yield opened


@pytest.fixture
def own_book(tmp_path: Path) -> Path:
    """A copy of the smallest book, to be changed."""
    return Path(shutil.copytree(find_book("p1"), tmp_path / "p1"))


@pytest.fixture(scope="session")
def _shared(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient]:
    folder = tmp_path_factory.mktemp("shared")
    with open_store(f"sqlite:///{folder / 'store.sqlite'}") as opened:
        yield TestClient(
            create_app(Settings(), opened),
            base_url="http://127.0.0.1",
            follow_redirects=False,
        )


@pytest.fixture
def client(_shared: TestClient) -> TestClient:
    """A browser that nobody used before, at a workbench whose books are open already."""
    _shared.cookies.clear()
    return _shared


def mark(client: TestClient, page: str = "/sign-in") -> str:
    """Return the mark that the forms of a page carry."""
    found = MARK.search(client.get(page).text)
    assert found, page
    return found[1]
