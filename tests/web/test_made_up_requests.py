"""Made-up requests to every operation of the interface: none is answered by a server error."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import schemathesis
from fastapi import FastAPI
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from schemathesis.core.result import Ok

from baywright.files.books import find_book
from baywright.store import open_store
from baywright.web.api import ROUTERS
from baywright.web.app import create_app
from baywright.web.settings import Settings

FEW, MANY = 6, 150
"""Requests to each operation, at a desk and in the long tests."""

ADDRESS = "http://127.0.0.1"


def _operations() -> list[str]:
    app = FastAPI()
    for router in ROUTERS:
        app.include_router(router)
    paths = app.openapi()["paths"]
    return sorted(f"{each.upper()} {path}" for path, methods in paths.items() for each in methods)


OPERATIONS = _operations()

BOOK = find_book("p1")
TEXTS = [
    *(file.read_text(encoding="utf-8") for file in sorted(BOOK.glob("builds/*.yaml"))),
    *(file.read_text(encoding="utf-8") for file in sorted(BOOK.glob("needs/*.yaml"))),
    "book: p1\nname: x\n",
    "The P1 has two drives.",
    "2 x 960 GB data drive",
]
KNOWN = {
    "question": ["processors == 1", "memory", "most(memory)", "count(drive) == 3"],
    "given": ["", "processors == 1", "count(drive) == 9"],
    "text": TEXTS,
    "build": TEXTS,
    "need": TEXTS,
    "volts": ["", "230 V"],
}
"""Values that make sense, so that requests come further than to the first check."""


@pytest.fixture(scope="module")
def app(tmp_path_factory: pytest.TempPathFactory) -> Iterator[FastAPI]:
    folder: Path = tmp_path_factory.mktemp("made-up")
    with open_store(f"sqlite:///{folder / 'store.sqlite'}") as store:
        yield create_app(Settings(books=("p1",), reads=10**9, writes=10**9), store)


@pytest.fixture(scope="module")
def described(app: FastAPI) -> dict[str, Any]:
    """The operations by method and path."""
    schema = schemathesis.openapi.from_asgi("/api/openapi.json", app, headers={"host": "127.0.0.1"})
    operations = (each.ok() for each in schema.get_all_operations() if isinstance(each, Ok))
    return {f"{each.method.upper()} {each.path}": each for each in operations}


@pytest.mark.parametrize("name", OPERATIONS)
def test_a_made_up_request_is_no_server_error(described: dict[str, Any], name: str) -> None:
    _send(described[name], FEW)


@pytest.mark.slow
@pytest.mark.parametrize("name", OPERATIONS)
def test_no_made_up_request_is_a_server_error(described: dict[str, Any], name: str) -> None:
    _send(described[name], MANY)


def _send(operation: Any, number: int) -> None:
    @settings(
        max_examples=number,
        suppress_health_check=list(HealthCheck),
        deadline=None,
        database=None,
    )
    @given(case=operation.as_strategy(), data=st.data())
    def check(case: Any, data: st.DataObject) -> None:
        if "book" in (case.path_parameters or {}) and data.draw(st.integers(0, 3)):
            case.path_parameters["book"] = "p1"
        for fields in (case.body, case.query):
            if isinstance(fields, dict):
                _make_sense(fields, data)
        answer = case.call(base_url=ADDRESS)
        assert answer.status_code != 500, case.as_curl_command()
        if answer.status_code >= 500:
            assert answer.json()["problems"][0]["hint"], case.as_curl_command()

    check()


def _make_sense(fields: dict[str, Any], data: st.DataObject) -> None:
    for name, values in KNOWN.items():
        if name in fields and data.draw(st.booleans()):
            fields[name] = data.draw(st.sampled_from(values))
