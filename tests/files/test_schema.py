from __future__ import annotations

from pathlib import Path
from typing import Any

import jsonschema
import pytest
from ruamel.yaml import YAML

from baywright.files.books import bundled_books
from baywright.files.schema import book_schema, build_schema
from baywright.files.tree import read_tree
from tests.files.example import example

BOOK = jsonschema.Draft202012Validator(book_schema())
BUILD = jsonschema.Draft202012Validator(build_schema())
FILES = [file for folder in bundled_books().values() for file in sorted(folder.glob("*.yaml"))]
BUILDS = [file for folder in bundled_books().values() for file in sorted(folder.glob("builds/*"))]


def _as_an_editor_sees_it(text: str) -> Any:
    """Plain scalars as YAML 1.2 types them: 8 a number, dates and the rest texts."""
    yaml = YAML(typ="safe", pure=True)
    yaml.constructor.yaml_constructors = {
        **yaml.constructor.yaml_constructors,
        "tag:yaml.org,2002:timestamp": lambda constructor, node: constructor.construct_scalar(node),
    }
    return yaml.load(text)


@pytest.mark.parametrize("schema", [book_schema(), build_schema()])
def test_the_schema_is_one(schema: dict[str, Any]) -> None:
    jsonschema.Draft202012Validator.check_schema(schema)


@pytest.mark.parametrize("name", example())
def test_the_example_fits(name: str) -> None:
    text = example()[name]
    validator = BUILD if "/builds/" in name else BOOK
    validator.validate(read_tree(text.encode(), name).root)
    validator.validate(_as_an_editor_sees_it(text))


@pytest.mark.parametrize("file", FILES, ids=lambda file: f"{file.parent.name}/{file.name}")
def test_bundled_books_fit(file: Path) -> None:
    BOOK.validate(_as_an_editor_sees_it(file.read_text(encoding="utf-8")))


@pytest.mark.parametrize("file", BUILDS, ids=lambda file: f"{file.parents[1].name}/{file.name}")
def test_bundled_builds_fit(file: Path) -> None:
    BUILD.validate(_as_an_editor_sees_it(file.read_text(encoding="utf-8")))


@pytest.mark.parametrize(
    "content",
    [
        {"partz": {}},
        {"parts": {"x": {"kind": "fan", "name": "x"}}},
        {"parts": {"x": {"kind": "fann", "name": "x", "flow": "9 CFM"}}},
        {"parts": {"x": {"kind": "fan", "name": "x", "flow": {"valu": "9 CFM"}}}},
        {"parts": []},
        {},
    ],
)
def test_what_does_not_fit(content: object) -> None:
    assert not BOOK.is_valid(content)


def test_a_single_section_is_enough() -> None:
    assert BOOK.is_valid({"parts": {"x": {"kind": "fan", "name": "x", "flow": "9 CFM"}}})
