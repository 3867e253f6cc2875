"""What was found in a draft, as a page, as lines for an editor, as comments in a document."""

from __future__ import annotations

from baywright.desk.drafts.checking import Proofread
from baywright.exchange.drafts.commented import Note, commented
from baywright.exchange.texts import plain
from baywright.language.kind_words import marked, message
from baywright.papers.proof import ProofPaper, proof_page

MOST_SIGNS = 1000
"""Signs of a line for an editor."""


def proof_html(found: Proofread) -> str:
    """Return the draft with its notes beside it, as a page."""
    about = found.opened.book.book
    return proof_page(
        ProofPaper(
            title=found.draft.path.name,
            book=f"{about.name} (book {about.id})",
            as_of=found.opened.as_of.isoformat(),
            blocks=found.draft.blocks,
            passages=found.draft.passages,
            remarks=found.remarks,
            pace=found.words_per_minute,
        )
    )


def editor_lines(found: Proofread) -> tuple[str, ...]:
    """Return a line for each remark: file, line, column, message.

    Documents and slides have no lines; the number of the paragraph or of the slide stands there.
    """
    file = found.draft.path
    return tuple(
        f"{file}:{remark.passage.place.line}:{remark.passage.place.column}: "
        f"{plain(message(remark), MOST_SIGNS)}"
        for remark in marked(found.remarks)
    )


def commented_document(found: Proofread) -> bytes:
    """Return a copy of a DOCX draft with a comment beside each sentence that is remarked on.

    Raises:
        Problems: when the draft is no DOCX document.
    """
    notes = [Note(each.passage.place, message(each)) for each in marked(found.remarks)]
    return commented(found.draft, notes)
