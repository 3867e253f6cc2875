"""Acts in words, one sentence each."""

from __future__ import annotations

from baywright.facts.book import Book
from baywright.service.access.circumstances import Doing
from baywright.service.access.interior import Entrance
from baywright.service.access.tasks import Task

OUT = {
    "power": "Stop the system in good order and wait until power is off",
    "cords": "Pull all cords",
}
BACK = {"power": "Start the machine", "cords": "Plug all cords in"}


def opening(book: Book, entrance: Entrance) -> str:
    """Return what is done to take something off."""
    access = entrance.access
    if entrance.sort == "lock":
        return f"Unlock {_lock(entrance)}."
    if entrance.sort == "wait":
        return _wait(book, entrance)
    if access is not None and access.says is not None:
        return f"{access.says.text}."
    return f"{OUT.get(entrance.sort, f'Take off {the(entrance.name)}')}."


def _lock(entrance: Entrance) -> str:
    key = entrance.lock.key.text if entrance.lock and entrance.lock.key else "its key"
    return f"with {key}" if entrance.name in key else f"the {entrance.name} with {key}"


def _wait(book: Book, entrance: Entrance) -> str:
    name = entrance.name.partition(": ")[2]
    fact = book.service.waits[name]
    note = f" ({fact.note})" if fact.note else ""
    return f"Wait {fact.text} before you touch {the(name)}{note}."


def the(name: str) -> str:
    """Return a name with its article; one with a number has none.

    >>> the("cover"), the("riser 1")
    ('the cover', 'riser 1')
    """
    return name if name[-1:].isdigit() else f"the {name}"


def closing(entrance: Entrance) -> str:
    """Return what is done to put something back."""
    access = entrance.access
    if entrance.sort == "lock":
        return f"Lock {_lock(entrance)}, and take the key with you."
    if access is not None and access.says_back is not None:
        return f"{access.says_back.text}."
    return f"{BACK.get(entrance.sort, f'Put {the(entrance.name)} back')}."


def name_of(book: Book, task: Task, doing: Doing) -> str:
    """Return a job in words, such as ``replace 64 GB module (dimm-64), memory of processor 1``."""
    if not task.target.place:
        return f"{doing} {task.target.part}"
    place = book.places[task.target.place].name
    if task.part is None:
        return f"{doing} the cable of {place}"
    return f"{doing} {task.part.name} ({task.target.part}), {place}"


def working(book: Book, task: Task, doing: Doing, at: int) -> str:
    """Return what is done to one part of a job.

    Args:
        book: the book.
        task: the job.
        doing: what is done.
        at: how many of its parts were done before.
    """
    labels = task.target.labels
    which = f", in the log {labels[at]}" if at < len(labels) else ""
    number = task.target.number
    count = f" ({at + 1} of {number})" if number > 1 else ""
    if not task.target.place:
        return f"Exchange {the(task.target.part)} for another that goes back in its stead{count}."
    place = book.places[task.target.place].name
    what = f"{task.part.name} ({task.target.part})" if task.part else "the cable"
    match doing:
        case "replace":
            return f"Take out {what} and fit another{count}: {place}{which}."
        case "add":
            return f"Fit {what}{count}: {place}{which}."
        case "remove":
            return f"Take out {what}{count}: {place}{which}."
