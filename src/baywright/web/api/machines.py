"""Machines that stand: their records read, their upgrades planned.

A record is sent along. The server asks no address and opens no file because a program says so.
"""

from __future__ import annotations

import base64
import binascii
import json
from pathlib import Path

from fastapi import APIRouter, Request

from baywright.answers.as_json import Json
from baywright.desk.reading.as_json import machine_json
from baywright.desk.reading.reading import read_machine
from baywright.desk.request import Request as Asked
from baywright.desk.upgrade.as_json import upgrade_json
from baywright.desk.upgrade.upgrading import upgraded_from
from baywright.exchange.machines import Wanted
from baywright.files.books import build_from, need_from
from baywright.problems import Problems, problem
from baywright.web.api.bodies import Record, Upgrade, opened_for
from baywright.web.scratch import folder
from baywright.web.workbench import workbench

router = APIRouter(prefix="/api/books", tags=["machines"])


@router.post("/{book}/read")
def read(request: Request, book: str, body: Record) -> Json:
    """Read the record of a running machine: its build on a book, and what is doubtful in it."""
    opened = opened_for(request, book)
    with folder() as made:
        source = _source(made, body)
        wanted = Wanted(str(source), body.system, incomplete=body.incomplete)
        said = machine_json(read_machine(opened, wanted), str(opened.book.book.id), None)
    return {**said, "source": "redfish" if body.resources else "smbios"}


def _source(made: Path, body: Record) -> Path:
    """Write a record into a folder, and return what to read there.

    Raises:
        Problems: kinds ``no-record``, ``not-base64`` and ``strange-path``.
    """
    if bool(body.tables) == bool(body.resources):
        hint = "Send 'resources' or 'tables'."
        raise problem("no-record", "Either resources or tables are a record.", None, hint)
    if body.tables:
        return _tables(made, body.tables)
    for path, resource in body.resources.items():
        steps = path.strip("/").split("/")
        if steps[0] != "redfish" or not all(map(_is_plain, steps)):
            raise _strange(path)
        file = made.joinpath(*steps, "index.json")
        try:
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_text(json.dumps(resource), encoding="utf-8")
        except (OSError, ValueError) as error:
            raise _strange(path) from error
    return made


def _tables(made: Path, tables: str) -> Path:
    try:
        data = base64.b64decode(tables, validate=True)
    except (binascii.Error, ValueError) as error:
        message = "The tables are not in base64."
        raise problem("not-base64", message, None, "Encode the bytes of the file.") from error
    file = made / "tables"
    file.write_bytes(data)
    return file


def _is_plain(step: str) -> bool:
    return bool(step) and step not in (".", "..") and step.isprintable() and "\\" not in step


def _strange(path: str) -> Problems:
    message = f"{path!r} is not the path of a resource."
    return problem("strange-path", message, None, "Write it like /redfish/v1/Systems/1.")


@router.post("/{book}/upgrade")
def upgrade(request: Request, book: str, body: Upgrade) -> Json:
    """Plan the cheapest legal steps from a machine to a need, and the path to its successor."""
    folder_of = opened_for(request, book).folder
    shelf = workbench(request).shelf
    others = [str(shelf.bench(other).opened.folder) for other in body.to]
    build = build_from(body.build.encode("utf-8"), "build")
    need = need_from(body.need.encode("utf-8"), "need")
    return upgrade_json(upgraded_from(str(folder_of), (build, need), Asked(), others)[1])
