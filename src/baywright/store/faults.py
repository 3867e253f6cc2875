"""What a database says when it cannot work, in words for the person whose work it was."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass

from sqlalchemy.exc import DBAPIError, InterfaceError, InternalError, OperationalError
from sqlalchemy.exc import TimeoutError as PoolTimeoutError

from baywright.problems import Problem
from baywright.store.errors import StoreUnavailable


@dataclass(frozen=True, slots=True)
class Fault:
    """A kind of failure.

    Args:
        kind: documented name of the problem.
        says: what is wrong, with ``{place}`` for the store.
        hint: what to do next.
        known: whether it is certain that a change that fails this way was not kept.
    """

    kind: str
    says: str
    hint: str
    known: bool = True


LOCKED = Fault(
    "store-locked",
    "The store {place} is held by another program or person for too long.",
    "Try again in a moment; if it goes on, look for a back-up or a shell that has it open.",
)
FULL = Fault(
    "store-full",
    "The store {place} has no room left.",
    "Free some room on its disk, then do it again.",
)
DISK = Fault(
    "store-disk",
    "The disk of the store {place} failed to read or write.",
    "Look at the disk and its file system; have a back-up at hand.",
    known=False,
)
READ_ONLY = Fault(
    "store-read-only",
    "The store {place} cannot be written to.",
    "Give the user of the server the right to write to it and to its folder.",
)
CANNOT_OPEN = Fault(
    "store-cannot-open",
    "The store {place} cannot be opened.",
    "Look whether its folder is there and whether the user of the server may use it.",
)
DAMAGED = Fault(
    "store-damaged",
    "The file {place} is no store, or it is damaged.",
    "Give another file, or put the last back-up in its place.",
)
LOST = Fault(
    "store-lost",
    "The database {place} does not answer, or does not let us in.",
    "Look whether it runs and can be reached, and at its address; then do it again.",
    known=False,
)
REFUSED = Fault(
    "store-refused",
    "The database {place} does not let us do that.",
    "Make the user in its address the owner of the database.",
)
CROWDED = Fault(
    "store-crowded",
    "The store {place} has too much to do at once.",
    "Try again in a moment.",
)
FAILED = Fault(
    "store-failed",
    "The store {place} failed.",
    "The log of the database says more.",
    known=False,
)

# By the beginning of the name that SQLite gives its codes, https://sqlite.org/rescode.html.
OF_SQLITE = {
    "SQLITE_BUSY": LOCKED,
    "SQLITE_LOCKED": LOCKED,
    "SQLITE_FULL": FULL,
    "SQLITE_IOERR": DISK,
    "SQLITE_READONLY": READ_ONLY,
    "SQLITE_PERM": READ_ONLY,
    "SQLITE_CANTOPEN": CANNOT_OPEN,
    "SQLITE_NOTADB": DAMAGED,
    "SQLITE_CORRUPT": DAMAGED,
}

# By the beginning of SQLSTATE, PostgreSQL documentation, appendix "PostgreSQL Error Codes".
OF_POSTGRESQL = {
    "53100": FULL,
    "53": CROWDED,
    "55P03": LOCKED,
    "40": LOCKED,
    "57014": CROWDED,
    "25006": READ_ONLY,
    "42501": REFUSED,
    "08": LOST,
    "28": LOST,
    "3D": LOST,
    "57P": LOST,
}


def fault(error: DBAPIError) -> Fault | None:
    """Return what a database error means, or ``None`` when the program is at fault."""
    code = str(getattr(error.orig, "sqlite_errorname", None) or "")
    state = str(getattr(error.orig, "sqlstate", None) or "")
    for known, given in ((OF_SQLITE, code), (OF_POSTGRESQL, state)):
        for start, found in known.items():
            if given.startswith(start):
                return found
    if error.connection_invalidated or (not code and not state and _failed(error)):
        return LOST
    return FAILED if _failed(error) else None


def _failed(error: DBAPIError) -> bool:
    return isinstance(error, OperationalError | InterfaceError | InternalError)


def unavailable(
    found: Fault, place: str, reason: str = "", *, committing: bool = False
) -> StoreUnavailable:
    """Return the exception for a failure.

    Args:
        found: the failure.
        place: the store, as a person would name it.
        reason: what the database says of it, or empty.
        committing: whether it failed when it was asked to keep a change.
    """
    uncertain = committing and not found.known
    became = "Whether the last change was kept is not known; look before you repeat it. "
    says = found.says.format(place=place) + (f" It says: {reason}." if reason else "")
    return StoreUnavailable(
        Problem(found.kind, says, None, (became if uncertain else "") + found.hint),
        uncertain=uncertain,
    )


@contextmanager
def told(place: str, *, committing: bool = False) -> Iterator[None]:
    """Turn what a database says in the block into ``StoreUnavailable``.

    Args:
        place: the store, as a person would name it.
        committing: whether the block asks to keep a change.
    """
    try:
        yield
    except PoolTimeoutError as error:
        raise unavailable(CROWDED, place) from error
    except DBAPIError as error:
        found = fault(error)
        if found is None:
            raise
        raise unavailable(found, place, _reason(error), committing=committing) from error


def _reason(error: DBAPIError) -> str:
    """Return what the database says, its last line; the lines before tell of the connection."""
    lines = [line.strip() for line in str(error.orig).splitlines() if line.strip()]
    return lines[-1].rstrip(".") if lines else ""
