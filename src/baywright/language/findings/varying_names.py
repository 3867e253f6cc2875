"""Names that vary: one thing, two names, and a reader who takes them for two things."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence

from baywright.language.findings.grounds import Grounds
from baywright.language.passages import Passage, Remark


def varying_names(passages: Sequence[Passage], grounds: Grounds) -> Iterator[Remark]:
    """Yield a remark where a thing first gets a second name.

    A name is no second one when all its words are in the other: ``supply`` is short for ``power
    supply``. A short name that several things could have stands for none of them.
    """
    names = _sure(grounds.names)
    if not names:
        return
    pattern = _pattern(names)
    first: dict[str, tuple[str, Passage]] = {}
    told: set[tuple[str, str]] = set()
    for passage in passages:
        for found in pattern.finditer(passage.text):
            name = _named(found.group().casefold(), names)
            thing = names[name]
            known, where = first.setdefault(thing, (found.group(), passage))
            if (thing, name) in told or _is_short_for(name, _named(known.casefold(), names)):
                continue
            told.add((thing, name))
            said = f"“{found.group()}” is “{known}” at {where.place.where}; keep to one name."
            yield Remark(passage, "name", said=said)


def _sure(names: Mapping[str, str]) -> dict[str, str]:
    """Return the names, in small letters, that no other thing has as the end of its own."""
    folded = {name.casefold(): thing for name, thing in names.items()}
    ends = {(name.split()[-1], thing) for name, thing in folded.items() if " " in name}
    return {
        name: thing
        for name, thing in folded.items()
        if not any(end == name and other != thing for end, other in ends)
    }


def _pattern(names: Mapping[str, str]) -> re.Pattern[str]:
    longest = sorted(names, key=len, reverse=True)
    forms = (re.escape(form) for name in longest for form in _many(name))
    return re.compile(rf"\b(?:{'|'.join(forms)})\b", re.IGNORECASE)


def _many(name: str) -> tuple[str, ...]:
    """Return what several of a name can look like, and the name itself."""
    several = (f"{name}s", f"{name}es", name)
    return (f"{name[:-1]}ies", *several) if name.endswith("y") else several


def _named(written: str, names: Mapping[str, str]) -> str:
    """Return the name that stands written, one or several of it."""
    return next(name for name in names if written in _many(name))


def _is_short_for(one: str, other: str) -> bool:
    first, second = set(one.split()), set(other.split())
    return first <= second or second <= first
