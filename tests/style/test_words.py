"""Words that have no place in what we publish: how we came to know something, and whose desk."""

from __future__ import annotations

import pytest

from tests.style.sources import texts

# Written in pieces, so that this file does not contain what it looks for.
UNWANTED = (
    "trans" + "cript",
    "seed" + " document",
    "TO" + "DO",
    "FIX" + "ME",
    "/work" + "/shared",
    "/work" + "/main",
    "/home" + "/",
)


@pytest.mark.parametrize("word", UNWANTED)
def test_no_file_has_the_word(word: str) -> None:
    found = [path for path, text in texts() if word.casefold() in text.casefold()]
    assert found == []
