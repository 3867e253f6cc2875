"""Statements of days, of systems and firmware, and of what a failure does."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from baywright.facts.book import Book
from baywright.facts.fact import Fact
from baywright.facts.parts import Controller
from baywright.facts.places import Supplies
from baywright.language.claims import Claim
from baywright.language.stated import Stated
from baywright.language.telling.looked_up import Looked, denied, looked_up
from baywright.language.telling.terms import Bag, Group, NotTold
from baywright.language.tokens import Token

FILLERS = ("be", "filler", "modal", "join=and|comma|but", "quant", "one", "conj")


@dataclass(frozen=True)
class Occasions:
    """Reads statements of days, systems and failures.

    Args:
        book: the book.
    """

    book: Book

    def dated(self, bag: Bag) -> list[Claim]:
        """Read the day on which the machine or a part is announced, ships or is last ordered."""
        tokens, years = bag.all("date"), self._years(bag)
        if len(tokens) + len(years) != 1 or bag.has("neg") or bag.has("amount"):
            raise NotTold
        event = self._event(bag)
        until = bag.has("day_word", "until")
        subject = self._subject(bag)
        period = bag.take("period") or ""
        bag.all("period")
        bag.done("be", "filler", "modal=can", "join=comma", "one", "day", "day_word", "date_noun",
                 "act=announce|ship|order|end", "before=first|last", "good")  # fmt: skip
        if (years or period) and event == "orderable":
            raise NotTold
        if years or period:
            return [self._within(subject, event, tokens, years, str(period))]
        token = tokens[0]
        if event == "last_order":
            return [self._last_order(subject, token, until=until)]
        return [
            Claim("date", day=token.date, event=event, subject=subject,
                  month_only=token.month_only)
        ]  # fmt: skip

    def _last_order(self, subject: str, token: Token, *, until: bool) -> Claim:
        """Return the claim that a day, or a month, is that of the last order, and no earlier one.

        Raises:
            NotTold: when orders end later than is said, so that it is so and still misleads; when
                they end in the month until which they are said to be taken.
        """
        held = self.book.parts.get(subject) or self.book.book
        fact = held.last_order
        if fact is None or fact.value is None or token.date is None:
            raise NotTold
        day, said = fact.known, token.date
        so = (day.year, day.month) == (said.year, said.month)
        so = so and (token.month_only or day == said)
        if (not so and said < day) or (until and token.month_only and so):
            raise NotTold
        stated = Stated(fact.path, fact.text, self.book.book.name, (fact,))
        return looked_up("last_order", [(stated, so)], said.isoformat())

    def _years(self, bag: Bag) -> list[int]:
        """Take a year that stands alone out."""
        found = []
        for values in bag.all("number"):
            if len(values) != 1 or not 2000 <= values[0] < 2200:
                raise NotTold
            found.append(int(values[0]))
        return found

    def _event(self, bag: Bag) -> str:
        """Return what is said to be on the day.

        Raises:
            NotTold: when the words are of several events, or of none.
        """
        ended = bag.has("act", "end") or any(
            term.has("day_word", "until") and not term.has("stop") for term in bag.terms
        )
        ordered = bag.has("day", "last_order") or any(
            term.has("act", "order") and not term.has("filler") for term in bag.terms
        )
        announced = bag.has("act", "announce") or bag.has("day", "announced")
        shipped = any(
            (term.has("act", "ship") or term.has("day", "ships"))
            and not term.has("act", "announce", "order", "end")
            for term in bag.terms
        )
        if announced + shipped + ordered != 1 or (ended and not ordered):
            raise NotTold
        if ordered:
            begun = bag.has("day_word", "from") or bag.has("before", "first")
            last = ended or bag.has("day", "last_order")
            if begun and last:
                raise NotTold
            return "last_order" if last else "ships" if begun else "orderable"
        return "announced" if announced else "ships"

    def _subject(self, bag: Bag) -> str:
        groups: list[Group] = bag.all("group")
        if len(groups) > 1 or any(len(group.parts) != 1 for group in groups):
            raise NotTold
        return groups[0].parts[0] if groups else ""

    def _within(self, subject: str, event: str, tokens: Sequence[Token], years: Sequence[int],
                period: str) -> Claim:  # fmt: skip
        held = self.book.parts.get(subject) or self.book.book
        fact = getattr(held, event, None)
        if not isinstance(fact, Fact) or fact.value is None:
            raise NotTold
        day: datetime.date = fact.known
        wanted = tokens[0].date if tokens else datetime.date(years[0], 1, 1)
        if wanted is None or (tokens and not tokens[0].month_only and period):
            raise NotTold
        if event == "last_order" and (period != "late" or (years and wanted.year == day.year)):
            raise NotTold  # until a year may mean its first day or its last
        so = day.year == wanted.year and (not tokens or day.month == wanted.month)
        part = (day.day - 1) / 31 if tokens else (day.month - 1) / 12
        edge = {
            "early": part < 1 / 3, "mid": 1 / 3 <= part < 2 / 3, "late": part >= 2 / 3, "": True
        }[period]  # fmt: skip
        if so and not edge and 0.2 < part < 0.8:
            raise NotTold  # what is early and what is late is not sharp
        stated = Stated(fact.path or f"book.{event}", fact.text, self.book.book.name, (fact,))
        return looked_up(event, [(stated, so and edge)], period or str(wanted.year))

    def systems(self, bag: Bag) -> list[Claim]:
        """Read which releases of a system run on the machine."""
        name, numbers = bag.need("release")
        bag.all("system")
        if bag.has("group") or bag.has("release") or bag.has("amount") or bag.has("number"):
            raise NotTold
        refused = bag.took("neg")
        if not (bag.has("act", "support") or bag.has("good") or bag.has("filler")):
            raise NotTold
        bag.done(*FILLERS, "good", "act=support", "running")
        found = [self._release(name, number) for number in numbers]
        claim = looked_up("system", found, ", ".join(map(str, numbers)), whole=True)
        return [denied(claim) if refused else claim]

    def _release(self, name: str, number: Fraction) -> Looked:
        values = self.book.settings["system"].values
        held = {value.known: value for value in values.values()}
        said = f"{name} {number}"
        fact = held.get(said)
        text = ", ".join(held)
        facts = (fact,) if fact else tuple(values.values())
        return Stated("settings.system", text, self.book.book.name, facts), fact is not None

    def refused_by(self, bag: Bag) -> list[Claim]:
        """Read that a release of a system goes with a part or refuses it."""
        name, numbers = bag.need("release")
        groups: list[Group] = bag.all("group")
        if len(groups) != 1 or bag.has("number") or bag.has("firmware"):
            raise NotTold
        refused = bag.took("neg") or bag.took("effect", "no start") or bag.took("refuse")
        if not (bag.has("act", "support") or bag.has("act", "start") or refused):
            raise NotTold
        bag.done(*FILLERS, "act=support|start", "effect=start")
        ids = {value.known: key for key, value in self.book.settings["system"].values.items()}
        claims = []
        for number in numbers:
            key = ids.get(f"{name} {number}")
            if key is None:
                raise NotTold
            terms = (" or ".join(f'count("{p}") >= 1' for p in groups[0].parts),)
            given = (f'system == "{key}"',)
            claims.append(Claim("never" if refused else "can", terms, given))
        return claims

    def firmware(self, bag: Bag) -> list[Claim]:
        """Read the least firmware of a part with some systems."""
        bag.need("firmware")
        bag.all("firmware")
        groups: list[Group] = bag.all("group")
        values = bag.need("number")
        release = bag.take("release")
        if len(groups) != 1 or len(values) != 1 or bag.has("neg") or bag.has("number"):
            raise NotTold
        enough = bag.took("enough") or not bag.has("need")
        bag.done(*FILLERS, "need", "later", "day_word=from", "good", "act=update")
        entries = [e for e in self.book.firmware.minimum if e.part in groups[0].parts]
        found = [self._least(e.at_least, values[0], enough=enough) for e in entries]
        claim = looked_up("firmware", found, str(float(values[0])))
        if release is None:
            raise NotTold
        keys = {v.known: k for k, v in self.book.settings["system"].values.items()}
        wanted = {keys.get(f"{release[0]} {number}") for number in release[1]}
        if not all(wanted <= set(map(str, entry.systems)) for entry in entries):
            raise NotTold
        return [claim]

    def _least(self, held: Fact[str], value: Fraction, *, enough: bool) -> Looked:
        try:
            least = Fraction(held.known)
        except ValueError as error:
            raise NotTold from error
        stated = Stated(held.path, held.text, self.book.book.name, (held,))
        return stated, value >= least if enough else value == least

    def supply_lost(self, bag: Bag) -> list[Claim]:
        """Read that the machine carries on when a supply or a fan fails."""
        groups: list[Group] = bag.all("group")
        if len(groups) != 1 or groups[0].count not in (None, 1) or groups[0].op:
            raise NotTold
        term = {"supply": "supplies_redundant", "fan": "air_redundant"}.get(groups[0].thing.name)
        if term is None or groups[0].thing.part or not bag.has("act", "die"):
            raise NotTold
        self._carried(bag)
        return [Claim("always", (term,))]

    def _carried(self, bag: Bag) -> None:
        if not (bag.has("act", "carry") or bag.has("effect", "none")) or bag.has("neg"):
            raise NotTold
        bag.all("ordinal")
        bag.done(*FILLERS, "others", "act=die|carry", "effect=none", "running", "load")

    def feeds(self, bag: Bag) -> list[Claim]:
        """Read how many supplies hang on a feed, or that one may fail."""
        feed = bag.need("feed")
        rows = [p for p in self.book.places_of(Supplies).values() if feed in p.feeds]
        if not rows or bag.has("feed"):
            raise NotTold
        if bag.has("act", "die"):
            bag.all("group")
            self._carried(bag)
            return [Claim("always", ("supplies_redundant",))]
        groups: list[Group] = bag.all("group")
        numbers = bag.all("number") or [(group.count,) for group in groups]
        count = numbers[0][0] if numbers else None
        if len(groups) > 1 or count is None or bag.has("neg"):
            raise NotTold
        bag.done(*FILLERS, "act=feed")
        fact = rows[0].feeds[feed]
        stated = Stated(fact.path, fact.text, rows[0].name, (fact,))
        return [looked_up(f"supplies on feed {feed}", [(stated, fact.known == count)], str(count))]

    def carried_by(self, bag: Bag) -> list[Claim]:
        """Read how many supplies carry the load."""
        groups: list[Group] = bag.all("group")
        if not groups or any(g.thing.name != "supply" or g.thing.part for g in groups):
            raise NotTold
        counts = [group.count for group in groups if group.count is not None]
        counts += [values[0] for values in bag.all("number")]
        bag.took("load")
        if not bag.took("act", "carry") or bag.has("act", "die") or bag.has("neg"):
            raise NotTold
        bag.done(*FILLERS, "enough", "others", "load", "act=carry")
        rows = [row for p in self.book.places_of(Supplies).values() for row in p.fitted]
        found: list[Looked] = [
            (Stated(row.redundant.path, row.redundant.text, self.book.book.name, (row.redundant,)),
             row.redundant.known == min(counts) and len(counts) < 3
             and (len(counts) == 1 or row.count.known == max(counts)))
            for row in rows if row.redundant is not None and counts
        ]  # fmt: skip
        if any(row.redundant is None or row.redundant.known < 2 for row in rows):
            raise NotTold  # one alone carries it only up to its rating
        return [looked_up("redundant", found, str(min(counts)))]

    def write_through(self, bag: Bag) -> list[Claim]:
        """Read that a controller writes through where its energy pack is missing or dead."""
        bag.need("act", "write")
        groups: list[Group] = bag.all("group")
        kinds = {group.thing.name for group in groups}
        if not kinds <= {"pack", "controller"} or "pack" not in kinds:
            raise NotTold
        without = bag.took("dead") or bag.took("neg") or bag.took("act", "die")
        if not without or bag.has("neg"):
            raise NotTold
        bag.done(*FILLERS, "act=write")
        found: list[Looked] = [
            (
                Stated(f"parts.{name}.flush", part.flush.size.text, part.name, (part.flush.size,)),
                True,
            )
            for name, part in self.book.parts.items()
            if isinstance(part, Controller) and part.flush is not None
        ]
        return [looked_up("write cache", found, "needs a charged pack")]

    def follows(self, bag: Bag) -> list[Claim]:
        """Read which machine another follows."""
        other = bag.need("other")
        role = bag.take("role") or ("successor" if bag.took("act", "replace") else "")
        if not role or bag.has("neg") or not bag.has("machine") or bag.has("number"):
            raise NotTold
        bag.all("role"), bag.all("other")
        bag.done("be", "one")
        held = self.book.book.predecessor
        if not held:
            raise NotTold
        stated = Stated("book.predecessor", str(held), self.book.book.name)
        return [looked_up("predecessor", [(stated, held == other and role == "successor")], other)]
