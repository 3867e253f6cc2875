"""The page of papers: made in another process, waited for, fetched file by file or packed."""

from __future__ import annotations

import io
import re
import time
import zipfile
from html import unescape
from typing import Any

import pytest
from starlette.testclient import TestClient

from baywright.problems import Problems
from baywright.web.papers import Made, Paper, make, packed

WALK = "/papers/p1?make=walk&audience=service&minutes=6"


def _waited(client: TestClient, page: str) -> str:
    text = ""
    for _ in range(240):
        text = client.get(page).text
        if 'id="waiting"' not in text:
            return text
        time.sleep(0.5)
    raise AssertionError(text)


def test_a_walkthrough_is_made_and_fetched(client: TestClient) -> None:
    text = _waited(client, WALK)
    files = {
        name: unescape(at) for at, name in re.findall(r'<a href="([^"]+)" download>([^<]+)', text)
    }
    assert {"everything.zip", "script.md", "script.docx", "prompter.vtt"} <= set(files)
    script = client.get(files["script.md"])
    assert script.headers["content-type"].startswith("text/markdown")
    assert script.headers["content-disposition"] == "attachment; filename*=UTF-8''p1-script.md"
    whole = zipfile.ZipFile(io.BytesIO(client.get(files["everything.zip"]).content))
    assert whole.read("script.md") == script.content
    assert set(whole.namelist()) == set(files) - {"everything.zip"}


def test_a_file_that_is_not_made_yet_leads_to_the_page(client: TestClient) -> None:
    answer = client.get("/papers/p1/file?make=summary&name=summary.pdf")
    assert answer.status_code == 303
    assert answer.headers["location"] == "/papers/p1?make=summary"
    text = _waited(client, "/papers/p1?make=summary")
    assert "summary.pdf" in text
    assert client.get("/papers/p1/file?make=summary&name=summary.pdf").content[:5] == b"%PDF-"
    assert client.get("/papers/p1/file?make=summary&name=summary.exe").status_code == 422


@pytest.mark.parametrize(
    ("page", "says"),
    [
        ("/papers/p1?make=novel", "There is no paper 'novel'."),
        ("/papers/p1?make=walk&minutes=soon", "'soon' is no number."),
        ("/papers/p1?make=walk&audience=cats", "No walkthrough is for 'cats'."),
        ("/papers/p1?make=comparison&other=/etc", "There is no book '/etc' here."),
        ("/papers/p1?make=build&build=/etc/passwd", "has no build '/etc/passwd'."),
    ],
)
def test_what_cannot_be_made_says_why(client: TestClient, page: str, says: str) -> None:
    assert says in unescape(_waited(client, page))


def test_a_program_begins_a_paper_and_fetches_it(client: TestClient) -> None:
    body: dict[str, str] = {"kind": "models"}
    said: dict[str, Any] = {}
    for _ in range(240):
        said = client.post("/api/books/p1/papers", json=body).json()
        if said["done"]:
            break
        time.sleep(0.5)
    assert "models.pdf" in {each["name"] for each in said["files"]}
    sent = client.post("/api/books/p1/papers/file?name=models.pdf", json=body)
    assert sent.content[:5] == b"%PDF-"


def test_a_rate_that_nobody_speaks_at_is_refused() -> None:
    with pytest.raises(Problems, match="rate"):
        make(Paper("walk", "p1", rate="-3"), lambda _: None)


def test_packed_files_are_the_same_each_time() -> None:
    made = Made({"a.txt": b"one", "b/c.txt": b"two"})
    assert made.file("everything.zip") == packed(made.files) == packed(dict(made.files))
    assert made.file("c.txt") is None
