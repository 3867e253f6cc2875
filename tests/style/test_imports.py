"""What may import what, beyond the layers that import-linter holds."""

from __future__ import annotations

import ast
import graphlib
import sys
from collections.abc import Iterator
from functools import cache

import grimp

from tests.style.sources import Source, sources

# Each library that is not Python's own has its home: the modules that may import it. A new
# dependency gets a line here, so that nobody has to guess where it is used.
HOMES: dict[str, tuple[str, ...]] = {
    "alembic": ("baywright.store",),
    "clingo": ("baywright.engines.search", "baywright.engines.program"),
    "distributed": ("baywright.desk.cluster",),
    "docx": (
        "baywright.exchange.drafts",
        "baywright.papers.as_docx",
        "baywright.papers.docx_tables",
    ),
    "font_source_sans_pro": ("baywright.papers.printing",),
    "fastapi": ("baywright.web",),
    "jinja2": ("baywright.papers", "baywright.web.rendering"),
    "markdown_it": ("baywright.exchange.drafts", "baywright.papers.markdown"),
    "markupsafe": ("baywright.web",),
    "numba": ("baywright.engines.loops",),
    "numpy": (
        "baywright.desk.bulk",
        "baywright.desk.capture",
        "baywright.desk.fit",
        "baywright.desk.service",
        "baywright.desk.size",
        "baywright.engines.bulk",
        "baywright.engines.diagram",
        "baywright.engines.hashing",
        "baywright.engines.loops",
        "baywright.exchange",
        "baywright.service.losing",
        "baywright.sizing",
    ),
    "ortools": ("baywright.engines.cpsat", "baywright.engines.linear"),
    "pint": ("baywright.units",),
    "platformdirs": ("baywright.store",),
    "pptx": ("baywright.exchange.drafts", "baywright.papers"),
    "pwdlib": ("baywright.store",),
    "pyarrow": ("baywright.exchange",),
    "pydantic": ("baywright.facts", "baywright.files"),
    "pydantic_core": ("baywright.facts", "baywright.files"),
    "python_calamine": ("baywright.exchange.lists",),
    "resvg_py": ("baywright.papers.printing",),
    "rich": ("baywright.cli",),
    "ruamel": ("baywright.files",),
    "scipy": ("baywright.sizing",),
    "sqlalchemy": ("baywright.store",),
    "starlette": ("baywright.web",),
    "typer": ("baywright.cli",),
    "typst": ("baywright.papers.printing",),
    "uvicorn": ("baywright.web.serving",),
    "xlsxwriter": ("baywright.exchange.lists",),
    "yaml": ("baywright.files",),
}

# An import inside a function stands here with its reason: path and function.
LATE: dict[str, str] = {}


def _ours() -> Iterator[Source]:
    return (source for source in sources() if source.path.startswith("src/"))


def _module(source: Source) -> str:
    name = source.path.removeprefix("src/").removesuffix(".py").replace("/", ".")
    return name.removesuffix(".__init__")


def _imported(tree: ast.AST) -> Iterator[str]:
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module and not node.level:
            yield node.module


def _is_within(module: str, homes: tuple[str, ...]) -> bool:
    return any(module == home or module.startswith(f"{home}.") for home in homes)


def _foreign(source: Source) -> set[str]:
    roots = {name.partition(".")[0] for name in _imported(source.tree)}
    return roots - sys.stdlib_module_names - {"baywright"}


def _late_imports(source: Source) -> Iterator[str]:
    for function in source.functions():
        if any(isinstance(node, ast.Import | ast.ImportFrom) for node in ast.walk(function)):
            yield f"{source.path}:{function.name}"


@cache
def _graph() -> dict[str, set[str]]:
    graph = grimp.build_graph("baywright", cache_dir=None)
    return {name: graph.find_modules_directly_imported_by(name) for name in graph.modules}


def test_each_library_stays_at_home() -> None:
    strays = [
        (source.path, library)
        for source in _ours()
        for library in sorted(_foreign(source))
        if not _is_within(_module(source), HOMES.get(library, ()))
    ]
    assert strays == []


def test_no_module_takes_part_in_a_cycle() -> None:
    """Imports inside functions count: hiding a knot does not untie it."""
    graphlib.TopologicalSorter(_graph()).prepare()


def test_imports_stand_at_the_top() -> None:
    late = {place for source in sources() for place in _late_imports(source)}
    assert late == set(LATE)
