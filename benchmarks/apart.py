"""What is measured in a process of its own: ``python -m benchmarks.apart WHAT NAME FOLDER``.

WHAT is ``memory`` or ``count``, NAME that of a space, FOLDER one of compiled spaces or empty.
"""

from __future__ import annotations

import resource
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

from baywright.engines.diagram import Diagram
from baywright.space import Space
from benchmarks.grounds import diagram, grounds
from benchmarks.tables import timed

_STATUS = Path("/proc/self/status")


def apart(what: str, name: str, folder: str = "", seconds: float = 600.0) -> list[float] | None:
    """Return the numbers that a process of its own prints, or ``None`` when it was ended.

    Args:
        what: ``memory`` or ``count``.
        name: name of a space.
        folder: a folder of compiled spaces, or none.
        seconds: how long the process may take.
    """
    command = [sys.executable, "-m", "benchmarks.apart", what, name, folder]
    root = Path(__file__).parents[1]
    try:
        said = subprocess.run(  # noqa: S603 - a module of ours
            command, cwd=root, check=True, capture_output=True, text=True, timeout=seconds
        )
    except subprocess.TimeoutExpired:
        return None
    return [float(word) for word in said.stdout.split()]


def _memory(space: Space, engine: Diagram) -> tuple[float, ...]:
    """Return the megabytes held at most before the space was compiled, and after."""
    before = _megabytes()
    engine.options(space)
    return before, _megabytes()


def _count(space: Space, engine: Diagram) -> tuple[float, ...]:
    """Return the seconds of a first count; what another space can warm up is warm."""
    diagram()
    engine.describe(space)
    return (timed(engine.count, space)[0],)


def _megabytes() -> float:
    if _STATUS.exists():
        # Not what getrusage says on Linux: a new process inherits that from its parent.
        held = _STATUS.read_text(encoding="ascii").partition("VmHWM:")[2].split()[0]
        return int(held) * 1024 / 1e6
    most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return most * (1 if sys.platform == "darwin" else 1024) / 1e6


def main(what: str, name: str, folder: str) -> None:
    """Print the numbers."""
    space = next(ground.space for ground in grounds() if ground.name == name)
    measures: dict[str, Callable[[Space, Diagram], tuple[float, ...]]]
    measures = {"memory": _memory, "count": _count}
    print(*measures[what](space, Diagram(folder=Path(folder) if folder else None)))


if __name__ == "__main__":
    main(*sys.argv[1:])
