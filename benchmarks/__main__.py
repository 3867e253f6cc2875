"""List and run the benchmarks: ``python -m benchmarks [--list] [name ...]``.

A benchmark is a module of this package whose name begins with ``bench_`` and that has a function
``cases()`` returning the cases to measure.
"""

from __future__ import annotations

import argparse
import importlib
import pkgutil
import sys
from collections.abc import Iterable, Sequence
from pathlib import Path

from benchmarks.measure import Case, measure


def names() -> list[str]:
    """Return the names of all benchmarks, in alphabetical order."""
    here = str(Path(__file__).parent)
    return sorted(m.name for m in pkgutil.iter_modules([here]) if m.name.startswith("bench_"))


def cases(name: str) -> Iterable[Case]:
    """Return the cases of the benchmark of that name."""
    module = importlib.import_module(f"benchmarks.{name}")
    found: Iterable[Case] = module.cases()
    return found


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the benchmarks named, or all of them; return 2 when a name is not known."""
    asked = _parse(arguments)
    known = names()
    unknown = [name for name in asked.names if name not in known]
    if unknown:
        print(f"No benchmark is called {', '.join(unknown)}. Known: {', '.join(known)}.")
        return 2
    for name in asked.names or known:
        print(name)
        for case in () if asked.list else cases(name):
            print(f"  {measure(case)}", flush=True)
    return 0


def _parse(arguments: Sequence[str] | None) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m benchmarks", description=__doc__)
    parser.add_argument("--list", action="store_true", help="name them and run nothing")
    parser.add_argument("names", nargs="*", help="which to run; all when none is named")
    return parser.parse_args(arguments)


if __name__ == "__main__":
    sys.exit(main())
