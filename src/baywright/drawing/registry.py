"""The list of views. A new view is one file in ``views`` and one line here."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeAlias

from baywright.drawing.scene import Scene
from baywright.drawing.subject import Subject
from baywright.drawing.views import (
    airflow,
    cabling,
    feeds,
    front,
    inside,
    memory,
    rear,
    side,
    slots,
)

Draws: TypeAlias = Callable[[Subject], Scene]

VIEWS: dict[str, Draws] = {
    "front": front.scene,
    "rear": rear.scene,
    "inside": inside.scene,
    "side": side.scene,
    "slots": slots.scene,
    "airflow": airflow.scene,
    "feeds": feeds.scene,
    "memory": memory.scene,
    "cabling": cabling.scene,
}
