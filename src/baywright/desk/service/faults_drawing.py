"""The decision tree as a drawing: numbered as the table numbers it, its cautions before it."""

from __future__ import annotations

from baywright.desk.service.faults import Diagnosis, Findings, Tree
from baywright.desk.service.faults_telling import (
    OF_NUMBERS,
    how_good,
    number,
    percent,
    tree_cautions,
)
from baywright.desk.service.faults_words import doing, outcomes
from baywright.drawing.charts.tree import Point, Warned, tree
from baywright.facts.book import Book
from baywright.facts.cautions import CAUTIONS, PLANNING_AID
from baywright.problems import problem
from baywright.service.faults.tree import Node


def draw_tree(found: Diagnosis) -> str:
    """Return the decision tree of a diagnosis as an SVG document; of the first world.

    Raises:
        Problems: where there is no tree, since it takes two faults or no rate is stated.
    """
    findings = found.worlds[0][1]
    if findings.tree is None:
        message = "There is no decision tree: no single fault with a stated rate shows that."
        raise problem("no-tree", message, None, "Leave some of what is seen out, or --out.")
    book, held = found.opened.book, findings.tree
    warned = [_warned(key) for key in (*OF_NUMBERS, *tree_cautions(findings, held))]
    return tree(
        f"{book.book.name}: finding a fault",
        f"{found.build.name.known}. {how_good(findings, held, book)}",
        _point(findings, held, held.root, "", book),
        warned,
        PLANNING_AID,
    )


def _warned(key: str) -> Warned:
    caution = CAUTIONS[key]
    return Warned(caution.word, f"{caution.hazard} {caution.consequence} {caution.avoidance}")


def _point(findings: Findings, held: Tree, node: Node, leads: str, book: Book) -> Point:
    return Point(
        node.number,
        leads,
        doing(findings, held, node, book),
        f"comes up {percent(node.weight)} of the time; {number(node.minutes)} min from here",
        tuple(
            _point(findings, held, branch.then, words, book)
            for branch, words in outcomes(findings.there, held, node, book)
        ),
    )
