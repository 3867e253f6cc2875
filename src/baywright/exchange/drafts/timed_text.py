"""Captions: WebVTT and SubRip, their cues with time codes, sentences running over several cues.

WebVTT is read as the W3C Candidate Recommendation "WebVTT: The Web Video Text Tracks Format" of
2019-04-04 has it (from memory); SubRip has no standard, and is read as it is commonly written.
"""

from __future__ import annotations

import html
import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from baywright.exchange.drafts.refusing import first_of
from baywright.language.blocks import Block, Piece
from baywright.problems import Mark, Problem, Problems

LONGEST_PAUSE = 2.0
"""Seconds without a cue after which a sentence does not go on."""

MOST_WORDS = 60
"""Words without a stop after which a sentence is cut at the end of a cue."""

_CODE = r"(?:(\d{1,4}):)?(\d{2}):(\d{2})[.,](\d{3})"
_TIMING = re.compile(rf"[ \t]*{_CODE}[ \t]*-->[ \t]*{_CODE}(?:[ \t]+.*)?$")
_TAG = re.compile(r"</?[a-zA-Z][^<>\n]*>|<\d[\d:.]*>|\{\\[^{}\n]*\}")
_VOICE = re.compile(r"<v(?:\.[^\s<>]*)?[ \t]+([^<>\n]*)>")
_REFERENCE = re.compile(r"&#?\w{1,31};")
_TURN = re.compile(r"[ \t]*(?:-|–|>>)[ \t]*(?=\S)")
_ENDS = re.compile(r"[.!?…][\"'”’)\]]*(?:\s|$)")


@dataclass(frozen=True, slots=True)
class Cue:
    """One cue: when it is shown, and its lines with the number of the first.

    Args:
        start: seconds from the start.
        end: seconds from the start.
        line: line of the draft on which its text starts.
        lines: its text.
    """

    start: float
    end: float
    line: int
    lines: tuple[str, ...]


def caption_blocks(text: str, path: Path, *, web: bool) -> Iterator[Block]:
    """Return the blocks of captions: cues that follow one another as one run of speech.

    Args:
        text: the captions.
        path: their file, for problems.
        web: whether they are WebVTT; SubRip otherwise.

    Raises:
        Problems: kind ``time-code`` for each timing that cannot be right.
    """
    return _runs(cues(text, path, web=web))


def cues(text: str, path: Path, *, web: bool) -> list[Cue]:
    """Return the cues of captions in their order.

    Raises:
        Problems: kind ``time-code`` for each timing that cannot be right.
    """
    found: list[Cue] = []
    wrong: list[Problem] = []
    for number, lines in _paragraphs(text):
        if web and (number == 1 or lines[0].split(maxsplit=1)[0] in ("NOTE", "STYLE", "REGION")):
            continue
        try:
            found.append(_cue(number, lines, path))
        except Problems as problems:
            wrong += problems.problems
    if wrong:
        raise first_of(wrong)
    return found


def time_code(seconds: float) -> str:
    """Return a time as a time code.

    >>> time_code(250.5)
    '00:04:10.500'
    """
    whole = round(seconds * 1000)
    minutes, rest = divmod(whole, 60_000)
    return f"{minutes // 60:02}:{minutes % 60:02}:{rest // 1000:02}.{rest % 1000:03}"


def _paragraphs(text: str) -> Iterator[tuple[int, list[str]]]:
    """Yield runs of lines that are not empty, each with the number of its first line."""
    waiting: list[str] = []
    for number, line in enumerate([*text.split("\n"), ""], 1):
        if line.strip():
            waiting.append(line)
        elif waiting:
            yield number - len(waiting), waiting
            waiting = []


def _cue(number: int, lines: Sequence[str], path: Path) -> Cue:
    """Read one cue; its timing is its first line, or its second below a name or number."""
    at = next((at for at, line in enumerate(lines[:2]) if "-->" in line), None)
    if at is None:
        raise _wrong("A cue has no timing here.", Mark(str(path), number, 1))
    timing = _TIMING.match(lines[at])
    mark = Mark(str(path), number + at, 1)
    if timing is None:
        raise _wrong(f"{lines[at].strip()[:60]!r} is no timing.", mark)
    start, end = _seconds(timing.groups()[:4], mark), _seconds(timing.groups()[4:], mark)
    if end <= start:
        message = f"A cue ends at {time_code(end)} and starts at {time_code(start)}."
        raise _wrong(message, mark)
    return Cue(start, end, number + at + 1, tuple(lines[at + 1 :]))


def _seconds(code: Sequence[str | None], mark: Mark) -> float:
    hours, minutes, seconds, thousandths = (int(part or 0) for part in code)
    if minutes > 59 or seconds > 59:
        raise _wrong(f"{minutes:02}:{seconds:02} is no time; both go up to 59.", mark)
    return hours * 3600 + minutes * 60 + seconds + thousandths / 1000


def _wrong(message: str, mark: Mark) -> Problems:
    hint = "Write it like 00:04:10.500 --> 00:04:13.000, on a line before the text."
    return Problems([Problem("time-code", message, mark, hint)])


def _runs(found: Iterable[Cue]) -> Iterator[Block]:
    """Join cues into runs: until a pause, another voice, or too many words without a stop."""
    run: list[Piece] = []
    voice, ended, words = "", 0.0, 0
    for cue in found:
        for number, line in enumerate(cue.lines, cue.line):
            said = _VOICE.search(line)
            turn = _TURN.match(line)
            changed = bool(said and said.group(1) != voice)
            if run and (turn or changed or cue.start - ended > LONGEST_PAUSE or words > MOST_WORDS):
                yield Block(tuple(run), "", "cue")
                run, words = [], 0
            voice = said.group(1) if said else voice
            pieces = list(_pieces(line, turn.end() if turn else 0, number, cue))
            run += [*pieces, Piece(" ", number, len(line) + 1, _where(cue), cue.start, cue.end)]
            *ended_here, rest = _ENDS.split("".join(piece.text for piece in pieces))
            words = len(rest.split()) + (0 if ended_here else words)
            ended = cue.end
    if run:
        yield Block(tuple(run), "", "cue")


def _pieces(line: str, begin: int, number: int, cue: Cue) -> Iterator[Piece]:
    """Yield what a line says, tags left out and references resolved."""
    at = begin
    for found in sorted(
        [*_TAG.finditer(line, begin), *_REFERENCE.finditer(line, begin)],
        key=lambda match: match.start(),
    ):
        if found.start() < at:
            continue
        yield from _said(line[at : found.start()], number, at, cue)
        if found.group().startswith("&"):
            yield from _said(html.unescape(found.group()), number, found.start(), cue)
        at = found.end()
    yield from _said(line[at:], number, at, cue)


def _said(text: str, number: int, at: int, cue: Cue) -> Iterator[Piece]:
    if text:
        yield Piece(text, number, at + 1, _where(cue), cue.start, cue.end)


def _where(cue: Cue) -> str:
    return time_code(cue.start)
