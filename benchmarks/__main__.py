"""List and run the benchmarks: ``python -m benchmarks [--list] [--table] [name ...]``.

A benchmark is a module of this package whose name begins with ``bench_``. It has a function
``cases()`` returning the cases to measure, or a function ``findings()`` that measures and yields
tables, and figures that were set beforehand beside those measured.
"""

from __future__ import annotations

import argparse
import importlib
import os
import pkgutil
import sys
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path
from types import ModuleType

from benchmarks import page
from benchmarks.measure import Case, Measurement, measure
from benchmarks.tables import Finding, Table, Wanted, spread, text, wanted_table


def names() -> list[str]:
    """Return the names of all benchmarks, in alphabetical order."""
    here = str(Path(__file__).parent)
    return sorted(m.name for m in pkgutil.iter_modules([here]) if m.name.startswith("bench_"))


def run(name: str) -> Iterator[Finding]:
    """Run the benchmark of that name, print what it finds as it comes, and yield it."""
    module = importlib.import_module(f"benchmarks.{name}")
    found: Iterable[Finding] = (
        module.findings() if hasattr(module, "findings") else _measured(module)
    )
    for each in found:
        if isinstance(each, Table):
            print(f"\n{text(each)}", flush=True)
        yield each


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the benchmarks named, or all of them; return 2 when a name is not known."""
    asked = _parse(arguments)
    known = names()
    unknown = [name for name in asked.names if name not in known]
    if unknown:
        print(f"No benchmark is called {', '.join(unknown)}. Known: {', '.join(known)}.")
        return 2
    if asked.list:
        print("\n".join(asked.names or known))
        return 0
    load = os.getloadavg()[0]
    found = [each for name in asked.names or known for each in run(name)]
    figures = [each for each in found if isinstance(each, Wanted)]
    if figures:
        print(f"\n{text(wanted_table(figures))}")
    if asked.table:
        page.write(found, load)
        print(f"\nWritten: {page.PAGE}")
    return 0


def _measured(module: ModuleType) -> Iterator[Table]:
    cases: Iterable[Case] = module.cases()
    measured = [measure(case) for case in cases]
    title = (module.__doc__ or module.__name__).partition("\n")[0].rstrip(".")
    rows = tuple(_row(each) for each in measured)
    yield Table(f"{title}, in milliseconds", ("what", "runs", "median", "p95", "most"), rows)


def _row(measured: Measurement) -> tuple[str, ...]:
    return measured.name, str(len(measured.seconds)), *spread(measured.seconds)


def _parse(arguments: Sequence[str] | None) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m benchmarks", description=__doc__)
    parser.add_argument("--list", action="store_true", help="name them and run nothing")
    parser.add_argument("--table", action="store_true", help="write docs/benchmarks.md as well")
    parser.add_argument("names", nargs="*", help="which to run; all when none is named")
    return parser.parse_args(arguments)


if __name__ == "__main__":
    sys.exit(main())
