"""Answers kept in the folder of a new book, so that a question list can be gone on with."""

from __future__ import annotations

import json
from pathlib import Path

from baywright.desk.capture.beginning import KEPT
from baywright.desk.capture.questions import UNKNOWN, Answers, every_question
from baywright.files.disk import is_file, read_bytes
from baywright.files.folders import write_files
from baywright.problems import problem


def kept_answers(folder: Path) -> Answers:
    """Return the answers kept in a folder; none where there are none.

    Raises:
        Problems: kind ``no-answer`` when they cannot be read.
    """
    path = folder / KEPT
    if not is_file(path):
        return {}
    try:
        held = json.loads(read_bytes(path, str(path)))
        return {tuple(key.split("/")): str(text) for key, text in held.items()}
    except (ValueError, AttributeError) as error:
        hint = "Delete it to start again."
        raise problem("no-answer", f"{path} holds no answers.", None, hint) from error


def keep_answers(folder: Path, answers: Answers) -> None:
    """Keep answers in a folder.

    Raises:
        Problems: kind ``unwritable``.
    """
    held = {"/".join(path): text for path, text in answers.items()}
    write_files({KEPT: json.dumps(held, indent=1, ensure_ascii=False) + "\n"}, folder)


def to_ask_again(answers: Answers) -> Answers:
    """Return answers without those that left open what a book cannot do without."""
    needed = {question.path for question in every_question(answers) if question.needed}
    return {
        path: text for path, text in answers.items() if not (path in needed and text == UNKNOWN)
    }
