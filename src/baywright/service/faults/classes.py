"""Classes: single faults that cannot be told apart by what is seen, and how many that leaves."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from baywright.service.faults.found import Fault
from baywright.service.faults.signs import Shown, Sign, Way

Signature = frozenset[str]
"""Keys of the signs that are shown."""


@dataclass(frozen=True, slots=True)
class Classes:
    """Single faults by what is seen of them.

    Args:
        faults: the faults.
        by_signature: ids of the faults that show the same signs, by the keys of those.
    """

    faults: tuple[Fault, ...]
    by_signature: Mapping[Signature, tuple[str, ...]]

    @property
    def expected(self) -> Fraction:
        """Suspects to expect once one fault has come, each as often as it does [1].

        The sum of p(i) × size(class of i), with p(i) = rate(i) / sum of rates. Faults without a
        stated rate are counted as suspects and never come.
        """
        rates = {fault.id: fault.rate or Fraction(0) for fault in self.faults}
        total = sum(rates.values(), Fraction(0))
        if not total:
            return Fraction(0)
        held = self.by_signature.values()
        return (
            sum((len(c) * sum((rates[i] for i in c), Fraction(0)) for c in held), Fraction(0))
            / total
        )

    @property
    def expected_unweighted(self) -> Fraction:
        """The same with every fault equally likely: the sum of squared sizes over their sum [1]."""
        sizes = [len(each) for each in self.by_signature.values()]
        return Fraction(sum(size * size for size in sizes), max(1, sum(sizes)))


def signature(signs: Iterable[Sign], faults: Collection[str]) -> Signature:
    """Return the keys of the signs that some faults at once are sure to show."""
    return frozenset(sign.key for sign in signs if sign.shown(faults) is Shown.ON)


def classes_of(faults: Sequence[Fault], signs: Iterable[Sign]) -> Classes:
    """Return single faults by the signs they are sure to show.

    Args:
        faults: the faults.
        signs: the signs that are looked at.
    """
    looked, found = tuple(signs), dict[Signature, tuple[str, ...]]()
    for fault in faults:
        key = signature(looked, (fault.id,))
        found[key] = (*found.get(key, ()), fault.id)
    return Classes(tuple(faults), found)


def seen_by(signs: Iterable[Sign], ways: Collection[Way]) -> tuple[Sign, ...]:
    """Return the signs that some ways of looking show."""
    return tuple(sign for sign in signs if sign.way in ways)
