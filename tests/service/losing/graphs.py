"""Graphs of builds that tests take apart: the shipped ones, those of others, random ones."""

from __future__ import annotations

from functools import cache

import numpy as np

from baywright.desk.drawing import as_build
from baywright.desk.service.losing import graph_in
from baywright.facts.build import Build
from baywright.files.books import read_build
from baywright.laws.machine import Machine
from baywright.service.losing.graph import Graph
from baywright.service.losing.nodes import Node, Up
from tests.sizing.builds import OTHERS, SETTLED, machine_by_others
from tests.sizing.cases import build_of, machine_of


def machine_for(book: str) -> Machine:
    """Return a bundled book or one of others, compiled."""
    return machine_by_others(book) if book in SETTLED else machine_of(book)


@cache
def graph(book: str, build: str) -> Graph:
    """Return the graph of a build file."""
    return graph_in(machine_for(book), read(book, build))[1]


def read(book: str, build: str) -> Build:
    """Return a build file of the demo or of others."""
    if book in SETTLED:
        return read_build(OTHERS / book / "builds" / f"{build}.yaml")
    return build_of(book, build)


def random_graph(book: str, seed: int, like: str = "") -> Graph:
    """Return the graph of a build drawn choice by choice, legal or not.

    Args:
        book: id of a bundled book.
        seed: of the draw.
        like: name of a build file whose site it has; none unless given.
    """
    machine, draw = machine_of(book), np.random.default_rng(seed)
    drawn = {
        name: int(draw.integers(0, len(fitting.options)))
        for name, fitting in machine.frame.fittings.items()
        if not fitting.derived
    }
    site = build_of(book, like).site if like else None
    return graph_in(machine, as_build(machine, drawn, "drawn", site))[1]


def holds(node: Node, lost: frozenset[str]) -> bool:
    """Say whether a node holds: the plain reading, one state at a time."""
    if isinstance(node, Up):
        return node.thing not in lost
    total = sum(weight for each, weight in node.inputs if holds(each, lost))
    return total >= node.need - 1e-6
