"""The interface for programs about lists, machines that stand, and their care."""

from __future__ import annotations

import base64
from typing import Any

import pytest
from starlette.testclient import TestClient

from baywright.files.books import find_book, read_build
from tests.desk.reading.machines import opened
from tests.desk.reading.mockups import mockup


def _file(book: str, name: str) -> str:
    return (find_book(book) / name).read_text(encoding="utf-8")


N4 = _file("f2", "builds/n4.yaml")
ORDER = "part,number\ncpu-32,2\ndimm-64,16\nps-1300,2\n"


@pytest.mark.parametrize(
    ("book", "act", "body", "key"),
    [
        ("f2", "order", {"text": ORDER, "form": "csv"}, "answer"),
        ("f2", "order", {"text": "2 x 32-core processor"}, "answer"),
        ("f2", "parts", {"text": N4}, "answer"),
        ("f2", "service", {"text": N4, "places": ["R1b"]}, "plans"),
        ("f2", "lose", {"text": N4, "things": ["P2"]}, "lost"),
        (
            "f2",
            "spares",
            {"text": N4, "machines": "140", "level": "99 %", "lead": "14 d"},
            "depots",
        ),
        (
            "f1",
            "upgrade",
            {"build": _file("f1", "builds/n5-owned.yaml"), "need": _file("f1", "needs/n5.yaml")},
            "plans",
        ),
    ],
)
def test_what_is_worked_out(
    client: TestClient, book: str, act: str, body: dict[str, Any], key: str
) -> None:
    answer = client.post(f"/api/books/{book}/{act}", json=body)
    assert answer.status_code == 200, answer.text
    assert key in answer.json(), list(answer.json())


def test_builds_are_drawn_by_their_seed(client: TestClient) -> None:
    first, again = (
        client.get("/api/books/f2/random?number=3&seed=7").json()["builds"] for _ in range(2)
    )
    assert first == again
    assert len(first) == 3
    assert client.get("/api/books/f2/random?number=0").status_code == 422


def test_a_record_is_read_from_its_resources(client: TestClient) -> None:
    build = read_build(find_book("f2") / "builds" / "n2.yaml")
    tree = mockup(opened("f2").book, build)
    answer = client.post("/api/books/f2/read", json={"resources": tree})
    assert answer.status_code == 200, answer.text
    said = answer.json()
    assert said["judgement"]["answer"]["verdict"] == "yes"
    assert "/tmp" not in answer.text  # noqa: S108 - where the server put it is nobody's business


@pytest.mark.parametrize(
    ("body", "kind"),
    [
        ({}, "no-record"),
        ({"tables": "!"}, "not-base64"),
        ({"tables": base64.b64encode(b"no tables").decode()}, "no-tables"),
        ({"resources": {"/redfish/../../etc": {}}}, "strange-path"),
        ({"resources": {"/etc": {}}}, "strange-path"),
        ({"resources": {"/redfish/v1": {}}}, "no-system"),
    ],
)
def test_a_record_that_cannot_be_read_is_refused(
    client: TestClient, body: dict[str, Any], kind: str
) -> None:
    answer = client.post("/api/books/f2/read", json=body)
    assert answer.status_code == 422
    assert answer.json()["problems"][0]["kind"] == kind
    assert "/tmp" not in answer.text  # noqa: S108 - where the server put it is nobody's business


@pytest.mark.parametrize(
    ("act", "body"),
    [
        ("order", {"text": "\0"}),
        ("service", {"text": N4, "places": ["nowhere"]}),
        ("lose", {"text": N4, "things": ["nothing"]}),
        ("spares", {"text": "book: f2\n"}),
        ("upgrade", {"build": "book: f2\n", "need": "book: f2\n"}),
    ],
)
def test_problems_are_told_without_where_the_server_keeps_them(
    client: TestClient, act: str, body: dict[str, Any]
) -> None:
    answer = client.post(f"/api/books/f2/{act}", json=body)
    assert answer.status_code == 422, answer.text
    assert "/tmp" not in answer.text  # noqa: S108 - where the server put it is nobody's business


def test_no_book_is_opened_but_those_of_the_server(client: TestClient) -> None:
    build, need = _file("f1", "builds/n5-owned.yaml"), _file("f1", "needs/n5.yaml")
    body = {"build": build, "need": need, "to": ["/etc"]}
    assert client.post("/api/books/f1/upgrade", json=body).status_code == 404
