"""What a book says of its machine in words and its own facts do not bear out."""

from __future__ import annotations

from collections.abc import Iterator

from baywright.desk.drafts.own_prose import own_findings
from baywright.desk.review.finding import Finding
from baywright.desk.review.subject import Reviewed
from baywright.language.kind_words import KIND_WORDS, UNMARKED


def wrong_prose(book: Reviewed) -> Iterator[Finding]:
    """Find sentences of the book that the proofreader marks, such as a maximum out of reach."""
    for remark in own_findings(book.opened) if book.buildable else ():
        if remark.kind in UNMARKED:
            continue
        passage = remark.passage
        says = f"{KIND_WORDS[remark.kind].capitalize()}: {passage.text!r}."
        true = (f"It would be true to say: {remark.sentence}",) if remark.sentence else ()
        proof = tuple(filter(None, (remark.said, *true)))
        yield Finding("wrong-prose", says, proof, passage.place.where)
