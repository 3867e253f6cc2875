"""Kinds of part. A new kind is a model in this folder and a line in ``AnyPart``."""

from typing import Annotated, TypeAlias, get_args

from pydantic import Field

from baywright.facts.parts.base import Card, Part
from baywright.facts.parts.cards import Accelerator, Controller, Network, OtherCard
from baywright.facts.parts.memory import MemoryModule
from baywright.facts.parts.other import Boot, Display, Kit, Media
from baywright.facts.parts.power import Fan, Supply
from baywright.facts.parts.processor import Processor
from baywright.facts.parts.storage import Cage, Drive, EnergyPack

AnyPart: TypeAlias = Annotated[
    Processor
    | MemoryModule
    | Cage
    | Drive
    | EnergyPack
    | Controller
    | Accelerator
    | Network
    | OtherCard
    | Supply
    | Fan
    | Boot
    | Media
    | Display
    | Kit,
    Field(discriminator="kind"),
]

_MODELS: tuple[type[Part], ...] = get_args(get_args(AnyPart)[0])

KINDS: dict[str, type[Part]] = {
    get_args(model.model_fields["kind"].annotation)[0]: model for model in _MODELS
}
"""The model of each kind of part."""

CARD_KINDS: tuple[str, ...] = tuple(
    kind for kind, model in KINDS.items() if issubclass(model, Card)
)

__all__ = [
    "CARD_KINDS",
    "KINDS",
    "Accelerator",
    "AnyPart",
    "Boot",
    "Cage",
    "Card",
    "Controller",
    "Display",
    "Drive",
    "EnergyPack",
    "Fan",
    "Kit",
    "Media",
    "MemoryModule",
    "Network",
    "OtherCard",
    "Part",
    "Processor",
    "Supply",
]
