"""Claims that a look at the facts of a book decides."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from baywright.facts.fact import Fact
from baywright.language.claims import Claim, FactClaim
from baywright.language.stated import Stated
from baywright.language.telling.terms import NotTold

Looked = tuple[Stated, bool]
"""What is stated, and whether it is as it is said."""


def looked_up(name: str, found: Iterable[Looked], word: str, *, whole: bool = False) -> Claim:
    """Return the claim that all that is stated is as it is said.

    Args:
        name: what is claimed of it.
        found: what is stated, each with whether it agrees.
        word: the value that is claimed.
        whole: whether it is false as soon as one does not agree.

    Raises:
        NotTold: when nothing is stated.
    """
    pairs = list(found)
    if not pairs:
        raise NotTold
    agree = [so for _, so in pairs]
    partly = "false" if whole else "only-if"
    kind: Any = "true" if all(agree) else partly if any(agree) else "false"
    stated = tuple(each for each, _ in pairs)
    return Claim("fact", facts=(FactClaim(name, stated, "==", word=word, found=kind),))


def denied(claim: Claim) -> Claim:
    """Return the claim that nothing that is stated is as it is said."""
    fact = claim.facts[0]
    other: Any = {"true": "false", "false": "true"}.get(fact.found, fact.found)
    turned = FactClaim(fact.name, fact.stated, "!=", word=fact.word, found=other)
    return Claim("fact", facts=(turned,))


def stated_of(owner: str, *facts: Fact[Any] | None) -> list[Stated]:
    """Return facts as what is stated of an owner."""
    return [Stated(f.path, f.text, owner, (f,)) for f in facts if f is not None]


def listed(path: str, values: Sequence[Fact[Any]], owner: str) -> Stated:
    """Return a list of facts as one value that is stated."""
    return Stated(path, ", ".join(each.text for each in values), owner, tuple(values))
