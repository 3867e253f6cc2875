"""Faults: what is seen is ticked; what can be behind it, and what to check next, is said."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from fastapi import APIRouter, Request, Response
from markupsafe import Markup

from baywright.desk.service.faults import Diagnosis, FaultRequest, diagnose
from baywright.desk.service.faults_drawing import draw_tree
from baywright.desk.service.faults_telling import fault_sheet
from baywright.problems import Problem, Problems
from baywright.service.faults.signs import Sign
from baywright.web.access import reader
from baywright.web.addresses import Address
from baywright.web.care import care_page
from baywright.web.chosen import Chosen, chosen
from baywright.web.drawings import on_page
from baywright.web.texts import text

router = APIRouter(include_in_schema=False)

SEEN, NOT_SEEN = "seen", "not"
"""Fields of an address that say what is seen, and what is looked for and not seen."""

FEW = 6
"""Signs of one light or symptom that are listed without being folded."""


@dataclass(frozen=True, slots=True)
class Signs:
    """Signs of one light or symptom.

    Args:
        called: what they are called.
        rows: id, name, whether it is seen and whether it is not, of each.
    """

    called: str
    rows: tuple[tuple[str, str, bool, bool], ...]

    @property
    def open(self) -> bool:
        """Whether they are listed without being folded."""
        few = len(self.rows) <= FEW or self.called == text("signs")
        return few or any(seen or dark for _, _, seen, dark in self.rows)


@router.get("/faults/{book}")
def faults_page(request: Request, book: str) -> Response:
    """Show suspects, the next check, the decision tree, and what optional parts are worth."""
    reader(request)
    address = Address.of(request)
    held = chosen(request, book, address)
    if held is None:
        return care_page(request, "faults", book, address, None)
    found, wrong = _found(held, _asked(address))
    drawn = found.worlds[0][1].tree is not None
    return care_page(
        request,
        "faults",
        book,
        address,
        held,
        problems=wrong,
        sheet=fault_sheet(found),
        signs=tuple(_signs(found, address)),
        other=[*_unlisted(found, address, SEEN)],
        other_not=[*_unlisted(found, address, NOT_SEEN)],
        tree=on_page(draw_tree(found), "tree") if drawn else Markup(),
    )


def _asked(address: Address) -> FaultRequest:
    return FaultRequest(
        address.all(SEEN),
        address.all(NOT_SEEN),
        address.one("else") == "no",
        "off" if address.one("cover") == "off" else "on",
        "out" if address.one("cords") == "out" else "in",
    )


def _found(held: Chosen, asked: FaultRequest) -> tuple[Diagnosis, tuple[Problem, ...]]:
    """Return what is found, for nothing seen where what is said makes no sense; then with why."""
    try:
        return diagnose(held.opened, held.build, asked, held.site), ()
    except Problems as found:
        if asked == FaultRequest():
            raise
        return diagnose(held.opened, held.build, FaultRequest(), held.site), found.problems


def _signs(found: Diagnosis, address: Address) -> Iterator[Signs]:
    seen, dark = address.all(SEEN), address.all(NOT_SEEN)
    groups: dict[str, list[Sign]] = {}
    for sign in found.worlds[0][1].there:
        groups.setdefault(sign.group, []).append(sign)
    alone = [alike[0] for alike in groups.values() if len(alike) == 1]
    several = [alike for alike in groups.values() if len(alike) > 1]
    for called, alike in ((text("signs"), alone), *((each[0].called, each) for each in several)):
        rows = tuple((s.key, s.name, s.key in seen, s.key in dark) for s in alike)
        yield Signs(called, rows)


def _unlisted(found: Diagnosis, address: Address, field: str) -> Sequence[str]:
    """Return what is said in other words than those of the list."""
    known = {sign.key for sign in found.worlds[0][1].there}
    return [each for each in address.all(field) if each not in known]
