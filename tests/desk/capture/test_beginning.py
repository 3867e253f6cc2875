from __future__ import annotations

import json
import random
from pathlib import Path

import pytest
from pydantic import BaseModel
from typer.testing import CliRunner

from baywright.cli import app
from baywright.desk.capture.answering import read_answers, tree_of
from baywright.desk.capture.beginning import asked_by, begun
from baywright.desk.capture.keeping import keep_answers, kept_answers, to_ask_again
from baywright.desk.capture.questions import Answers, every_question, open_questions
from baywright.facts.build import Fitted
from baywright.facts.fact import Fact
from baywright.files.books import read_book
from baywright.problems import Problems

REED = Path(__file__).parents[2] / "books_by_others" / "r0" / "book.yaml"


def facts(value: object) -> object:
    """Return what a book says, without the places it says it in."""
    if isinstance(value, Fact):
        return value.text, value.could_be
    if isinstance(value, Fitted):
        return [(item.part, item.count) for item in value.items]
    if isinstance(value, BaseModel):
        return {name: facts(getattr(value, name)) for name in type(value).model_fields}
    if isinstance(value, dict):
        return {str(key): facts(inner) for key, inner in value.items()}
    return [facts(inner) for inner in value] if isinstance(value, list) else value


def answers_with(tmp_path: Path, old: str = "", new: str = "") -> Answers:
    text = REED.read_text("utf-8")
    assert old in text
    path = tmp_path / "answers.yaml"
    path.write_text(text.replace(old, new) if old else text, "utf-8")
    return read_answers(path)


def test_a_book_from_answers_says_what_the_answers_say(tmp_path: Path) -> None:
    made = begun(answers_with(tmp_path))
    assert made.problems == ()
    assert facts(made.book) == facts(read_book(REED.parent))


def test_answers_typed_one_by_one_make_the_same_book(tmp_path: Path) -> None:
    whole = answers_with(tmp_path)
    typed: list[str] = []
    so_far: Answers = {}
    while (question := next(open_questions(so_far), None)) is not None:
        so_far[question.path] = whole.get(question.path, "none")
        typed.append(so_far[question.path])
    folder = tmp_path / "typed"
    result = CliRunner().invoke(app, ["new", str(folder)], input="\n".join(typed) + "\n")
    assert result.exit_code == 0, result.output
    assert facts(read_book(folder)) == facts(read_book(REED.parent))


def test_a_list_can_be_stopped_anywhere_and_gone_on_with(tmp_path: Path) -> None:
    whole, folder, rng = answers_with(tmp_path), tmp_path / "book", random.Random(5)  # noqa: S311
    result = None
    while result is None or result.exit_code == 3:
        so_far = to_ask_again(kept_answers(folder))
        typed: list[str] = []
        for _ in range(rng.randint(5, 40)):
            question = next(open_questions(so_far), None)
            if question is None:
                break
            so_far[question.path] = whole.get(question.path, "none")
            typed.append(so_far[question.path])
        result = CliRunner().invoke(app, ["new", str(folder)], input="\n".join([*typed, "stop\n"]))
    assert result.exit_code == 0, result.output
    assert facts(read_book(folder)) == facts(read_book(REED.parent))


def test_back_takes_an_answer_back(tmp_path: Path) -> None:
    folder = tmp_path / "book"
    CliRunner().invoke(app, ["new", str(folder)], input="r0\nReed\nback\nback\nr1\nstop\n")
    assert kept_answers(folder) == {("book", "id"): "r1"}


def test_a_fact_that_could_be_several_leaves_the_book_sound(tmp_path: Path) -> None:
    made = begun(answers_with(tmp_path, "tdp: 12 W", "tdp: 'unknown: 12 or 14 W'"))
    assert made.book is not None
    assert facts(made.book.parts["cpu-4"])["tdp"] == ("unknown", ("12 W", "14 W"))  # type: ignore[index]


def test_a_needed_fact_that_nobody_knows_is_said_with_what_it_decides(tmp_path: Path) -> None:
    answers = answers_with(tmp_path, "ratings: {dc: 30 W}", "ratings: unknown")
    made = begun(answers)
    assert made.book is None
    (question,) = made.needed
    assert question.path == ("parts", "ps-30", "ratings")
    assert any("supplies_redundant" in laws for laws in asked_by(question, answers))
    assert "# ratings: unknown; needed:" in made.files["parts.yaml"]
    folder = tmp_path / "book"
    file = str(tmp_path / "answers.yaml")
    result = CliRunner().invoke(app, ["new", str(folder), "--answers", file, "--json"])
    assert result.exit_code == 2
    assert [each["path"] for each in json.loads(result.output)["unknown"]] == [
        "parts.ps-30.ratings"
    ]
    # What stayed open is asked again, and only that.
    result = CliRunner().invoke(app, ["new", str(folder)], input="dc: 30 W\n" + "none\n" * 40)
    assert result.exit_code == 0, result.output


def test_files_changed_by_hand_are_not_gone_over(tmp_path: Path) -> None:
    folder = tmp_path / "book"
    answers_with(tmp_path)
    command = ["new", str(folder), "--answers", str(tmp_path / "answers.yaml")]
    assert CliRunner().invoke(app, command).exit_code == 0
    assert CliRunner().invoke(app, command).exit_code == 0
    parts = folder / "parts.yaml"
    parts.write_text(parts.read_text("utf-8") + "# mine\n", "utf-8")
    result = CliRunner().invoke(app, command)
    assert result.exit_code == 2
    assert "was changed since it was begun" in result.output
    assert parts.read_text("utf-8").endswith("# mine\n")


@pytest.mark.parametrize(
    ("old", "new", "why"),
    [
        ("tdp: 12 W", "tdp: 12 kg", "parts.cpu-4.tdp: '12 kg' is a mass"),
        ("tdp: 12 W", "tpd: 12 W", "Nothing asks for parts.cpu-4.tpd. Did you mean 'tdp'?"),
        ("kind: boot", "kind: boat", "parts.card-64.kind: 'boat' is none of the words wanted"),
        ("tdp: 12 W", "tdp: {value: 12 W, note: hot}", "an answer is a value or could_be"),
        ("counts: [1]}\nair", "counts: [one]}\nair", "processors.counts: 'one' is not a whole"),
    ],
)
def test_what_is_no_answer_says_where_and_why(tmp_path: Path, old: str, new: str, why: str) -> None:
    with pytest.raises(Problems) as found:
        answers_with(tmp_path, old, new)
    assert any(why in str(each) for each in found.value.problems)
    assert all(each.mark for each in found.value.problems)


def test_kept_answers_come_back(tmp_path: Path) -> None:
    answers = answers_with(tmp_path)
    keep_answers(tmp_path / "book", answers)
    assert kept_answers(tmp_path / "book") == answers


def test_texts_that_yaml_reads_otherwise_survive(tmp_path: Path) -> None:
    odd = "a: b, [c] # d {e} 'f' \"g\""
    answers = answers_with(tmp_path)
    answers["book", "purpose"] = odd
    answers["parts", "fan", "name"] = odd
    book = begun(answers).book
    assert book
    assert (book.book.purpose.known, book.parts["fan"].name) == (odd, odd)


def test_every_question_says_what_is_wanted(tmp_path: Path) -> None:
    answers = answers_with(tmp_path)
    assert all(each.says and each.such_as for each in every_question(answers))
    assert tree_of(answers)[1] == []
