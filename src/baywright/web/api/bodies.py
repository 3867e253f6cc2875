"""What programs send."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import Any, Literal

from fastapi import Request

from baywright.desk.bench.conditions import Conditions
from baywright.desk.opening import Opened, open_book
from baywright.desk.request import Request as Asked
from baywright.service.access.circumstances import Doing, Lock
from baywright.service.access.moves import Least
from baywright.web.access import reader
from baywright.web.workbench import workbench


@dataclass(frozen=True, slots=True)
class Question:
    """A question about a book.

    Args:
        question: the expression.
        as_of: the day, in ISO form; that of the book unless given.
        altitude: altitude of the site with its unit.
        inlet: temperature of the air taken in with its unit.
    """

    question: str
    as_of: str = ""
    altitude: str = ""
    inlet: str = ""


@dataclass(frozen=True, slots=True)
class Text:
    """A text: a build, a need or a draft.

    Args:
        text: the text, YAML for builds and needs.
        volts: voltage of the feeds with its unit, where a build is sized.
    """

    text: str
    volts: str = ""


@dataclass(frozen=True, slots=True)
class Steps:
    """Steps on the bench.

    Args:
        steps: the steps, such as ``A:S8``.
        pins: places that are held as the steps leave them.
        volts: voltage of the feeds with its unit.
        altitude: altitude of the site with its unit.
        inlet: temperature of the air taken in with its unit.
        day: the day, in ISO form.
        must: expressions that have to hold.
    """

    steps: list[str] = field(default_factory=list)
    pins: list[str] = field(default_factory=list)
    volts: str = ""
    altitude: str = ""
    inlet: str = ""
    day: str = ""
    must: list[str] = field(default_factory=list)

    @property
    def given(self) -> Conditions:
        """The conditions of the bench."""
        return Conditions(self.volts, self.altitude, self.inlet, self.day, tuple(self.must))


@dataclass(frozen=True, slots=True)
class Order:
    """A list of parts.

    Args:
        text: the list.
        form: ``csv`` for a table with a head, ``txt`` for a line for each part.
        given: a condition that the build has to meet too.
    """

    text: str
    form: Literal["csv", "txt"] = "txt"
    given: str = ""


@dataclass(frozen=True, slots=True)
class Record:
    """What a running machine says of itself: either of the two.

    Args:
        resources: Redfish resources by their path, such as ``/redfish/v1``.
        tables: SMBIOS tables as Linux shows them, or a table alone, in base64.
        system: id of the system, where there are several.
        incomplete: whether resources that are not there become findings.
    """

    resources: dict[str, dict[str, Any]] = field(default_factory=dict)
    tables: str = ""
    system: str = ""
    incomplete: bool = False


@dataclass(frozen=True, slots=True)
class Upgrade:
    """A machine that stands and what it is to become.

    Args:
        build: the build that stands, as YAML.
        need: the need, as YAML.
        to: books of machines that may take its place; those that follow it unless given.
    """

    build: str
    need: str
    to: list[str] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class Service:
    """What is changed in a build, and with whom.

    Args:
        text: the build, as YAML.
        places: what is changed: places, or PLACE:PART.
        doing: what is done with it.
        lock: how the locks are.
        people: people at hand; as many as it takes unless given.
        keep_running: whether the machine has to run all the time.
        least: what the plan has least of.
    """

    text: str
    places: list[str]
    doing: Doing = "replace"
    lock: Lock = "open"
    people: int | None = None
    keep_running: bool = False
    least: Least = "time"


@dataclass(frozen=True, slots=True)
class Loss:
    """Things that are lost with a build.

    Args:
        text: the build, as YAML.
        things: what is lost, such as ``P2``.
        volts: voltage of the feeds with its unit.
    """

    text: str
    things: list[str] = field(default_factory=list)
    volts: str = ""


@dataclass(frozen=True, slots=True)
class Stock:
    """Machines whose spares are wanted.

    Args:
        text: the build, as YAML.
        machines: machines of the build.
        level: odds wanted that a spare is there, such as ``99 %``.
        lead: time until a spare is replaced, such as ``14 d``.
        unit_lead: that time for a whole machine.
        unit_rate: share of machines that are replaced whole in a year.
        sites: sites the machines stand at, evenly.
        visits: interval at which each site is visited.
    """

    text: str
    machines: str = ""
    level: str = ""
    lead: str = ""
    unit_lead: str = ""
    unit_rate: str = ""
    sites: str = ""
    visits: str = ""


@dataclass(frozen=True, slots=True)
class NewBuild:
    """A build to keep."""

    name: str
    book: str
    text: str


@dataclass(frozen=True, slots=True)
class Change:
    """A change to a kept build.

    Args:
        version: the version that was read.
        text: the new text.
    """

    version: int
    text: str


@dataclass(frozen=True, slots=True)
class NewToken:
    """A token to issue, with roles such as ``read`` and ``work``."""

    name: str
    scopes: list[str]


def opened_for(request: Request, book: str, asked: Asked | None = None) -> Opened:
    """Return a book with engines of its own, for a day and site where they are given.

    Raises:
        SignInFirst: when nobody is signed in and there is no token.
        Problems: for the book, the day or the site.
    """
    reader(request)
    held = workbench(request).shelf.bench(book).opened
    given = asked or Asked()
    if asked is None or (not given.as_of and not given.altitude and not given.inlet):
        return replace(held, panel=given.panel())
    return open_book(held.folder, given.setting(), given.panel())
