"""Where sentences end: abbreviations, initials, decimals and units do not end one.

A sentence that is split too late is not understood; one that is split too early could be read as
something it does not say. So a stop before a small letter ends nothing.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from baywright.language.word_forms import JOINING, several

# A run of stops is tried once, from its start, so that a row of dots costs no more than its length.
_STOP = re.compile(r"(?<![.!?…])(?P<stop>[.!?…]++)(?P<close>[\"'”’)\]*_]*+)\s++(?=\S)")
_LAST_WORD = re.compile(r"(?:^|[\s(\[\"'“‘])(\S+)$")
_WORD = re.compile(r"\w+")
_OPENERS = "\"'“‘([*_"

ABBREVIATIONS = several("approx ca cf e.g eg i.e ie vs viz dr mr mrs ms prof st")
"""Words with a stop after which a sentence goes on."""

BEFORE_NUMBERS = several(
    "ch fig figs no nos p pp pt sec tab vol ver max min incl excl resp "
    "jan feb mar apr jun jul aug sep sept oct nov dec"
)
"""Words with a stop after which a sentence goes on with a number."""


def sentence_spans(text: str) -> Iterator[tuple[int, int]]:
    """Yield where each sentence of a paragraph starts and ends, white space around it left out.

    >>> text = "It has 2.4 GHz, approx. No. 5 is new. Are there more? Yes."
    >>> [text[begin:end] for begin, end in sentence_spans(text)]
    ['It has 2.4 GHz, approx. No. 5 is new.', 'Are there more?', 'Yes.']
    """
    begin = len(text) - len(text.lstrip())
    for stop in _STOP.finditer(text):
        if stop.start() > begin and _ends(text, begin, stop):
            yield begin, stop.end("close")
            begin = stop.end()
    end = len(text.rstrip())
    if begin < end:
        yield begin, end


def _ends(text: str, begin: int, stop: re.Match[str]) -> bool:
    after = text[stop.end() : stop.end() + 2].lstrip(_OPENERS)
    if after[:1].islower():
        return stop["stop"][-1] in "!?" and not stop["close"]
    if stop["stop"] != ".":
        return True
    found = _LAST_WORD.search(text, max(begin, stop.start() - 40), stop.start())
    before = found.group(1) if found else ""
    word = before.casefold()
    if word in BEFORE_NUMBERS:
        return not after[:1].isdigit()
    if word in ABBREVIATIONS or _is_marker(text, begin, stop):
        return False
    following = _WORD.match(text, stop.end())
    starts = following is not None and following.group().casefold() in JOINING
    return starts or not _is_initial(text, begin, found)


def _is_marker(text: str, begin: int, stop: re.Match[str]) -> bool:
    """Say whether the stop belongs to the number of a list item, such as ``1.``."""
    return text[begin : stop.start()].isdigit()


def _is_initial(text: str, begin: int, found: re.Match[str] | None) -> bool:
    """Say whether the stop belongs to the initial of a name; zones and units are letters too."""
    if found is None or len(found.group(1)) != 1 or not found.group(1).isupper():
        return False
    before = text[begin : found.start(1)].split()
    if not before:
        return True
    word = before[-1]
    return word == "by" or (word[0].isupper() and word[1:].islower() and word != "Zone")
