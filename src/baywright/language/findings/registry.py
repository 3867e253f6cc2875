"""All findings; a new one is a file beside this one and a line here."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import TypeAlias

from baywright.language.findings.grounds import Grounds
from baywright.language.findings.late_cautions import late_cautions
from baywright.language.findings.pace import pace
from baywright.language.findings.pointing import pointing
from baywright.language.findings.promises import promises
from baywright.language.findings.unsaid import unsaid
from baywright.language.findings.vague_amounts import vague_amounts
from baywright.language.findings.varying_names import varying_names
from baywright.language.passages import Passage, Remark

Finding: TypeAlias = Callable[[Sequence[Passage], Grounds], Iterable[Remark]]

FINDINGS: tuple[Finding, ...] = (
    late_cautions,
    promises,
    pointing,
    varying_names,
    vague_amounts,
    unsaid,
    pace,
)


def findings(passages: Sequence[Passage], grounds: Grounds) -> tuple[Remark, ...]:
    """Return what all findings say of a draft, in the order of its passages."""
    order = {id(passage): at for at, passage in enumerate(passages)}
    found = [remark for finding in FINDINGS for remark in finding(passages, grounds)]
    return tuple(sorted(found, key=lambda remark: order[id(remark.passage)]))
