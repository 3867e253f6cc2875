"""Ready-made models that cannot be built as they stand in the book."""

from __future__ import annotations

from collections.abc import Iterator

from baywright.desk.review.finding import Finding, found
from baywright.desk.review.subject import Reviewed
from baywright.laws.wishes import read_wishes, with_wishes


def unbuildable_models(book: Reviewed) -> Iterator[Finding]:
    """Find ready-made models that no legal build starts from."""
    for name, model in book.book.models.items():
        wishes = read_wishes(book.opened.machine, f'from_model("{name}")')
        space = with_wishes(book.opened.machine.space, wishes)
        if book.opened.inquiry().possible(space) is None:
            asked = {wish.key for wish in wishes}
            because = [each for each in book.needed(space) if each.key not in asked]
            says = f"The ready-made model {model.name} cannot be built."
            yield found("unbuildable-model", says, because, model.name)
