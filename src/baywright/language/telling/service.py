"""Statements of service: what is changed while running, in which order, with what, how long."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from baywright.facts.book import Book
from baywright.facts.fact import Fact
from baywright.language.claims import Claim
from baywright.language.stated import Stated
from baywright.language.telling.amounts import amount_claim
from baywright.language.telling.looked_up import Looked, denied, listed, looked_up
from baywright.language.telling.terms import Bag, Group, NotTold

_ACTS = ("swap", "remove", "open", "seat")
_RUNNING, _STOPPED = {"running", "hot", "live"}, {"off", "stopped"}


@dataclass(frozen=True)
class Servicing:
    """Reads statements of service.

    Args:
        book: the book.
    """

    book: Book

    def hot(self, bag: Bag) -> list[Claim]:
        """Read whether parts are changed while the machine runs or with power off."""
        groups = self._groups(bag)
        running = self._while_running(bag)
        bag.done("be", "modal", "join=and|comma|or", "quant", "conj", "one", "need", "neg", "only",
                 "act=swap|remove|open|seat", "running", "hot", "before=before", "unless",
                 "effect=off|stop", "power_word")  # fmt: skip
        found = [pair for group in groups for pair in self._hot(group)]
        if any(so for _, so in found) and not all(self._listed(group) for group in groups):
            raise NotTold  # its handle allows it, and the work that is allowed does not name it
        claim = looked_up("mark", found, "while running")
        return [claim if running else denied(claim)]

    def _groups(self, bag: Bag) -> list[Group]:
        groups: list[Group] = bag.all("group")
        if not groups or any(group.count not in (None, 1) for group in groups):
            raise NotTold
        return groups

    def _while_running(self, bag: Bag) -> bool:
        """Say whether it is claimed to be done while running, rather than with power off."""
        refused = len([term for term in bag.terms if term.has("neg")]) % 2 == 1
        if bag.has("hot"):
            return bag.has("hot", "hot") != refused
        if not any(bag.has("act", act) for act in _ACTS):
            raise NotTold
        if bag.has("running", "off") and not bag.has("running", ""):
            forced = bag.has("modal", "must") or bag.has("only") or bag.has("before", "before")
            if not forced and not refused:
                raise NotTold
            return refused
        if not bag.has("running", ""):
            raise NotTold
        return not refused

    def _hot(self, group: Group) -> Iterator[Looked]:
        for name in group.parts:
            part = self.book.parts[name]
            words = set(part.mark.known.casefold().split()) if part.mark else set()
            work = self.book.service.work.get(part.kind)
            if words & _RUNNING or words & _STOPPED:
                mark = part.mark
                facts = (mark,) if mark else ()
                stated = Stated(f"parts.{name}.mark", mark.text if mark else "", part.name, facts)
                yield stated, bool(words & _RUNNING)
            elif work is not None and work.running is not None:
                path = f"service.work.{part.kind}.running"
                yield (
                    Stated(path, work.running.text, part.name, (work.running,)),
                    bool(work.running.known),
                )

    def _listed(self, group: Group) -> bool:
        """Say whether work on parts is among that allowed while running."""
        work = self.book.service.work.get(group.thing.name)
        if work is not None and work.running is not None and work.running.known:
            return True
        return any(group.thing.name in each.known for each in self.book.service.running)

    def marked(self, bag: Bag) -> list[Claim]:
        """Read the words on handles of parts."""
        mark = bag.need("mark")
        groups = self._groups(bag)
        refused = bag.took("neg")
        bag.done("be", "filler", "join=and|comma", "quant", "mark_word", "one")
        found: list[Looked] = [
            (Stated(f"parts.{n}.mark", part.mark.text, part.name, (part.mark,)),
             part.mark.known == mark)
            for group in groups for n in group.parts
            for part in (self.book.parts[n],) if part.mark
        ]  # fmt: skip
        claim = looked_up("mark", found, mark)
        return [denied(claim) if refused else claim]

    def waits(self, bag: Bag) -> list[Claim]:
        """Read how long to wait for something hot."""
        what = bag.need("wait_of")
        amount = bag.amount(("time",))
        if bag.has("neg") or bag.has("group"):
            raise NotTold
        bag.done("filler", "need", "modal", "join=and|comma|but", "act=wait|reach|remove",
                 "before=before", "conj", "hot_surface", "one", "hint=life")  # fmt: skip
        fact = self.book.service.waits[what]
        stated = Stated(f"service.waits.{what}", fact.known, what, (fact,))
        return [amount_claim("wait", [stated], amount)]

    def ordered(self, bag: Bag) -> list[Claim]:
        """Read the order of steps: the cover before the air guide."""
        first, second = self._sequence(bag)
        update = bag.has("firmware") or bag.has("act", "update")
        if bag.has("neg") or bag.has("amount") or (bag.has("act", "seat") and not update):
            raise NotTold
        bag.all("step")
        bag.done("be", "filler", "modal", "join=and|comma|but", "one", "running=off", "need",
                 "conj", "before", "firmware", "act=remove|open|update|swap" if update else
                 "act=remove|open|reach")  # fmt: skip
        order = self.book.firmware.update_order if update else self.book.service.order
        names = [str(each.known) for each in order]
        at = [self._at(names, step) for step in (first, second)]
        path = "firmware.update_order" if update else "service.order"
        stated = listed(path, order, self.book.book.name)
        return [
            looked_up(
                "order", [(stated, at[0] < at[1])], f"{first or 'none'} before {second or 'any'}"
            )
        ]

    def _at(self, names: Sequence[str], step: str) -> int:
        if step in ("^", "$"):
            return 0 if step == "^" else len(names) - 1
        if step not in names:
            raise NotTold
        return names.index(step)

    def _sequence(self, bag: Bag) -> tuple[str, str]:
        """Return the earlier and the later of two steps."""
        places = [i for i, term in enumerate(bag.terms) if term.has("step")]
        steps = [bag.terms[i].senses["step"][0] for i in places]
        words = [(i, t.senses["before"]) for i, t in enumerate(bag.terms) if t.has("before")]
        if len(steps) != 2 or not words:
            raise NotTold
        at, values = next(((i, v) for i, v in words if {"before", "after"} & set(v)), words[-1])
        if "before" in values or "after" in values:
            turned = ("after" in values) != (at < places[0])
            return (steps[1], steps[0]) if turned else (steps[0], steps[1])
        if "then" in values:
            return steps[0], steps[1]
        raise NotTold

    def first_or_last(self, bag: Bag) -> list[Claim]:
        """Read which step comes first or last."""
        step = bag.need("step")
        end = next((e for e in ("first", "last") if bag.took("before", e)), "")
        update = bag.took("firmware") or bag.has("act", "update")
        if not end or bag.has("step") or bag.has("neg") or bag.has("before"):
            raise NotTold
        bag.done("be", "filler", "modal", "act=remove|open|update", "one", "running=off", "need")
        order = self.book.firmware.update_order if update else self.book.service.order
        names = [str(each.known) for each in order]
        if step not in names:
            raise NotTold
        at = 0 if end == "first" else len(names) - 1
        stated = listed("firmware.update_order" if update else "service.order", order, end)
        return [looked_up("order", [(stated, names.index(step) == at)], f"{step} {end}")]

    def worked(self, bag: Bag) -> list[Claim]:
        """Read what the work on a kind of part takes: minutes, tools."""
        groups = self._groups(bag)
        if len(groups) != 1 or bag.has("neg") or not (bag.has("tool") or _timed(bag)):
            raise NotTold
        kind = groups[0].thing.name
        work = self.book.service.work.get(kind)
        if work is None:
            raise NotTold
        claims = []
        if bag.has("tool"):
            claims.append(self._tools(kind, work.tools, set(bag.all("tool"))))
        if _timed(bag):
            if work.time is None or not bag.has("act", *_ACTS):
                raise NotTold
            stated = Stated(f"service.work.{kind}.time", work.time.known, kind, (work.time,))
            claims.append(amount_claim("time", [stated], bag.amount(("time",))))
        bag.done("filler", "act=swap|remove|seat", "one", "join=and|comma|but", "quant", "conj",
                 "need", "modal=must")  # fmt: skip
        return claims

    def _tools(self, kind: str, tools: Sequence[Fact[str]], wanted: set[str]) -> Claim:
        path, held = f"service.work.{kind}.tools", {each.known for each in tools}
        stated = listed(path, tools, kind) if tools else Stated(path, "none", kind)
        if wanted == {"no"}:
            return looked_up("tools", [(stated, not held)], "none")
        named = wanted - {"any", "no"}
        if "no" in wanted or not named:
            raise NotTold
        return looked_up("tools", [(stated, named <= held)], ", ".join(sorted(named)))

    def uncovered(self, bag: Bag) -> list[Claim]:
        """Read how long the cover may be off while the machine runs."""
        step = bag.need("step")
        held = self.book.air.cover_off
        off = bag.has("running", "off") or bag.has("act", "open") or bag.has("act", "remove")
        if step not in ("cover", "lid") or held is None or not off or bag.has("neg"):
            raise NotTold
        amount = bag.amount(("time",))
        bag.done("filler", "modal", "act=remove|open", "one", "join=and|comma|but", "conj",
                 "running", "only")  # fmt: skip
        stated = Stated("air.cover_off", held.known, self.book.book.name, (held,))
        return [amount_claim("cover_off", [stated], amount)]


def _timed(bag: Bag) -> bool:
    return any("time" in term.senses.get("dimension", ()) for term in bag.terms)
