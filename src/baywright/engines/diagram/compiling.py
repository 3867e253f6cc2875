"""Compiling a model: leaves, joins in a greedy order, the smallest of a few trees, reduction."""

from __future__ import annotations

from baywright.engines.diagram.cluster import Cluster
from baywright.engines.diagram.form import Form, empty, flat
from baywright.engines.diagram.guards import Guards, TooHard, Watch
from baywright.engines.diagram.joining import Joiner, leaf
from baywright.engines.diagram.model import Model
from baywright.engines.diagram.ordering import Estimates, joined
from baywright.engines.diagram.reducing import reduced
from baywright.engines.preparation import Deadline

_AFFINITIES = (2.0, 0.0, 1.0, 4.0)
"""None is best on all spaces, and which one is does not follow from how high it is."""

_SMALL = 100_000
"""Arcs below which no other tree is tried."""

_LARGE = 2_000_000
"""Arcs above which a tree is not finished while there are other settings to be tried."""


def compiled_form(model: Model, guards: Guards, deadline: Deadline) -> Form:
    """Compile a model.

    Raises:
        TooHard: when a limit is reached before there is any tree.
        OutOfTime: at the deadline.
    """
    if not model.possible:
        return empty(model.sizes)
    watch = Watch(guards, deadline)
    every = leaves(model, watch)
    if not all(cluster.size for cluster in every):
        return empty(model.sizes)
    root = _smallest_tree(every, Estimates(Joiner(model.rules, watch)), watch)
    return flat(reduced(root), model.sizes) if root.size else empty(model.sizes)


def leaves(model: Model, watch: Watch) -> list[Cluster]:
    """Return a cluster for each choice.

    Raises:
        TooHard: when a limit is reached.
    """
    binding: dict[int, list[int]] = {}
    rules = model.rules
    for number, rule in enumerate(rules):
        for choice in rule.scope:
            binding.setdefault(choice, []).append(number)
    found = []
    for choice, (left, size) in enumerate(zip(model.left, model.sizes, strict=True)):
        watch.clock()
        found.append(leaf(rules, choice, left, size, binding.get(choice, ())))
    return found


def _smallest_tree(leaves: list[Cluster], estimates: Estimates, watch: Watch) -> Cluster:
    """Return the root of a small tree, or else of one as large as the limits allow.

    Raises:
        TooHard: when each tree reaches a limit.
    """
    most = watch.arcs
    watch.arcs = min(_LARGE, most)
    try:
        return _smallest_of(leaves, estimates, watch)
    except TooHard:
        watch.arcs = most
        return _smallest_of(leaves, estimates, watch)


def _smallest_of(leaves: list[Cluster], estimates: Estimates, watch: Watch) -> Cluster:
    """Return the root of the tree with the fewest arcs of those tried."""
    best: Cluster | None = None
    refusal = TooHard("nothing was tried")
    for affinity in _AFFINITIES:
        try:
            best = joined(leaves, estimates, affinity)
        except TooHard as hard:
            refusal = hard
        else:
            watch.arcs = best.cost - 1
            if best.cost < _SMALL:
                break
    if best is None:
        raise refusal
    return best
