"""Statements of what locks hold, what cuts power, and which lights are seen where."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from baywright.facts.book import Book
from baywright.facts.places import Zone
from baywright.facts.sections import Interlock, Light
from baywright.language.claims import Claim
from baywright.language.stated import Stated
from baywright.language.telling.amounts import amount_claim
from baywright.language.telling.looked_up import Looked, denied, looked_up, stated_of
from baywright.language.telling.terms import Amount, Bag, NotTold, Term
from baywright.units import Quantity, UnitError

Cut = Callable[[str], "list[Term] | None"]

FILLERS = ("be", "modal", "join", "quant", "one", "conj", "after")


@dataclass(frozen=True)
class Access:
    """Reads statements of locks, interlocks and lights.

    Args:
        book: the book.
        cut: cuts a sentence of the book itself into terms.
    """

    book: Book
    cut: Cut

    def locked(self, bag: Bag) -> list[Claim]:
        """Read what a lock covers, and what it leaves."""
        bag.need("lock")
        if not self.book.locks or bag.has("amount") or bag.has("open_lock"):
            raise NotTold
        held = self._covers(bag)
        refused = bag.took("neg")
        bag.all("lock")
        items = list(self._items(bag))
        bag.done("be", "modal", "join=and|comma|but", "quant", "conj", "safe", "shut_in", "behind",
                 "act=lock|prevent|reach|remove|swap", "side=front", "one")  # fmt: skip
        claim = looked_up("covers", [self._item(item) for item in items], "locked", whole=True)
        return [denied(claim) if refused == held else claim]

    def _covers(self, bag: Bag) -> bool:
        """Say whether it is claimed to be covered: not where it is reached or left."""
        if bag.has("act", "prevent"):
            return True
        if bag.has("safe") or bag.has("act", "reach"):
            return False
        if bag.has("shut_in") or bag.has("behind") or bag.has("act", "lock"):
            return True
        raise NotTold

    def _items(self, bag: Bag) -> Iterator[str]:
        names = {place.name: place.name for place in self.book.places_of(Zone).values()}
        yield from bag.all("item")
        for place in bag.all("place"):
            yield from (names[self.book.places[n].name] for n in place)
        if bag.has("feature", "zones"):
            bag.take("feature", "zones")
            numbers = bag.all("number")
            if any(values != (len(names),) for values in numbers):
                raise NotTold
            yield from names
        for group in bag.all("group"):
            yield {"supply": "supplies", "drive": "drives"}.get(group.thing.name, "")

    def _item(self, item: str) -> Looked:
        """Return what a lock does with something, and whether it covers it."""
        if item == "drives" and not any(
            fact.known == item for lock in self.book.locks.values() for fact in lock.covers
        ):
            zones = [self._item(place.name) for place in self.book.places_of(Zone).values()]
            return zones[0][0], all(covered for _, covered in zones)
        for name, lock in self.book.locks.items():
            for listed, covered in ((lock.covers, True), (lock.leaves, False)):
                for fact in listed:
                    if fact.known == item:
                        path = f"locks.{name}.{'covers' if covered else 'leaves'}"
                        return Stated(path, fact.text, lock.name.known, (fact,)), covered
        raise NotTold

    def cut_off(self, bag: Bag) -> list[Claim]:
        """Read what happens when a guide, a lid or a cover is out of place."""
        step = bag.need("step")
        bag.all("step", step)
        if bag.has("step") or bag.has("group"):
            raise NotTold
        effect, starting = _effect(bag)
        while_ = "starting" if starting else "running"
        found = [i for i in self._interlocks(step) if i.while_ == while_]
        if len(found) != 1:
            raise NotTold
        after = _lasts(bag)
        at_once = bag.took("at_once")
        for sort in ("neg", "unless", "unseated", "orderly", "only", "others"):
            bag.all(sort)
        bag.done(*FILLERS, "filler", "act=remove|open|seat|start", "effect", "running",
                 "power_word", "switch_word", "act=swap")  # fmt: skip
        return [self._same(found[0], effect, after, at_once=at_once)]

    def _interlocks(self, step: str) -> Iterator[Interlock]:
        for interlock in self.book.interlocks.values():
            terms = self.cut(interlock.action.known) or []
            if any(term.has("step", step) for term in terms):
                yield interlock

    def _same(self, held: Interlock, effect: str, after: Amount | None, *, at_once: bool) -> Claim:
        is_ = self._effect_of(held)
        stated = stated_of(held.action.known, held.effect, held.after)
        delay = held.after.known.canonical if held.after else 0
        so = is_ == effect
        if {effect, is_} == {"stop", "off"} and not at_once:
            raise NotTold  # whoever says so may mean the one by the other
        if at_once:
            so = delay == 0 and effect in (is_, "stop")
        if after is not None:
            so = so and delay == _canonical(after)
            if not so and held.after and held.after.known.magnitude == after.values[0]:
                raise NotTold  # the number is right with another unit, or of another effect
        return looked_up("effect", [(each, so) for each in stated], effect)

    def _effect_of(self, held: Interlock) -> str:
        bag = Bag(self.cut(held.effect.known) or [])
        if bag.has("effect", "no start") or (bag.has("neg") and bag.has("act", "start")):
            return "no start"
        return "stop" if bag.has("orderly") else "off"

    def lit(self, bag: Bag) -> list[Claim]:
        """Read where a light is seen, what it needs and how long it stays lit."""
        if not (bag.has("light") or bag.has("light_of")):
            raise NotTold
        bag.all("light")
        lights = list(self._lights(bag))
        if not lights or bag.has("neg"):
            raise NotTold
        with_display = self._display(bag)
        only = bag.took("only")
        lasts = _lasts(bag)
        where = self._where(bag)
        bag.all("group")
        bag.done(*FILLERS, "filler", "act=show|remove|open", "running=off", "hint=life",
                 "before=after", "light_where", "cords_out", "step=cover|lid|cords")  # fmt: skip
        own = [each for each in lights if not each[1].needs]
        wanted = [each for each in lights if each[1].needs] if with_display else own
        if lasts is not None:
            return [_duration(lights, lasts)]
        if only and with_display:
            return [
                looked_up("needs", [(_needs(n, li), bool(li.needs)) for n, li in lights], "display")
            ]
        if not where:
            raise NotTold
        return [self._seen(wanted or lights, where, bare=not wanted)]

    def _display(self, bag: Bag) -> bool:
        groups = [g for t in bag.terms if t.has("group") for g in t.senses["group"]]
        return any(group.thing.name == "display" for group in groups) or bag.took(
            "light_where", "display"
        )

    def _lights(self, bag: Bag) -> Iterator[tuple[str, Light]]:
        wanted = set(bag.all("light_of"))
        wanted |= {g.thing.name for t in bag.terms if t.has("group") for g in t.senses["group"]}
        wanted -= {"display"}
        if not wanted:
            raise NotTold
        for name, light in self.book.lights.items():
            if self._shows(light) in wanted:
                yield str(name), light

    def _shows(self, light: Light) -> str:
        """Return what lights it: a kind of part, any fault, or a code."""
        text = light.shows.known
        for kind, words in _SHOWS.items():
            if any(word in text for word in words):
                return kind
        return ""

    def _where(self, bag: Bag) -> str:
        if bag.took("step") and (bag.has("act") or bag.has("running") or bag.has("light_where")):
            return "inside"
        for value in ("inside", "own", "front", "rear"):
            if bag.took("light_where", value):
                return value
        return "own" if bag.has("quant") or _every(bag) else ""

    def _seen(self, lights: Sequence[tuple[str, Light]], where: str, *, bare: bool) -> Claim:
        signs = {"inside": ("inside", "off", "open"), "own": ("each",)}.get(where, (where,))
        found: list[Looked] = [
            (_seen_at(name, light), any(sign in light.seen.known for sign in signs))
            for name, light in lights
        ]
        if (bare and any(so for _, so in found)) or (where == "own" and not all_so(found)):
            raise NotTold
        return looked_up("seen", found, where)


_SHOWS = {
    "drive": ("drive",), "supply": ("supply",), "fan": ("fan",), "controller": ("controller",),
    "pack": ("pack",), "processor": ("processor",), "memory": ("memory", "module"),
    "code": ("code",), "summary": ("any fault",),
}  # fmt: skip
"""Words by which a book says what lights a light."""


def all_so(found: Sequence[Looked]) -> bool:
    """Say whether all that is stated is as it is said."""
    return all(so for _, so in found)


def _every(bag: Bag) -> bool:
    return any(g.every for t in bag.terms if t.has("group") for g in t.senses["group"])


def _seen_at(name: str, light: Light) -> Stated:
    return Stated(f"lights.{name}.seen", light.seen.text, light.shows.known, (light.seen,))


def _needs(name: str, light: Light) -> Stated:
    return Stated(f"lights.{name}.needs", str(light.needs or "nothing"), light.shows.known)


def _lasts(bag: Bag) -> Amount | None:
    try:
        return bag.amount(("time",))
    except NotTold:
        return None


def _duration(lights: Sequence[tuple[str, Light]], lasts: Amount) -> Claim:
    found = [
        Stated(f"lights.{name}.lasts", light.lasts.known, light.shows.known, (light.lasts,))
        for name, light in lights
        if light.lasts
    ]
    return amount_claim("lasts", found, lasts)


def _effect(bag: Bag) -> tuple[str, bool]:
    """Return the effect that is claimed, and whether it is one on starting."""
    negations = len(bag.all("neg", "")) + len(bag.all("neg", "no"))
    loose = _unseated(bag, negations)
    negations -= loose == "denied"
    if bag.took("effect", "no start") or (bag.has("refuse") and any(map(_starts, bag.terms))):
        bag.all("refuse")
        return "no start", True
    starts = any(_starts(term) for term in bag.terms)
    if loose and starts and not bag.has("effect", "off"):
        only = bag.has("only") or bag.has("unless") or bag.has("modal", "must")
        return ("no start" if negations or only else "start"), True
    if negations:
        raise NotTold
    return _running_effect(bag), False


def _starts(term: Term) -> bool:
    """Say whether a word is about starting, and not about running as well."""
    return (term.has("act", "start") or term.has("effect", "start")) and not term.has("running")


def _running_effect(bag: Bag) -> str:
    removed = bag.has("act", "remove") or bag.has("act", "open")
    if not removed and not bag.has("neg", "without"):
        raise NotTold
    if bag.has("orderly"):
        return "stop"
    if bag.has("effect", "off") or bag.has("running", "off"):
        return "off"
    if bag.has("effect", "stop"):
        return "stop"
    if bag.has("effect", "none") or (bag.has("modal", "can") and bag.has("running", "")):
        return "none"
    raise NotTold


def _unseated(bag: Bag, negations: int) -> str:
    """Return how it is said that something is out of its place; empty where it is not."""
    if bag.has("unseated"):
        return "said"
    if bag.has("act", "seat"):
        if bag.has("unless") or bag.has("only") or bag.has("modal", "must"):
            return "otherwise"
        return "denied" if negations else ""
    return "without" if bag.has("neg", "without") or bag.has("act", "remove") else ""


def _canonical(amount: Amount) -> object:
    if len(amount.values) != 1 or amount.op in ("~", "<", ">"):
        raise NotTold
    try:
        return Quantity(amount.values[0], amount.unit, "time").canonical
    except UnitError as error:
        raise NotTold from error
