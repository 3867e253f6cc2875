"""Machines of the demo to read in tests."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from baywright.desk.opening import Opened, open_book
from baywright.desk.reading.reading import MachineRead, read_machine
from baywright.exchange.machines import Wanted
from baywright.facts.build import Build, Fitted
from baywright.files.books import BUNDLED, build_from, read_build
from tests.desk.reading.mockups import Tree, mockup, write

W8 = Path(__file__).parent / "w8"

FULL = """
book: f2
name: a bit of everything
places:
  P1: cpu-24
  P2: cpu-24
  M1: 4 x dimm-32
  M2: 4 x dimm-32
  A: {cage: S8, drives: 5 x sas-2400, controller: R1a}
  B: N8
  C: display
  R1a: C16
  R1b: empty
  R3a: accel-dw
  R3b: empty
  O1: net-25
  O2: net-25
  PS: 2 x ps-2000
  F: 6 x fan
  K1: pack
  K3: empty
  BOOT: usb-stick
"""


@cache
def opened(book: str) -> Opened:
    return open_book(W8 if book == "w8" else book)


def bundled(book: str, name: str) -> Build:
    return read_build(BUNDLED / book / "builds" / f"{name}.yaml")


def full() -> Build:
    return build_from(FULL.encode(), "full")


def tree_of(book: str, build: Build) -> Tree:
    return mockup(opened(book).book, build)


def read(book: str, tree: Tree, folder: Path) -> MachineRead:
    return read_machine(opened(book), Wanted(str(write(tree, folder))))


def contents(build: Build) -> dict[str, tuple[object, ...]]:
    """What a build has in each place, apart from how it is written."""
    return {place: _content(fitted) for place, fitted in build.places.items()}


def _content(fitted: Fitted) -> tuple[object, ...]:
    return (sorted((item.part, item.count) for item in fitted.items), fitted.controller)


def drafted(found: MachineRead) -> dict[str, tuple[object, ...]]:
    return contents(build_from(found.draft.encode(), "draft"))
