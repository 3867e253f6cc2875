"""Counts of the builds of a book, in words and as JSON values."""

from __future__ import annotations

from collections.abc import Mapping

from baywright.answers.as_json import Json
from baywright.answers.counting import BuildCount
from baywright.answers.wording import Outcome, Sheet
from baywright.desk.counting import BookCount, BookShares
from baywright.desk.space_telling import build_count_json, proof_json, proof_words
from baywright.facts.status import standing_line
from baywright.laws.wording import counted, listed

APART = (
    "Builds are told apart by what each place, cable and setting has; interchangeable parts by how "
    "many there are."
)


def builds_sheet(count: BookCount) -> Sheet:
    """Return a count of the builds of a book in words."""
    standing = standing_line(count.name, count.book, count.as_of, count.status)
    if len(count.numbers) == 1:
        return _number(count, count.worlds[0][1], standing)
    outcomes = tuple(
        Outcome(_supposed(given), _number(count, found, "")) for given, found in count.worlds
    )
    return Sheet(
        "Not decided",
        "undecided",
        f"It depends on what is not settled yet: {listed(count.worlds[0][0])}.",
        outcomes=outcomes,
        standing=standing,
    )


def _number(count: BookCount, found: BuildCount, standing: str) -> Sheet:
    condition = f", given {count.given}" if count.given else ""
    return Sheet(
        counted(found.number, "build"),
        "builds",
        f"Exactly {counted(found.number, 'legal build')}{condition}.",
        reading=APART,
        proof=proof_words(found.proof),
        standing=standing,
    )


def _supposed(given: Mapping[str, str]) -> str:
    return listed(f"{path} is {value}" for path, value in given.items())


def builds_json(count: BookCount) -> Json:
    """Return a count of the builds of a book."""
    return {
        "book": count.book,
        "as_of": count.as_of,
        "status": {"word": count.status.word, "note": count.status.note},
        "given": count.given or None,
        "counts": [
            {"supposed": dict(given), **build_count_json(found)} for given, found in count.worlds
        ],
    }


def percent(number: int, total: int) -> str:
    """Return a share as a percentage that is neither 0 nor 100 unless it is so.

    >>> percent(1, 4), percent(1, 10**9), percent(10**9 - 1, 10**9), percent(5, 5)
    ('25.0 %', 'under 0.1 %', 'over 99.9 %', '100 %')
    """
    if number in (0, total):
        return "100 %" if number else "0 %"
    if 1000 * number < total:
        return "under 0.1 %"
    if 1000 * number > 999 * total:
        return "over 99.9 %"
    return f"{100 * number / total:.1f} %"


def shares_json(shares: BookShares) -> Json:
    """Return what share of the builds of a book has each option."""
    return {
        "book": shares.book,
        "builds": shares.total,
        "builds_text": str(shares.total),
        "supposed": dict(shares.supposed),
        "choices": [
            {
                "choice": each.choice,
                "name": each.name,
                "values": [
                    {"label": label, "builds": number, "builds_text": str(number)}
                    for label, number in each.values
                ],
            }
            for each in shares.choices
        ],
        "proof": proof_json(shares.proof),
    }
