"""Faults, signs and outcomes in words."""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Iterator, Mapping, Sequence

from baywright.desk.service.faults import Findings, Tree
from baywright.desk.service.faults_minutes import Effort, says_of
from baywright.facts.book import Book
from baywright.laws.wording import capitalised, listed
from baywright.service.faults.checks import Check
from baywright.service.faults.found import Fault
from baywright.service.faults.search import OWN
from baywright.service.faults.signs import OUTSIDE, Sign
from baywright.service.faults.tree import Branch, Node

FEW = 2
"""Up to so many positions of one place are named one by one."""


def those(book: Book, faults: Sequence[Fault]) -> str:
    """Return faults as a list, those of one part together with their positions."""
    parts: dict[str, list[Fault]] = {}
    for fault in dict.fromkeys(faults):
        parts.setdefault(fault.part or fault.id, []).append(fault)
    return listed([_alike(book, group) for group in parts.values()])


def _alike(book: Book, group: Sequence[Fault]) -> str:
    first = group[0]
    if not first.part:
        return first.name
    if len(group) == 1:
        return first.name if first.id in first.name.split() else f"{first.name} ({first.id})"
    return f"{book.parts[first.part].name} ({positions(group)})"


def positions(faults: Iterable[Fault]) -> str:
    """Return the positions of faults, many of one place with their number, first and last."""
    places: dict[str, list[str]] = {}
    for fault in dict.fromkeys(faults):
        places.setdefault(fault.place, []).append(fault.id)
    return listed(
        f"{len(ids)} from {ids[0]} to {ids[-1]}" if len(ids) > FEW else ", ".join(ids)
        for ids in places.values()
    )


def effort_of(findings: Findings, check: Check) -> Effort:
    """Return what a check takes."""
    if check.fault is not None:
        return findings.efforts.swaps[check.fault.id]
    return findings.efforts.looks[check.way or OUTSIDE]


def doing(findings: Findings, tree: Tree, node: Node, book: Book) -> str:
    """Return what is done at a point of a tree, a sentence."""
    if node.look is not None:
        return says_of(tree.ways[node.look])
    groups = [list(dict.fromkeys(tree.faults[i] for i in group)) for group in node.swaps]
    if node.known:
        return _known(findings, groups[0], book)
    acts = [_act(findings, group, book) for group in groups]
    if len(acts) == 1:
        until = ", until it is repaired" if len(groups[0]) > 1 else ""
        return f"{capitalised(acts[0]).rstrip('.')}{until}."
    numbered = "; ".join(f"({i}) {act.rstrip('.')}" for i, act in enumerate(acts, 1))
    return f"One after the other, until it is repaired: {numbered}."


def _known(findings: Findings, faults: Sequence[Fault], book: Book) -> str:
    effort = findings.efforts.swaps[faults[0].id]
    if effort.minutes is None:
        return f"It is {those(book, faults)}. {' '.join(effort.why_not)}"
    if not faults[0].part:
        return effort.says
    if len(faults) == 1:
        return f"Swap {those(book, faults)}."
    if len({fault.part for fault in faults}) > 1:
        return f"Swap the one that shows it: {those(book, faults)}."
    return f"Swap the {book.parts[faults[0].part].name} that shows it: {positions(faults)}."


def _act(findings: Findings, faults: Sequence[Fault], book: Book) -> str:
    effort = findings.efforts.swaps[faults[0].id]
    if effort.minutes is None:
        return f"what is left is {those(book, faults)}: {' '.join(effort.why_not)}"
    if not faults[0].part:
        return effort.says[:1].lower() + effort.says[1:]
    turns = " in turn" if len(faults) > 1 else ""
    return f"swap {those(book, faults)}{turns}"


def outcomes(
    signs: Sequence[Sign], tree: Tree, node: Node, book: Book
) -> Iterator[tuple[Branch, str]]:
    """Yield the branches of a point, each with what leads to it in words."""
    if node.look is None:
        yield from ((branch, "not repaired") for branch in node.branches)
        return
    shown = tree.solution.search.task.looks[node.look].outcomes
    every = [_keys(shown[i]) for branch in node.branches for i in branch.faults]
    common = frozenset.intersection(*every)
    by_key = {sign.key: sign for sign in signs}
    nothing = "nothing more" if common else "none of its signs"
    for branch in node.branches:
        keys = _keys(shown[branch.faults[0]]) - common
        yield branch, _outcome(branch, keys, by_key, nothing)


def _keys(outcome: Hashable) -> frozenset[str]:
    """Return the keys of the signs that an outcome is."""
    return outcome if isinstance(outcome, frozenset) else frozenset()


def _outcome(branch: Branch, keys: frozenset[str], signs: Mapping[str, Sign], nothing: str) -> str:
    if not keys:
        return nothing
    several = branch.outcome == OWN and len(branch.faults) > 1
    held = [signs[key] for key in signs if key in keys]
    names = (f"a {each.called}" if several and _of_one(each) else each.name for each in held)
    return listed(dict.fromkeys(names))


def _of_one(sign: Sign) -> bool:
    return sign.key != sign.group and "=" not in sign.key
