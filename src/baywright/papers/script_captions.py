"""A script as captions for a prompter (WebVTT): two lines, timed by the rate of speech.

WebVTT as in the W3C Candidate Recommendation of 2019-04-04 (from memory). Two lines of up to 42
signs are common practice for captions, no source.
"""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

from baywright.papers.script import Script, Spoken

WIDTH = 42
"""Most signs of a line."""

LINES = 2
"""Most lines of a cue."""


def script_captions(script: Script) -> str:
    """Return a script as WebVTT, its numbers in words."""
    cues = [cue for each in script.spoken for cue in _cues(each)]
    note = f"NOTE {script.machine}, {script.standing}"
    return "\n\n".join(["WEBVTT", note.replace("-->", "to"), *cues]) + "\n"


def _cues(said: Spoken) -> Iterator[str]:
    """Yield the cues of a sentence, each as long as its share of the words."""
    lines = textwrap.wrap(said.aloud, WIDTH, break_long_words=False, break_on_hyphens=False)
    number = len(said.aloud.split())
    start, words = said.start, 0
    for begin in range(0, len(lines), LINES):
        held = lines[begin : begin + LINES]
        words += sum(len(line.split()) for line in held)
        end = said.start + (said.end - said.start) * words / number
        text = "\n".join(line.replace("&", "&amp;").replace("<", "&lt;") for line in held)
        yield f"{_time(start)} --> {_time(end)}\n{text}"
        start = end


def _time(seconds: float) -> str:
    whole = round(seconds * 1000)
    minutes, rest = divmod(whole, 60_000)
    return f"{minutes // 60:02}:{minutes % 60:02}:{rest // 1000:02}.{rest % 1000:03}"
