"""Lists of parts: orders checked, the parts of a build listed."""

from __future__ import annotations

from fastapi import APIRouter, Request

from baywright.answers.as_json import Json
from baywright.desk.order.as_json import order_json
from baywright.desk.order.checking import check_file
from baywright.desk.parts_list import list_of, parts_json
from baywright.files.books import build_from
from baywright.web.api.bodies import Order, Text, opened_for
from baywright.web.scratch import folder

router = APIRouter(prefix="/api/books", tags=["lists"])


@router.post("/{book}/order")
def check_order(request: Request, book: str, body: Order) -> Json:
    """Check a list of parts against a book: what it means, what is missing, what would mend it."""
    opened = opened_for(request, book)
    with folder() as made:
        file = made / f"order.{body.form}"
        file.write_text(body.text, encoding="utf-8")
        return order_json(check_file(opened, file, body.given))


@router.post("/{book}/parts")
def list_parts(request: Request, book: str, body: Text) -> Json:
    """List the parts of a build, each with its number and price."""
    build = build_from(body.text.encode("utf-8"), "build")
    return parts_json(list_of(opened_for(request, book), build))
