"""Every kind of query. A new one is a line here and a function in a file of its own."""

from __future__ import annotations

from collections.abc import Mapping

from baywright.desk.statements.built import PARTS
from baywright.desk.statements.kind import Kind
from baywright.desk.statements.plain import WORDS
from baywright.desk.statements.questions import ASK, BOUND, CELL_KIND, LISTING
from baywright.desk.statements.records import FACT, FIGURE, TABLE

KINDS: Mapping[str, Kind] = {
    kind.name: kind for kind in (ASK, LISTING, BOUND, CELL_KIND, FACT, FIGURE, TABLE, PARTS, WORDS)
}
