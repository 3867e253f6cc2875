"""Access: who may read, work and change facts; how often; how much at once."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from baywright.problems import Problems
from baywright.store import Passwords, Store, open_store
from baywright.web.app import create_app
from baywright.web.limits import MOST_KEPT, Rate
from baywright.web.serving import serve
from baywright.web.settings import Settings

PASSWORD = "correct horse battery"  # noqa: S105 - of a person that a test makes up


@pytest.fixture
def guarded(store: Store, own_book: Path) -> TestClient:
    """A workbench with accounts, and three people."""
    for name, roles in (("rita", ["read"]), ("will", ["work"]), ("olga", ["own:p1"])):
        store.people.add(name, PASSWORD, roles)
    settings = Settings(accounts=True, books=(str(own_book),))
    return TestClient(create_app(settings, store), follow_redirects=False)


def _mark(client: TestClient) -> str:
    found = re.search(r'name="mark" value="([0-9a-f]{64})"', client.get("/sign-in").text)
    assert found
    return found[1]


def sign_in(client: TestClient, name: str, password: str = PASSWORD) -> int:
    fields = {"mark": _mark(client), "name": name, "password": password, "to": "/facts/p1"}
    return client.post("/sign-in", data=fields).status_code


def test_a_page_is_for_people_who_signed_in(guarded: TestClient) -> None:
    answer = guarded.get("/bench/p1?s=D:")
    assert answer.status_code == 303
    assert answer.headers["location"].startswith("/sign-in?to=%2Fbench%2Fp1")
    assert guarded.post("/bench/p1/keep", data={}).status_code in {303, 422}


def test_a_wrong_password_signs_nobody_in(guarded: TestClient) -> None:
    assert sign_in(guarded, "rita", "wrong horse battery") == 401
    assert guarded.get("/").status_code == 303


@pytest.mark.parametrize(("name", "keeps", "changes"), [
    ("rita", False, False), ("will", True, False), ("olga", True, True),
])  # fmt: skip
def test_roles(guarded: TestClient, name: str, keeps: bool, changes: bool) -> None:
    assert sign_in(guarded, name) == 303
    assert guarded.get("/").status_code == 200
    kept = guarded.post("/bench/p1/keep", data={"mark": _mark(guarded), "name": "mine"})
    assert kept.status_code == (303 if keeps else 403)
    assert guarded.get("/facts/p1?edit=power.base").status_code == (200 if changes else 403)


def test_signing_in_changes_the_mark_and_signing_out_ends_it(guarded: TestClient) -> None:
    before = _mark(guarded)
    sign_in(guarded, "will")
    assert guarded.post("/sign-out", data={"mark": before}).status_code == 422
    assert guarded.post("/sign-out", data={"mark": _mark(guarded)}).status_code == 303
    assert guarded.get("/").status_code == 303


def test_cookies_are_out_of_reach_of_scripts(guarded: TestClient) -> None:
    fields = {"mark": _mark(guarded), "name": "will", "password": PASSWORD}
    said = guarded.post("/sign-in", data=fields).headers["set-cookie"]
    assert "HttpOnly" in said
    assert "SameSite=lax" in said


def test_too_many_attempts_are_refused(store: Store) -> None:
    client = TestClient(create_app(Settings(accounts=True, sign_ins=3), store))
    answers = [sign_in(client, "nobody", "wrong horse battery") for _ in range(5)]
    assert answers == [401, 401, 401, 429, 429]


def test_a_rate_fills_up_again_and_forgets_the_oldest() -> None:
    now = 0.0
    rate = Rate(2, clock=lambda: now)
    assert [rate.allows("a") for _ in range(3)] == [True, True, False]
    now = 30.0
    assert rate.allows("a")
    for number in range(MOST_KEPT):
        rate.allows(str(number))
    assert rate.allows("a")


def test_a_large_request_is_refused_before_it_is_read(store: Store) -> None:
    client = TestClient(create_app(Settings(largest=1000), store), base_url="http://127.0.0.1")
    assert client.post("/proofread/f2", data={"text": "x" * 2000}).status_code == 413


def test_nobody_serves_an_open_door(tmp_path: Path) -> None:
    database = f"sqlite:///{tmp_path / 'store.sqlite'}"
    with pytest.raises(Problems, match="open-door"):
        serve(Settings(host="0.0.0.0", accounts=False, database=database), print)  # noqa: S104
    with pytest.raises(Problems, match="nobody"):
        serve(Settings(host="0.0.0.0", database=database), print)  # noqa: S104


def test_passwords_are_kept_as_digests_only(tmp_path: Path) -> None:
    path = tmp_path / "store.sqlite"
    with open_store(f"sqlite:///{path}", passwords=Passwords()) as store:
        store.people.add("anna", PASSWORD, ["read"])
    assert PASSWORD.encode() not in path.read_bytes()
