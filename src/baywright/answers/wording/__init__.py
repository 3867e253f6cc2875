"""Wording: from verdicts to sheets of sentences and numbers, ready to be laid out."""

from baywright.answers.wording.grounds import quote
from baywright.answers.wording.names import Names
from baywright.answers.wording.sheet import (
    Fitted,
    Ground,
    Group,
    Load,
    Near,
    OtherGrounds,
    Outcome,
    Quote,
    Row,
    Rows,
    Segment,
    Sheet,
    Turn,
)
from baywright.answers.wording.verdicts import AID, ANSWER, Voice, told

__all__ = [
    "AID",
    "ANSWER",
    "Fitted",
    "Ground",
    "Group",
    "Load",
    "Names",
    "Near",
    "OtherGrounds",
    "Outcome",
    "Quote",
    "Row",
    "Rows",
    "Segment",
    "Sheet",
    "Turn",
    "Voice",
    "quote",
    "told",
]
