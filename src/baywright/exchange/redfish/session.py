"""A session with a live service: created, used, and deleted again (DSP0266, 13.3.4)."""

from __future__ import annotations

import json
from dataclasses import dataclass, field
from pathlib import Path
from types import TracebackType
from urllib.parse import urljoin, urlsplit

from baywright.exchange.redfish.bodies import Resource, read_body
from baywright.exchange.redfish.connection import (
    Connection,
    Reply,
    read_address,
    said_by,
    trusting,
)
from baywright.exchange.redfish.folder import ROOT
from baywright.exchange.redfish.limits import Budget
from baywright.exchange.redfish.values import link_of
from baywright.exchange.texts import plain
from baywright.problems import Problems, problem

_SECONDS_TO_LEAVE = 5.0
_MOST_REDIRECTS = 5


@dataclass(frozen=True, slots=True)
class Credentials:
    """Who asks."""

    user: str
    password: str = field(repr=False)


class Service:
    """Resources of a live service, inside a session.

    Args:
        address: where it is, such as ``https://10.1.2.3``.
        credentials: who asks; ``None`` asks without a session.
        certificates: certificates to trust in place of those of this machine.
        budget: what reading may still cost.

    Raises:
        Problems: kinds ``not-an-address`` and ``no-certificates``.
    """

    def __init__(
        self,
        address: str,
        credentials: Credentials | None,
        certificates: Path | None,
        budget: Budget,
    ) -> None:
        self._connection = Connection(read_address(address), trusting(certificates))
        self.name = str(self._connection.address)
        self.left_open = False
        self._credentials = credentials
        self._budget = budget
        self._token = ""
        self._session = ""

    def __enter__(self) -> Service:
        """Create the session.

        Raises:
            Problems: those of ``fetch``, and ``not-allowed``.
        """
        try:
            if self._credentials is not None:
                self._sign_in(read_body(self.fetch(f"{ROOT}/"), f"{ROOT}/"), self._credentials)
        except BaseException:
            self._connection.close()
            raise
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        """Delete the session; one that cannot be deleted ends by itself after its time."""
        try:
            if self._session:
                reply = self._ask("DELETE", self._session, None, _SECONDS_TO_LEAVE)
                self.left_open = reply.status >= 400
        except Problems:
            self.left_open = True
        finally:
            self._connection.close()

    def fetch(self, path: str) -> bytes:
        """Return the body at a path.

        Raises:
            Problems: those of ``Connection.ask``, and ``not-allowed``, ``no-resource``,
                ``service-error`` and ``strange-link``.
        """
        for _ in range(_MOST_REDIRECTS):
            reply = self._ask("GET", path, None, self._budget.seconds_left())
            if reply.moved is None:
                self._check(reply, path)
                return reply.body
            path = self._within(urljoin(f"{self.name}{path}", reply.moved))
        message = f"{path} leads from one address to the next without end."
        raise problem("service-error", message, None, "Check the service.")

    def _within(self, address: str) -> str:
        """Return the path of an address on this service; no other one gets to see the token."""
        parts = urlsplit(address)
        if f"{parts.scheme}://{parts.netloc}" != self.name:
            message = f"{self.name} points to another host: {plain(address)}."
            raise problem("strange-link", message, None, "It was not followed.")
        return f"{parts.path}?{parts.query}" if parts.query else parts.path

    def _sign_in(self, root: Resource, credentials: Credentials) -> None:
        """Create a session at the collection the service root names."""
        links = root.get("Links")
        path = link_of(links.get("Sessions")) if isinstance(links, dict) else None
        path = path or f"{ROOT}/SessionService/Sessions"
        asked = {"UserName": credentials.user, "Password": credentials.password}
        body = json.dumps(asked).encode("utf-8")
        reply = self._ask("POST", path, body, self._budget.seconds_left())
        if reply.status in (400, 401, 403):
            why = said_by(reply) or f"status {reply.status}"
            message = f"{self.name} does not let {plain(credentials.user)!r} in: {why}."
            raise problem("not-allowed", message, None, "Check user and password.")
        self._check(reply, path)
        self._token = reply.headers.get("x-auth-token", "")
        self._session = self._session_path(reply)
        if not self._token:
            message = f"{self.name} created a session and gave no token for it."
            raise problem("service-error", message, None, "Check the service.")

    def _session_path(self, reply: Reply) -> str:
        location = reply.headers.get("location", "")
        if not location:
            body = read_body(reply.body, "the session") if reply.body else {}
            location = link_of(body) or ""
        return self._within(urljoin(f"{self.name}/", location)) if location else ""

    def _ask(self, method: str, path: str, body: bytes | None, seconds: float) -> Reply:
        headers = {
            "Accept": "application/json",
            "Accept-Encoding": "identity",
            "OData-Version": "4.0",
        }
        if body is not None:
            headers["Content-Type"] = "application/json"
        if self._token:
            headers["X-Auth-Token"] = self._token
        most = self._budget.limits.body
        return self._connection.ask(method, path, seconds, most, headers, body)

    def _check(self, reply: Reply, path: str) -> None:
        if reply.status < 300:
            return
        said = said_by(reply)
        because = f": {said}" if said else ""
        if reply.status in (401, 403):
            message = f"{self.name} does not show {path}{because}."
            hint = "Give a user that may read it, in BAYWRIGHT_USER and BAYWRIGHT_PASSWORD."
            raise problem("not-allowed", message, None, hint)
        if reply.status in (404, 410):
            message = f"{self.name} has no {path}{because}."
            raise problem("no-resource", message, None, "Check the address.")
        message = f"{self.name} answered {path} with status {reply.status}{because}."
        raise problem("service-error", message, None, "Try again later, or look into its log.")
