"""The front of a fitted need as a chart: what each build costs and draws."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from baywright.answers.figures import amount
from baywright.desk.fit.fit import Fitted, Proposals
from baywright.desk.fit.proposals import in_letters, repeats
from baywright.desk.fit.telling import money_of
from baywright.desk.opening import Opened
from baywright.drawing.charts.curves import Mark
from baywright.drawing.charts.front import Front, Spot, front
from baywright.facts.need import Need


def front_plots(opened: Opened, fitted: Fitted) -> Iterator[tuple[str, str]]:
    """Yield a chart for each way the unknown facts could be that has proposals.

    Args:
        opened: the book.
        fitted: the fitted need.

    Yields:
        The supposed facts in words, empty where none matter, and the chart as an SVG document.
    """
    for given, outcome in fitted.worlds:
        if isinstance(outcome, Proposals):
            supposed = ", ".join(f"{path} is {value}" for path, value in given.items())
            yield supposed, front(_front(opened, fitted.need, outcome, supposed))


def _front(opened: Opened, need: Need, outcome: Proposals, supposed: str) -> Front:
    money, currency = money_of(opened), str(opened.book.book.currency)
    times = repeats(need)
    letters = {
        id(each.candidate): in_letters(number) for number, each in enumerate(outcome.proposals)
    }
    spots = tuple(
        Spot(float(each.price * times), float(each.load), letters.get(id(each), ""))
        for each in outcome.explored.front
    )
    said = (
        f"{letters[id(each.candidate)]}: {amount(each.total, money)}, "
        f"{amount(each.candidate.load, 'power')}."
        for each in outcome.proposals
    )
    return Front(
        "The front: price and peak draw",
        ", ".join(filter(None, (need.name.known, supposed))),
        f"price of all, {currency}",
        "peak draw, DC, W",
        spots,
        tuple(_budget(need)),
        f"{len(spots)} builds. {' '.join(said)}",
    )


def _budget(need: Need) -> Iterator[Mark]:
    if need.budget is not None:
        most: Fraction = need.budget.known.canonical
        yield Mark(f"budget {need.budget.text}", x=float(most))
