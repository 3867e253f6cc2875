"""A script as captions for a prompter (WebVTT): two lines, timed by the rate of speech.

WebVTT as in the W3C Candidate Recommendation of 2019-04-04 (from memory). Two lines of up to 42
signs are common practice for captions, no source.
"""

from __future__ import annotations

import textwrap
from collections.abc import Iterator
from itertools import pairwise

from baywright.papers.script import Script, Spoken

WIDTH = 42
"""Most signs of a line."""

LINES = 2
"""Most lines of a cue."""


def script_captions(script: Script) -> str:
    """Return a script as WebVTT, its numbers in words."""
    cues = [cue for each in script.spoken for cue in _cues(each)]
    note = f"NOTE {script.standing}"
    return "\n\n".join(["WEBVTT", note.replace("-->", "to"), *cues]) + "\n"


def _cues(said: Spoken) -> Iterator[str]:
    """Yield the cues of a sentence, each as long as its share of the words."""
    cues = _cut(said.aloud.split())
    number = sum(len(words) for words in cues)
    start, spoken = said.start, 0
    for words in cues:
        spoken += len(words)
        end = said.start + (said.end - said.start) * spoken / number
        text = "\n".join(_lines(words)).replace("&", "&amp;").replace("<", "&lt;")
        yield f"{_time(start)} --> {_time(end)}\n{text}"
        start = end


def _cut(words: list[str]) -> list[list[str]]:
    """Return words in as few cues as they need, of about the same length."""
    for number in range(1, len(words) + 1):
        edges = [round(len(words) * at / number) for at in range(number + 1)]
        cues = [words[begin:end] for begin, end in pairwise(edges)]
        if all(len(_lines(cue)) <= LINES for cue in cues):
            return cues
    return [[word] for word in words]


def _lines(words: list[str]) -> list[str]:
    return textwrap.wrap(" ".join(words), WIDTH, break_long_words=False, break_on_hyphens=False)


def _time(seconds: float) -> str:
    whole = round(seconds * 1000)
    minutes, rest = divmod(whole, 60_000)
    return f"{minutes // 60:02}:{minutes % 60:02}:{rest // 1000:02}.{rest % 1000:03}"
