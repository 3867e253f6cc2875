"""True sentences: what stands in place of a claim that is not so."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from baywright.facts.book import Book
from baywright.language.claims import Claim, FactClaim
from baywright.language.stated import Stated
from baywright.language.things import Measure, Thing, written
from baywright.laws.wording import capitalised, listed
from baywright.units import Quantity
from baywright.units.printing import number

VERB_OF_FIELD = {
    "depth": "The chassis is {} deep.", "height": "The chassis is {} tall.",
    "width": "The chassis is {} wide.", "mass_empty": "Empty it weighs {}.",
    "mass_most": "Fully loaded it weighs {}.",
}  # fmt: skip
_SIDES = {"front": "at the front", "rear": "at the rear", "inside": "inside"}


def yes_or_no(kind: str, facts: Sequence[Stated]) -> str:
    """Return an answer that facts of the book give."""
    word = {"true": "Yes", "false": "No", "only-if": "Not of all"}[kind]
    said = dict.fromkeys(f"{each.owner}: {value_said(each.value)}" for each in facts)
    return f"{word}. {'; '.join(said)}." if said else f"{word}."


def value_said(value: object) -> str:
    """Return a value as people write it."""
    if isinstance(value, Quantity):
        return f"{number(value.magnitude)} {value.unit}"
    return number(value) if isinstance(value, Fraction) else str(value)


def conditions_said(book: Book, conditions: Sequence[str]) -> list[str]:
    """Return conditions as noun phrases, those that others imply left out."""
    return [said for each in conditions if (said := condition_said(book, each, bare=True))]


def condition_said(book: Book, condition: str, *, bare: bool = False) -> str:
    """Return a condition in words, such as ``with two processors``; empty where none are known.

    Args:
        book: the book.
        condition: the condition as an expression.
        bare: whether the word before it is left out.
    """
    name, _, value = condition.partition(" == ")
    text = value.strip('"')
    if name == "processors":
        words = {"1": "one processor", "2": "two processors"}.get(text, f"{text} processors")
        return words if bare else f"with {words}"
    if name == "line" and text in book.power.lines:
        said = book.power.lines[text].name
        return said if bare else f"on {said}"
    if name in book.settings and text in book.settings[name].values:
        phrases = book.words.get(f"{name}.{text}", [])
        said = f"the {phrases[0]}" if phrases and " " in phrases[0] else ""
        return said if bare or not said else f"in {said}"
    if condition.startswith("load <= "):
        return "" if bare else f"if the peak draw is at most {condition.removeprefix('load <= ')}"
    if condition.startswith('count("') and condition.endswith(">= 1"):
        part = book.parts.get(condition.split('"')[1])
        said = f"{article(part.name)} {part.name}" if part else ""
        return said if bare or not said else f"with {said}"
    return ""


def article(noun: str) -> str:
    """Return the article a noun takes.

    >>> article("energy pack"), article("800 W supply"), article("fault display")
    ('an', 'an', 'a')
    """
    return "an" if noun[:1].lower() in "aeio" or noun.startswith(("8", "11 ", "18")) else "a"


def counted(thing: Thing, value: Fraction, unit: str = "") -> str:
    """Return a number of a thing, such as ``32 memory sockets`` or ``4 TB of memory``."""
    amount = f"{number(value)} {unit}".rstrip()
    if thing.sort == "number" and unit:
        return amount if thing.name in ("load", "price") else f"{amount} of {thing.one}"
    noun = thing.one if value == 1 else thing.many
    sides = [_SIDES[side] for side in thing.sides]
    where = f" {' and '.join(sides)}" if sides else ""
    return f"{amount} {noun}{where}"


def as_most(book: Book, measure: Measure, most: Fraction, given: Sequence[str]) -> str:
    """Return the sentence that a machine takes up to a number of something."""
    conditions = [condition_said(book, each) for each in given]
    if not all(conditions):
        return ""
    thing = measure.thing
    if thing.name == "load":
        sentence = f"Peak draw goes up to {number(most)} {measure.unit}"
    elif most == 0:
        sentence = f"No {thing.many} can be fitted"
    else:
        sentence = f"the {book.book.name} takes up to {counted(thing, most, measure.unit)}"
    return capitalised(" ".join([sentence, *conditions])) + "."


def as_condition(book: Book, claim: Claim, conditions: Sequence[str]) -> str:
    """Return the claim with the conditions under which every build has it; empty without words."""
    said = [condition_said(book, each) for each in (*conditions, *claim.given)]
    held = [_held(claim, term) for term in claim.terms]
    if not all(said) or not all(held) or not held:
        return ""
    # Conditions that are clauses come after those that are not.
    said.sort(key=lambda each: each.startswith("if "))
    return capitalised(f"{', '.join(said)}, the {book.book.name} has {' and '.join(held)}.")


_STATES = {"supplies_redundant": "redundant supplies", "air_redundant": "redundant fans"}


def _held(claim: Claim, term: str) -> str:
    """Return what builds have by a term of a claim, as a noun phrase."""
    if term in _STATES:
        return _STATES[term]
    measure = next((each for each in claim.measures if term in each.alternatives), None)
    if measure is None or len(measure.values) != 1 or not measure.thing.many:
        return ""
    return counted(measure.thing, measure.values[0], measure.unit)


def fact_said(book: Book, fact: FactClaim) -> str:
    """Return what the book states in place of a fact that is claimed otherwise."""
    values = list(dict.fromkeys(value_said(each.value) for each in fact.stated))
    if not values:
        return ""
    if fact.name in VERB_OF_FIELD and len(values) == 1:
        return VERB_OF_FIELD[fact.name].format(values[0])
    if fact.name.startswith("generation of "):
        subject = fact.name.removeprefix("generation of ")
        if subject == "memory":
            return f"The memory of the {book.book.name} is {listed(values)}."
        return f"{capitalised(subject)} are {listed(values)}."
    if fact.stated[0].path.startswith("places (") and len(values) == 1:
        return f"There are {values[0]} {fact.name}."
    if fact.name in ("length of slots", "height of slots"):
        return _slots_said(fact)
    owners = dict.fromkeys(f"{each.owner}: {value_said(each.value)}" for each in fact.stated)
    return f"{capitalised(fact.name.replace('_', ' '))}: {'; '.join(owners)}."


def _slots_said(fact: FactClaim) -> str:
    names = [each.owner.removeprefix("slot ") for each in fact.stated if each.value == fact.word]
    kind = fact.name.partition(" ")[0]
    return f"Slots {listed(names)} are {fact.word} {kind}." if names else ""


def not_mixed(noun: str) -> str:
    """Return the sentence that parts of a kind are alike."""
    return f"All {noun} must be identical."


def limited(claim: Claim, value: Fraction) -> Claim:
    """Return a limit with another value."""
    return replace(claim, value=value)


__all__ = [
    "article", "as_condition", "as_most", "condition_said", "conditions_said", "counted",
    "fact_said", "limited", "not_mixed", "value_said", "written", "yes_or_no",
]  # fmt: skip
