"""The book: every fact of one machine."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, TypeVar

from pydantic import Field

from baywright.facts.build import InPlace
from baywright.facts.citation import Citation
from baywright.facts.fact import Fact, Money, Name, Scalar, mark_of
from baywright.facts.faults import Cause, Symptom
from baywright.facts.model import Model
from baywright.facts.naming import RecordSection
from baywright.facts.parts import AnyPart, Part
from baywright.facts.places import AnyPlace, PlaceBase
from baywright.facts.sections import (
    About,
    AirSection,
    Chassis,
    FirmwareSection,
    Interlock,
    Light,
    Link,
    Lock,
    MemorySection,
    MustSay,
    PowerSection,
    ProcessorSection,
    Rule,
    Service,
    Setting,
    Source,
)

PlaceT = TypeVar("PlaceT", bound=PlaceBase)


class ReadyMade(Model):
    """A ready-made model: exactly these parts."""

    name: Name = Field(description="name as written in sentences")
    price: Money | None = Field(None, description="list price as a whole, if it has one")
    places: dict[Name, InPlace] = Field(description="what is in each place")
    settings: dict[Name, Name] = Field(default_factory=dict, description="value of each setting")


class Book(Model):
    """A platform book: the facts of one machine, typed, with their places in the files."""

    book: About = Field(description="what the book is about")
    sources: dict[Name, Source] = Field(description="documents the facts come from")
    chassis: Chassis = Field(description="the machine without anything optional")
    power: PowerSection = Field(description="input power and base draw")
    processors: ProcessorSection = Field(description="what holds for the processors together")
    memory: MemorySection | None = Field(None, description="what holds for all memory")
    air: AirSection = Field(description="cooling")
    places: dict[Name, AnyPlace] = Field(description="where parts can go")
    links: dict[Name, Link] = Field(default_factory=dict, description="lanes from the processors")
    parts: dict[Name, AnyPart] = Field(description="what can be fitted")
    settings: dict[Name, Setting] = Field(
        default_factory=dict, description="choices without a part"
    )
    rules: dict[Name, Rule] = Field(default_factory=dict, description="exceptions of this machine")
    models: dict[Name, ReadyMade] = Field(default_factory=dict, description="ready-made models")
    interlocks: dict[Name, Interlock] = Field(default_factory=dict, description="what cuts power")
    locks: dict[Name, Lock] = Field(default_factory=dict, description="what locks hold")
    lights: dict[Name, Light] = Field(default_factory=dict, description="fault lights and codes")
    symptoms: dict[Name, Symptom] = Field(
        default_factory=dict, description="what else is seen of faults, such as lines of the log"
    )
    causes: dict[Name, Cause] = Field(
        default_factory=dict, description="what a machine can fail by beside its parts"
    )
    service: Service = Field(default_factory=Service, description="facts of service work")
    firmware: FirmwareSection = Field(default_factory=FirmwareSection, description="firmware")
    must_say: dict[Name, MustSay] = Field(
        default_factory=dict, description="what a draft about the machine must not leave out"
    )
    record: RecordSection = Field(
        default_factory=RecordSection,
        description="how a record of a running machine names places and parts",
    )

    words: dict[Name, list[Name]] = Field(
        default_factory=dict,
        description="phrases people use, by the id of a part, a place, a kind of part or an "
        "interface; for a value of a setting by setting.value",
    )

    def parts_of(self, *kinds: str) -> dict[str, Part]:
        """Return the parts of some kinds, in the order of the book."""
        return {name: part for name, part in self.parts.items() if part.kind in kinds}

    def taken(self, takes: list[str]) -> dict[str, Part]:
        """Return the parts that a list of part ids and kinds stands for."""
        return {
            name: part for name, part in self.parts.items() if name in takes or part.kind in takes
        }

    def places_of(self, model: type[PlaceT]) -> dict[str, PlaceT]:
        """Return the places of one type, in the order of the book."""
        return {name: place for name, place in self.places.items() if isinstance(place, model)}

    def cite(self, *facts: Fact[Any] | str | None) -> tuple[Citation, ...]:
        """Quote facts and names with their sources; what the book leaves out is passed over."""
        return tuple(self._cite(fact) for fact in facts if fact is not None)

    def _cite(self, quoted: Fact[Any] | str) -> Citation:
        fact = quoted if isinstance(quoted, Fact) else _stated(quoted)
        if fact.disputed:
            sides = "; ".join(f"{told.text} in {self._title(told.source)}" for told in fact.told)
            return Citation(fact.path, sides, fact.mark, status="disputed")
        source = self.sources.get(fact.source or self.book.source)
        return Citation(
            path=fact.path,
            text=fact.text,
            mark=fact.mark,
            source=self._title(fact.source),
            date=fact.date or (source.date.known if source else None),
            status=fact.status,
        )

    def _title(self, source: str) -> str:
        found = self.sources.get(source or self.book.source)
        return found.title.known if found else ""


def _stated(name: str) -> Fact[str]:
    path = name.path if isinstance(name, Scalar) else ""
    return Fact(name, name, path, mark_of(name))


def facts_of(value: object) -> Iterator[Fact[Any]]:
    """Yield every fact in a model, depth first, in the order of its fields."""
    if isinstance(value, Fact):
        yield value
    elif isinstance(value, Model):
        for field in type(value).model_fields:
            yield from facts_of(getattr(value, field))
    elif isinstance(value, dict):
        for inner in value.values():
            yield from facts_of(inner)
    elif isinstance(value, list | tuple):
        for inner in value:
            yield from facts_of(inner)
