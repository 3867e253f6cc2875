"""Packs: whether energy packs save the write caches, and how long they live."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

import numpy as np

from baywright.facts.parts import Controller, EnergyPack
from baywright.facts.places import Mount
from baywright.laws.frame import Option
from baywright.sizing.case import Case
from baywright.sizing.equation import Floats, Reals
from baywright.sizing.figure import Figure, Input, Limit
from baywright.sizing.storage.stated import (
    asked_least,
    fitted,
    lacking,
    number,
    of_site,
    quoted,
    rate,
)
from baywright.sizing.storage.wear import flush_energy, pack_energy, pack_life

_NO_PACK = "a build without a pack saves nothing: its controllers write through"
_ENERGY = ("capacitance", "full", "empty", "usable")
_LIFE = ("life", "life_temperature", "halved_per", "floor_temperature")


def of_packs(case: Case) -> Iterator[Figure | Limit]:
    """Yield what write caches need of energy packs, and the life of the packs."""
    cached = {name: card for name, card in fitted(case, Controller).items() if card.flush}
    if cached:
        packs = case.counted("pack")
        yield Figure(
            "storage.write_through",
            "controllers that write through for want of a pack",
            case.weighed(lambda name, _: float(name in cached)) - packs,
            "",
            "each pack serves one controller",
        )
    if fitted(case, EnergyPack):
        yield _energy(case, list(cached))
        years = of_site(case, "upkeep.years", "years the machine is kept", "years")
        yield asked_least(_life(case), years, 1.0, "Packs have to be replaced before that.")


def _pack(case: Case, option: Option) -> EnergyPack | None:
    part = case.book.parts.get(option.part or "")
    return part if isinstance(part, EnergyPack) else None


def _held(case: Case, option: Option) -> float:
    pack = _pack(case, option)
    if pack is None:
        return 0.0
    volts = number(pack.full, "V"), number(pack.empty, "V")
    return float(pack_energy(number(pack.capacitance, "F"), *volts, number(pack.usable)))


def _needed(case: Case, option: Option) -> float:
    card = case.book.parts.get(option.part or "")
    if not isinstance(card, Controller) or card.flush is None:
        return 0.0
    flush = card.flush
    speed = rate(flush.rate, "B/s")
    return float(flush_energy(number(flush.size, "B"), speed, number(flush.power, "W")))


def _energy(case: Case, cached: list[str]) -> Limit:
    """The mount with the least energy to spare counts; a pack may serve any slot of its mount."""
    needed, bound = np.full(case.size, np.nan), np.full(case.size, np.nan)
    for place, mount in case.book.places_of(Mount).items():
        held = case.looked_up(place, partial(_held, case))
        most = np.zeros(case.size)
        for slot in mount.serves:
            most = np.maximum(most, case.looked_up(slot, partial(_needed, case)))
        tighter = (held != 0) & ~(held - most >= bound - needed)
        needed, bound = np.where(tighter, most, needed), np.where(tighter, held, bound)
    packs = fitted(case, EnergyPack)
    figure = Figure(
        "storage.flush",
        "energy to save the write cache",
        needed,
        "J",
        "power lost with the cache full, pack charged and as new",
        flush_energy,
        _flushes(case, cached),
        lacking(packs, case, *_ENERGY),
        outside=_NO_PACK if np.isnan(needed).any() else "",
    )
    facts = [getattr(pack, field) for pack in packs.values() for field in _ENERGY]
    return Limit(
        figure,
        bound,
        "most",
        "The pack is empty before the write cache is saved, and confirmed writes are lost.",
        legal=False,
        facts=case.cite(*facts),
    )


def _flushes(case: Case, cached: list[str]) -> tuple[Input, ...]:
    flushes = [
        card.flush
        for name in cached
        if isinstance(card := case.book.parts[name], Controller) and card.flush is not None
    ]
    return tuple(
        Input(text, getattr(flush, field).text, case.cite(getattr(flush, field)))
        for flush in flushes
        for field, text in (
            ("size", "data to save"),
            ("rate", "rate of saving"),
            ("power", "draw while saving"),
        )
    )


def _life(case: Case) -> Figure:
    lives: Reals = np.full(case.size, np.inf)
    missing: tuple[str, ...] = ()
    for place, mount in case.book.places_of(Mount).items():
        there = case.looked_up(place, lambda option: float(_pack(case, option) is not None)) > 0
        if there.any():
            missing += () if mount.rise else (f"places.{place}.rise",)
            life = _lives(case, place, number(mount.rise, "K"))
            lives = np.where(there, np.minimum(lives, life), lives)
    packs = fitted(case, EnergyPack)
    return Figure(
        "storage.pack_life",
        "life of the energy packs, the shortest",
        np.where(np.isinf(lives), np.nan, lives),
        "years",
        "at peak load all the time, air at the inlet as stated",
        pack_life,
        quoted(packs, case, "life", "life as stated")
        + quoted(packs, case, "life_temperature", "at"),
        lacking(packs, case, *_LIFE)
        + missing
        + (() if case.around.inlet is not None else ("site.inlet",)),
        _NO_PACK if np.isinf(lives).any() else "",
    )


def _lives(case: Case, place: str, rise: float) -> Floats:
    inlet: Floats = np.nan if case.around.inlet is None else case.around.inlet
    packs = [_pack(case, option) for option in case.frame.options(place)]
    units = ("years", "°C", "K", "°C")
    facts = np.array(
        [
            [
                number(getattr(pack, field, None), unit)
                for field, unit in zip(_LIFE, units, strict=True)
            ]
            for pack in packs
        ]
    )[case.codes[place]]
    life, stated_at, step, floor = facts.T
    return pack_life(life, stated_at, np.add(inlet, rise), step, floor)
