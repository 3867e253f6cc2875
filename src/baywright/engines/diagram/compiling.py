"""Compiling a model: leaves, joins in a greedy order, the better of two trees, reduction."""

from __future__ import annotations

from baywright.engines.diagram.cluster import Cluster
from baywright.engines.diagram.form import Form, empty, flat
from baywright.engines.diagram.guards import Guards, TooHard, Watch
from baywright.engines.diagram.joining import Joiner, leaf
from baywright.engines.diagram.model import Model
from baywright.engines.diagram.ordering import Estimates, joined
from baywright.engines.diagram.reducing import Node, reduced
from baywright.engines.diagram.rules import Rule
from baywright.engines.preparation import Deadline

_AFFINITIES = (8.0, 0.0)
"""Neither is better on all spaces: quantity limits want the first, wide ones the second."""

_GOOD_ENOUGH = 100_000
"""Arcs after reduction below which no second tree is tried."""

_TOO_LONG = 1_000_000
"""Arcs before reduction above which a second tree would take too long."""


def compiled_form(model: Model, guards: Guards, deadline: Deadline) -> Form:
    """Compile a model.

    Raises:
        TooHard: when a limit is reached before there is any tree.
        OutOfTime: at the deadline.
    """
    if not model.possible:
        return empty(model.sizes)
    rules: list[Rule] = [*model.tables, *model.sums]
    watch = Watch(guards, deadline)
    leaves = [
        leaf(rules, choice, left, size)
        for choice, (left, size) in enumerate(zip(model.left, model.sizes, strict=True))
    ]
    if not all(cluster.size for cluster in leaves):
        return empty(model.sizes)
    estimates = Estimates(Joiner(rules, watch))
    nodes = _best_tree(leaves, estimates, watch)
    return flat(nodes, model.sizes) if nodes else empty(model.sizes)


def _best_tree(leaves: list[Cluster], estimates: Estimates, watch: Watch) -> list[Node]:
    """Return the nodes of the smaller of the trees tried; none when no build is legal."""
    best: list[Node] = []
    least = float("inf")
    for affinity in _AFFINITIES:
        try:
            root = joined(leaves, estimates, affinity)
        except TooHard:
            if best:
                break
            watch.arcs = watch.guards.arcs
            if affinity == _AFFINITIES[-1]:
                raise
            continue
        if not root.size:
            return []
        nodes = reduced(root)
        arcs = sum(len(node.arcs) for node in nodes)
        if arcs + 0.05 * root.cost < least:
            best, least = nodes, arcs + 0.05 * root.cost
        if arcs < _GOOD_ENOUGH or root.cost > _TOO_LONG:
            break
        watch.arcs = min(watch.arcs, 2 * root.cost)
    return best
