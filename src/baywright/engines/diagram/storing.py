"""Compiled spaces kept in a folder, by the content of the space they were made from."""

from __future__ import annotations

import hashlib
import json
import os
import tempfile
import zipfile
from pathlib import Path

import numpy as np

from baywright.engines.diagram.compiled import Carried, Compiled
from baywright.engines.diagram.form import Form
from baywright.engines.diagram.guards import Guards
from baywright.space import Space

_EDITION = 1
"""To be raised whenever the same space would be compiled to something else."""


def content_key(space: Space, guards: Guards) -> str:
    """Return a name for what a space and guards compile to: a hash of all that matters to it."""
    text = hashlib.sha256(
        repr((_EDITION, guards.totals, guards.far, guards.arcs, guards.pairs)).encode()
    )
    for choice in space.choices:
        text.update(repr((choice.name, choice.size, choice.derived)).encode())
    for table in space.tables:
        rows = np.array(sorted(table.rows), np.int32)
        text.update(repr((table.scope, rows.shape)).encode())
        text.update(rows.tobytes())
    for total in space.sums:
        text.update(repr((total.weights, total.at_most, total.origin.key)).encode())
    return text.hexdigest()


class Shelf:
    """A folder of compiled spaces.

    Args:
        folder: where they are kept; it is made when it is missing.
    """

    def __init__(self, folder: Path) -> None:
        self._folder = folder

    def get(self, key: str) -> Compiled | None:
        """Return what is kept under a key, or ``None`` when nothing that can be read is there."""
        try:
            with self._path(key).open("rb") as file, np.load(file, allow_pickle=False) as kept:
                return _unpacked({name: kept[name] for name in kept.files})
        except (OSError, EOFError, ValueError, KeyError, TypeError, zipfile.BadZipFile):
            return None

    def put(self, key: str, compiled: Compiled) -> None:
        """Keep a compiled space; a folder that cannot be written is no error."""
        try:
            self._folder.mkdir(parents=True, exist_ok=True)
            handle, name = tempfile.mkstemp(dir=self._folder, suffix=".part")
            try:
                with os.fdopen(handle, "wb") as file:
                    np.savez(file, allow_pickle=False, **_packed(compiled))
                Path(name).replace(self._path(key))  # whole or not at all
            finally:
                Path(name).unlink(missing_ok=True)
        except OSError:
            return

    def _path(self, key: str) -> Path:
        return self._folder / f"{key}.npz"


def _packed(compiled: Compiled) -> dict[str, np.ndarray]:
    form = compiled.form
    facts = {
        "states": form.states,
        "names": dict(compiled.names),
        "derived": sorted(compiled.derived),
        "determined": compiled.determined,
        "limits": [[limit.at_most, list(limit.keys)] for limit in compiled.limits],
    }
    weights = [limit.weights for limit in compiled.limits]
    return {
        "facts": np.array(json.dumps(facts)),
        "arcs": form.arcs,
        "node_arcs": form.node_arcs,
        "values": form.values,
        "state_of": form.state_of,
        "weights": np.array(weights, np.int64).reshape(len(weights), len(form.state_of)),
    }


def _unpacked(kept: dict[str, np.ndarray]) -> Compiled:
    facts = json.loads(str(kept["facts"]))
    form = Form(facts["states"], kept["arcs"], kept["node_arcs"], kept["values"], kept["state_of"])
    limits = tuple(
        Carried(weights, at_most, tuple(keys))
        for weights, (at_most, keys) in zip(kept["weights"], facts["limits"], strict=True)
    )
    return Compiled(facts["names"], form, limits, frozenset(facts["derived"]), facts["determined"])
