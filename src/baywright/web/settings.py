"""Settings of the server."""

from __future__ import annotations

import ipaddress
import secrets
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Settings:
    """How the server runs.

    Args:
        host: address it listens on.
        port: port it listens on.
        database: address of the database, or ``None`` for a file in the folder of the user.
        books: names or folders of the books it offers; those of the package unless given.
        accounts: whether everybody has to sign in; ``None`` for everywhere but on loopback.
        secret: key of the marks that forms carry; a new one for each process unless given.
        largest: most bytes of a request.
        reads: most pages that one address may read in a minute.
        writes: most changes, answers and drafts of one address in a minute.
        sign_ins: most attempts to sign in from one address in a minute.
        seconds: how long somebody stays signed in.
    """

    host: str = "127.0.0.1"
    port: int = 8765
    database: str | None = None
    books: tuple[str, ...] = ()
    accounts: bool | None = None
    secret: bytes = field(default_factory=lambda: secrets.token_bytes(32), repr=False)
    largest: int = 4 * 1024 * 1024
    reads: int = 1200
    writes: int = 240
    sign_ins: int = 10
    seconds: int = 12 * 3600

    @property
    def must_sign_in(self) -> bool:
        """Whether everybody has to sign in."""
        return not is_loopback(self.host) if self.accounts is None else self.accounts


def is_loopback(host: str) -> bool:
    """Say whether an address reaches this machine only.

    >>> is_loopback("127.0.0.1"), is_loopback("localhost"), is_loopback("0.0.0.0")
    (True, True, False)
    """
    if host == "localhost":
        return True
    try:
        return ipaddress.ip_address(host).is_loopback
    except ValueError:
        return False
