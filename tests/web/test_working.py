"""Working: steps in the address, kept builds, two people at one build, facts changed safely."""

from __future__ import annotations

import re
from html import unescape
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from baywright.store import Store
from baywright.web.app import create_app
from baywright.web.bench_address import BenchAddress
from baywright.web.settings import Settings

STEPS = ("P1:cpu-32", "P2:cpu-32", "A:S8", "O2:net-25")


def mark(client: TestClient, page: str = "/sign-in") -> str:
    found = re.search(r'name="mark" value="([0-9a-f]{64})"', client.get(page).text)
    assert found
    return found[1]


def keep(client: TestClient, name: str, steps: tuple[str, ...], **more: str) -> str:
    fields: dict[str, str | list[str]] = {"mark": mark(client), "name": name, "s": list(steps)}
    answer = client.post("/bench/f2/keep", data={**fields, **more})
    return answer.headers["location"] if answer.status_code == 303 else answer.text


def test_undo_and_redo_go_through_the_same_addresses() -> None:
    state = BenchAddress("f2", STEPS, at="B")
    back = state.undo()
    assert back is not None
    assert (back.steps, back.undone) == (STEPS[:-1], STEPS[-1:])
    again = back.redo()
    assert again is not None
    assert (again.steps, again.undone) == (STEPS, ())
    assert state.until(1).undone == STEPS[1:]
    assert BenchAddress("f2").undo() is None
    assert BenchAddress("f2").redo() is None


def test_a_step_that_does_not_fit_is_left_out_and_said(client: TestClient) -> None:
    text = client.get("/bench/f2?s=O2:net-25&s=C:N8h").text
    assert "Left out, because they do not fit what came before" in text


def test_what_fits_if_something_changes_says_what_and_does_it(client: TestClient) -> None:
    text = client.get("/bench/f2?s=P2:cpu-16&s=O2:net-25&at=C&why=1").text
    offer = re.search(r'<li class="offer if".*?</section>', text, re.DOTALL)
    assert offer
    assert "network module O2" in offer[0]
    assert "O2 and C share 16 lanes." in offer[0]
    link = re.search(r'class="fit" href="([^"]+)"', offer[0])
    assert link
    assert "Left out" not in client.get(unescape(link[1])).text


def test_filling_in_leaves_nothing_open(client: TestClient) -> None:
    for by in ("parts", "price"):
        answer = client.get(f"/bench/f2/complete?by={by}&s=A:S8")
        assert answer.status_code == 303
        assert "0 places are open" in client.get(answer.headers["location"]).text


def test_a_kept_build_is_found_again_as_it_was(client: TestClient) -> None:
    address = keep(client, 'Small "room"', STEPS)
    kept = re.search(r"kept=([0-9a-f]+)", address)
    assert kept
    opened = client.get(f"/kept/{kept[1]}").headers["location"]
    said = client.get(opened).text
    assert "32-core processor" in said
    assert "Small &#34;room&#34;" in client.get("/").text


def test_two_people_editing_one_build_lose_nothing(client: TestClient) -> None:
    """Both start from version 1; the second to keep is shown both versions and writes neither."""
    first = keep(client, "shared", STEPS[:2])
    kept = re.search(r"kept=([0-9a-f]+)", first)
    assert kept
    mine = keep(client, "shared", STEPS, kept=kept[1], version="1")
    assert "version=2" in mine
    theirs = keep(client, "shared", STEPS[:3], kept=kept[1], version="1")
    assert "Changed in the meantime" in theirs
    assert "now at version 2" in theirs
    again = keep(client, "shared", STEPS[:3], kept=kept[1], version="2")
    assert "version=3" in again


def test_a_form_without_its_mark_does_nothing(client: TestClient) -> None:
    before = client.get("/").text.count("/kept/")
    answer = client.post("/bench/f2/keep", data={"name": "forged", "s": "A:S8"})
    assert answer.status_code == 422
    assert client.get("/").text.count("/kept/") == before


def test_questions_of_a_visit_are_listed_for_that_visit(client: TestClient) -> None:
    client.get("/ask/f2", params={"q": "processors == 2"})
    assert "processors == 2" in client.get("/ask/f2").text
    client.cookies.clear()
    assert "processors == 2" not in client.get("/ask/f2").text


def test_a_question_in_plain_words_is_answered_with_a_reply(client: TestClient) -> None:
    said = client.get("/ask/f2", params={"q": "Where can the fault display go?"})
    assert said.status_code == 200
    assert "It goes in zone C." in said.text
    assert "Ready to be pasted into a reply" in said.text
    lost = client.get("/ask/f2", params={"q": "Why is the sky so very blue?"})
    assert lost.status_code == 422


def test_the_builds_of_an_answer_are_open_on_the_bench(client: TestClient) -> None:
    for question in ("processors == 2", "processors == 2 and fans == 4"):
        text = client.get("/ask/f2", params={"q": question}).text
        link = re.search(r'<a href="(/bench/f2\?s=[^"]+)"', text)
        assert link, question
        bench = client.get(unescape(link[1])).text
        assert "0 places are open" in bench
        assert "Left out" not in bench


def test_a_draft_is_marked_sentence_by_sentence(client: TestClient) -> None:
    fields = {"mark": mark(client), "text": "The F2 has 28 memory sockets."}
    answer = client.post("/proofread/f2", data=fields)
    assert answer.status_code == 200
    assert "proof-false" in answer.text
    empty = client.post("/proofread/f2", data={**fields, "text": " "})
    assert empty.status_code == 422


def test_a_need_that_cannot_be_read_is_told_at_its_line(client: TestClient) -> None:
    fields = {"mark": mark(client), "text": "book: f2\nx: 1\n", "do": "propose"}
    answer = client.get(client.post("/need/f2", data=fields).headers["location"])
    assert answer.status_code == 422
    assert "need:2:1" in answer.text


@pytest.fixture
def owned(own_book: Path, store: Store) -> TestClient:
    app = create_app(Settings(books=(str(own_book),)), store)
    return TestClient(app, base_url="http://127.0.0.1", follow_redirects=False)


def _edit(client: TestClient, path: str) -> dict[str, str]:
    text = client.get(f"/facts/p1?edit={path}").text
    seen = re.search(r'name="seen" value="([^"]+)"', text)
    assert seen
    return {"mark": mark(client), "path": path, "seen": seen[1]}


def test_a_fact_is_changed_in_its_file_and_used_at_once(owned: TestClient, own_book: Path) -> None:
    fields = _edit(owned, "power.base")
    assert owned.post("/facts/p1", data={**fields, "value": "19 W"}).status_code == 303
    assert "19 W" in owned.get("/facts/p1?section=power").text
    assert any("19 W" in file.read_text() for file in own_book.glob("*.yaml"))


def test_a_fact_is_not_changed_in_a_file_that_changed(owned: TestClient, own_book: Path) -> None:
    fields = _edit(owned, "power.base")
    file = own_book / "book.yaml"
    file.write_text(file.read_text() + "\n# somebody else was here\n")
    answer = owned.post("/facts/p1", data={**fields, "value": "19 W"})
    assert answer.status_code == 409
    assert "has changed since it was read" in answer.text
    assert "19 W" not in file.read_text()


def test_a_fact_that_cannot_be_is_told_where(owned: TestClient) -> None:
    answer = owned.post("/facts/p1", data={**_edit(owned, "power.base"), "value": "19 kg"})
    assert answer.status_code == 422
    assert 'value="19 kg"' in answer.text
    assert 'role="alert"' in answer.text
