"""Files of kept answers: one JSON object on each line, added to and never rewritten."""

from __future__ import annotations

import json
import os
from collections.abc import Iterator
from pathlib import Path

from baywright.desk.kept.entry import Entry, entry_from
from baywright.problems import Mark, Problems, problem


def read_kept(path: Path) -> tuple[Entry, ...]:
    """Read kept answers; a file that is not there yet holds none.

    Raises:
        Problems: kinds ``not-a-file`` and ``not-an-answer``, the latter with its line.
    """
    if not path.exists():
        return ()
    try:
        text = path.read_text("utf-8")
    except (OSError, UnicodeDecodeError) as error:
        hint = "Name a file of kept answers."
        raise problem("not-a-file", f"{path} cannot be read.", None, hint) from error
    return tuple(_read(text, str(path)))


def _read(text: str, file: str) -> Iterator[Entry]:
    for number, line in enumerate(text.splitlines(), 1):
        if not line.strip():
            continue
        try:
            yield entry_from(json.loads(line))
        except (KeyError, TypeError, ValueError, AttributeError, Problems) as error:
            hint = "Restore this line, or take it out."
            message = "This line is not a kept answer."
            raise problem("not-an-answer", message, Mark(file, number, 1), hint) from error


def add_kept(path: Path, entry: Entry) -> None:
    """Add an answer to a file; when this returns, it is on disk.

    Raises:
        Problems: kind ``not-written``; the file is then as it was, or ends in a line that reading
            points at.
    """
    line = json.dumps(entry.as_json(), ensure_ascii=False) + "\n"
    try:
        with path.open("a", encoding="utf-8") as stream:
            stream.write(line)
            stream.flush()
            os.fsync(stream.fileno())
    except OSError as error:
        why = error.strerror or type(error).__name__
        hint = "Make room, or name another file."
        raise problem("not-written", f"{path} cannot be written: {why}.", None, hint) from error
