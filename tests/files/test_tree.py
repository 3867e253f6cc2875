from __future__ import annotations

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from baywright.facts.fact import Scalar
from baywright.files.tree import Node, read_tree
from baywright.problems import Mark, Problems


def _problems(text: str | bytes) -> list[tuple[str, int, int]]:
    data = text.encode() if isinstance(text, str) else text
    try:
        found = read_tree(data, "f.yaml").problems
    except Problems as error:
        found = error.problems
    return [
        (problem.kind, problem.mark.line, problem.mark.column) for problem in found if problem.mark
    ]


def _value(text: str, *keys: str) -> Scalar:
    node: Node = read_tree(text.encode(), "f.yaml").root
    for key in keys:
        assert isinstance(node, dict)
        node = next(value for known, value in node.items() if known == key)
    assert isinstance(node, Scalar)
    return node


def test_every_value_stays_text() -> None:
    text = "a: yes\nb: 12:30\nc: 1e3\nd: 0o17\ne: 2031-07-01\nf: 1_000\n"
    assert read_tree(text.encode(), "f").root == {
        "a": "yes",
        "b": "12:30",
        "c": "1e3",
        "d": "0o17",
        "e": "2031-07-01",
        "f": "1_000",
    }


def test_values_know_their_place_and_path() -> None:
    value = _value("a:\n  b: {c: 5 W}\n", "a", "b", "c")
    assert value.mark == Mark("f.yaml", 2, 10)
    assert value.path == "a.b.c"


def test_the_place_of_a_quoted_text_is_that_of_its_first_character() -> None:
    assert _value("a: '5 W'\n", "a").mark == Mark("f.yaml", 1, 5)


def test_keys_know_their_place_and_path() -> None:
    root = read_tree(b"a:\n  b.c: 1\n", "f").root
    assert isinstance(root, dict)
    inner = next(iter(root.values()))
    assert isinstance(inner, dict)
    key = next(iter(inner))
    assert (key.path, key.mark) == ("a.b.c", Mark("f", 2, 3))


def test_carriage_returns_at_line_ends_are_fine() -> None:
    assert read_tree(b"a: 1\r\nb: 2\r\n", "f").root == {"a": "1", "b": "2"}


def test_all_slips_of_a_file_are_gathered() -> None:
    text = "a: 1\nb:\nc: !!int 3\na: 2\nd: &x 1\ne: *x\nf: ~\ng: ''\n"
    assert _problems(text) == [
        ("no-value", 2, 3),
        ("tag", 3, 4),
        ("given-twice", 4, 1),
        ("anchor", 5, 4),
        ("anchor", 6, 4),
        ("no-value", 7, 4),
        ("no-value", 8, 4),
    ]


def test_a_key_given_twice_names_the_first_place() -> None:
    (found,) = read_tree(b"a: 1\na: 2\n", "f").problems
    assert "f:1:1" in found.message


def test_what_leaves_no_tree() -> None:
    assert _problems("") == [("empty-file", 1, 1)]
    assert _problems("# only a remark\n") == [("empty-file", 1, 1)]
    assert _problems("a: 1\n---\nb: 2\n") == [("several-documents", 2, 1)]
    assert _problems("? [a]\n: b\n") == [("complex-key", 1, 3)]
    assert _problems("a: 1\n\tb: 2\n") == [("tab", 2, 1)]
    assert _problems("\ufeffa: 1\n") == [("strange-character", 1, 1)]
    assert _problems("a: b\x00c\n") == [("strange-character", 1, 5)]
    assert _problems('a: "b\\0c"\n') == [("strange-character", 1, 4)]
    assert _problems(b"a: 1\nb: \xff\n") == [("not-text", 2, 4)]
    assert _problems("a: 1\rb: 2") == [("strange-character", 1, 5)]


def test_syntax_in_plain_words() -> None:
    assert _problems("a: b: c\n") == [("yaml", 1, 5)]
    assert _problems("a: 'x\nb: 1\n") == [("yaml", 1, 4)]
    assert _problems("a: [1, 2\nb: 3\n") == [("yaml", 1, 4)]
    assert _problems("a: @x\n") == [("yaml", 1, 4)]
    assert _problems("- a\nb: 1\n") == [("yaml", 2, 1)]


def test_it_works_without_the_parser_in_c(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("baywright.files.tree._LOADER", yaml.SafeLoader)
    test_values_know_their_place_and_path()
    test_all_slips_of_a_file_are_gathered()
    test_what_leaves_no_tree()
    test_syntax_in_plain_words()
    assert _problems("[" * 100_000) == [("too-deep", 1, 41)]
    assert _problems('a: "\\UFFFFFFFF"\n') == [("yaml", 1, 1)]


@given(st.text(alphabet=" \n:-[]{},#'\"&*!|>%@`?~ab1\\\t", max_size=60))
def test_any_text_gives_a_tree_or_problems(text: str) -> None:
    for problem in _problems(text):
        assert problem[1] >= 1


@given(st.binary(max_size=40))
def test_any_bytes_give_a_tree_or_problems(data: bytes) -> None:
    _problems(data)
