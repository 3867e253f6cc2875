"""The interface for programs: the desk as JSON, described by OpenAPI, with tokens."""

from __future__ import annotations

import re

import pytest
from starlette.testclient import TestClient

from baywright.files.books import find_book
from baywright.store import Store
from baywright.web.app import create_app
from baywright.web.settings import Settings

PASSWORD = "correct horse battery"  # noqa: S105 - of a person that a test makes up


def _file(name: str) -> str:
    return (find_book("f2") / name).read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("path", "key"),
    [
        ("/api/books", "books"),
        ("/api/books/f2/check", "buildable"),
        ("/api/books/f2/facts", "facts"),
        ("/api/books/f2/words", "names"),
        ("/api/books/f2/options?given=processors == 1", "options"),
        ("/api/books/f2/count", "counts"),
        ("/api/books/f1/compare/f2", "rows"),
        ("/api/builds", "builds"),
    ],
)
def test_what_is_read(client: TestClient, path: str, key: str) -> None:
    answer = client.get(path)
    assert answer.status_code == 200, answer.text
    assert key in answer.json()


@pytest.mark.parametrize(
    ("act", "body", "key"),
    [
        ("ask", {"question": "processors == 2", "altitude": "1200 m"}, "answer"),
        ("judge", {"text": _file("builds/n4.yaml")}, "answer"),
        ("size", {"text": _file("builds/n4.yaml"), "volts": "230 V"}, "limits"),
        ("fit", {"text": _file("needs/n4.yaml")}, "outcomes"),
        ("proofread", {"text": "The F2 has 28 memory sockets."}, "remarks"),
        ("bench", {"steps": ["A:S8"]}, "options"),
        ("bench", {"steps": ["A:S8"], "pins": ["A"], "volts": "120 V"}, "builds_left"),
    ],
)
def test_what_is_worked_out(
    client: TestClient, act: str, body: dict[str, object], key: str
) -> None:
    answer = client.post(f"/api/books/f2/{act}", json=body)
    assert answer.status_code == 200, answer.text
    assert key in answer.json()


@pytest.mark.parametrize(
    ("act", "body", "status"),
    [
        ("ask", {"question": "nonsense ("}, 422),
        ("ask", {"question": "processors == 2", "as_of": "soon"}, 422),
        ("ask", {}, 422),
        ("judge", {"text": "a: ["}, 422),
        ("bench", {"steps": ["A"]}, 422),
        ("bench", {"steps": [], "pins": ["Z9"]}, 422),
        ("bench", {"steps": [], "must": ["processors == 9"]}, 422),
    ],
)
def test_problems_are_told_as_problems(
    client: TestClient, act: str, body: dict[str, object], status: int
) -> None:
    answer = client.post(f"/api/books/f2/{act}", json=body)
    assert answer.status_code == status
    assert answer.json()["problems"][0]["message"]


def test_a_form_of_somebody_else_cannot_act_through_the_interface(client: TestClient) -> None:
    """A page elsewhere can send text without asking first, but not JSON; so only JSON is read."""
    sent = '{"name": "forged", "book": "f2", "text": "book: f2\\nname: x\\n"}'
    answer = client.post("/api/builds", content=sent, headers={"content-type": "text/plain"})
    assert answer.status_code == 422


def test_another_name_of_this_machine_is_not_answered(client: TestClient) -> None:
    assert client.get("/api/books", headers={"host": "elsewhere.example"}).status_code == 421


def test_builds_are_kept_and_changed_with_their_version(client: TestClient) -> None:
    made = client.post("/api/builds", json={"name": "n", "book": "f2", "text": "book: f2\nname: n"})
    assert made.status_code == 201, made.text
    path, change = f"/api/builds/{made.json()['id']}", {"version": 1, "text": "book: f2\nname: m"}
    assert client.put(path, json=change).json()["version"] == 2
    assert client.put(path, json=change).status_code == 409
    assert client.get(path).json()["text"] == "book: f2\nname: m"
    assert client.get("/api/builds/none").status_code == 404


def test_a_token_gives_a_program_no_more_than_its_scopes(store: Store) -> None:
    person = store.people.add("will", PASSWORD, ["work"])
    client = TestClient(create_app(Settings(accounts=True), store))
    assert client.get("/api/books").status_code == 401
    secret = store.tokens.issue(person, "reader", ["read"])
    with_token = {"authorization": f"Bearer {secret}"}
    assert client.get("/api/books", headers=with_token).status_code == 200
    body = {"name": "n", "book": "p1", "text": "book: p1\nname: n"}
    assert client.post("/api/builds", json=body, headers=with_token).status_code == 403
    store.tokens.revoke(person, "reader")
    assert client.get("/api/books", headers=with_token).status_code == 401


def test_the_description_names_every_way_in(client: TestClient) -> None:
    paths = client.get("/api/openapi.json").json()["paths"]
    assert len(paths) >= 18
    assert all(re.match(r"/api/", path) for path in paths)
