"""HTTPS with one host: every reply within its time and its size, certificates checked.

A socket's own time limit starts anew with every byte, so a host that sends one byte at a time would
never meet it. A watchdog that shuts the socket at the deadline ends that.
"""

from __future__ import annotations

import http.client
import json
import socket
import ssl
import threading
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from urllib.parse import urlsplit

from baywright.exchange.redfish.limits import too_large, too_slow
from baywright.exchange.texts import plain
from baywright.problems import Problems, problem

_PIECE = 65_536
_REDIRECTS = (301, 302, 307, 308)


@dataclass(frozen=True, slots=True)
class Address:
    """Where a service is."""

    host: str
    port: int

    def __str__(self) -> str:
        host = f"[{self.host}]" if ":" in self.host else self.host
        return f"https://{host}" if self.port == 443 else f"https://{host}:{self.port}"


@dataclass(frozen=True, slots=True)
class Reply:
    """What a host answered.

    Args:
        status: the status code.
        headers: the headers by name in small letters.
        body: the bytes of the body.
    """

    status: int
    headers: Mapping[str, str]
    body: bytes

    @property
    def moved(self) -> str | None:
        """The path or address it points to instead, if it does."""
        return self.headers.get("location") if self.status in _REDIRECTS else None


def read_address(text: str) -> Address:
    """Read the address of a service.

    Raises:
        Problems: kind ``not-an-address``.
    """
    hint = "Write it like https://10.1.2.3 or https://bmc.example:8443."
    try:
        parts = urlsplit(text)
        host, port = parts.hostname, parts.port
    except ValueError as error:
        message = f"{plain(text)!r} is not an address."
        raise problem("not-an-address", message, None, hint) from error
    if parts.username or parts.password:
        message = "The address holds a user or a password."
        raise problem("not-an-address", message, None, "Leave them out; they are asked for.")
    if parts.scheme != "https" or not host:
        message = f"{plain(text)!r} is not an address of a service over HTTPS."
        raise problem("not-an-address", message, None, hint)
    return Address(host, port or 443)


def trusting(certificates: Path | None) -> ssl.SSLContext:
    """Return the rules of trust: the certificates of this machine, or one file of them instead.

    Raises:
        Problems: kind ``no-certificates``.
    """
    try:
        return ssl.create_default_context(cafile=certificates and str(certificates))
    except (OSError, ssl.SSLError) as error:
        message = f"{certificates} holds no certificates."
        hint = "Give a file in PEM form with --ca."
        raise problem("no-certificates", message, None, hint) from error


@dataclass
class Connection:
    """A connection that is opened when it is needed and used again while the host keeps it.

    Args:
        address: the host.
        trust: the rules of trust.
    """

    address: Address
    trust: ssl.SSLContext
    _http: http.client.HTTPConnection | None = None
    _raw: socket.socket | None = None
    _answer: http.client.HTTPResponse | None = None
    _late: threading.Event = field(default_factory=threading.Event)

    def ask(
        self,
        method: str,
        path: str,
        seconds: float,
        most: int,
        headers: Mapping[str, str],
        body: bytes | None = None,
    ) -> Reply:
        """Send a request and return the reply, read to its end.

        Args:
            method: the HTTP method.
            path: the path, with its query.
            seconds: most time for it.
            most: largest body, in bytes.
            headers: headers beside those of HTTP itself.
            body: what is sent.

        Raises:
            Problems: kinds ``too-slow``, ``too-large``, ``cut-off``, ``certificate``,
                ``no-connection`` and ``not-http``.
        """
        used = self._http is not None
        try:
            with self._watched(path, seconds):
                return self._exchange(method, path, seconds, most, headers, body)
        except _GoneError:
            # The host had closed the connection it kept; that is no failure yet.
            if not used or method != "GET":
                raise cut_off(path) from None
        with self._watched(path, seconds):
            try:
                return self._exchange(method, path, seconds, most, headers, body)
            except _GoneError:
                raise cut_off(path) from None

    def close(self) -> None:
        """End the connection."""
        for each in (self._answer, self._http, self._raw):
            if each is not None:
                each.close()
        self._answer = self._http = self._raw = None

    @contextmanager
    def _watched(self, path: str, seconds: float) -> Iterator[None]:
        if seconds <= 0:
            raise too_slow(path, 0)
        self._late.clear()
        dog = threading.Timer(seconds, self._shut)
        dog.daemon = True
        dog.start()
        try:
            yield
            if self._late.is_set():
                # A head that the watchdog cut short reads like a whole one.
                raise TimeoutError
        except (Problems, _GoneError, OSError, http.client.HTTPException, ValueError) as error:
            self.close()
            if self._late.is_set() or isinstance(error, TimeoutError):
                raise too_slow(path, seconds) from error
            if isinstance(error, Problems | _GoneError):
                raise
            raise self._told(error, path) from error
        finally:
            dog.cancel()

    def _shut(self) -> None:
        self._late.set()
        raw = self._http.sock if self._http is not None and self._http.sock else self._raw
        if raw is not None:
            try:
                raw.shutdown(socket.SHUT_RDWR)
            except OSError:
                return  # it ended by itself in the same moment

    def _exchange(
        self,
        method: str,
        path: str,
        seconds: float,
        most: int,
        headers: Mapping[str, str],
        body: bytes | None,
    ) -> Reply:
        http_now = self._http or self._opened(seconds)
        try:
            http_now.request(method, path, body, dict(headers))
            answer = self._answer = http_now.getresponse()
        except (http.client.RemoteDisconnected, ConnectionError) as error:
            raise _GoneError from error
        data = _read(answer, path, most)
        reply = Reply(answer.status, {k.lower(): v for k, v in answer.headers.items()}, data)
        if answer.will_close:
            self.close()
        return reply

    def _opened(self, seconds: float) -> http.client.HTTPConnection:
        host, port = self.address.host, self.address.port
        plain_socket = socket.create_connection((host, port), timeout=seconds)
        plain_socket.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
        self._raw = plain_socket
        secure = self.trust.wrap_socket(
            plain_socket, server_hostname=host, do_handshake_on_connect=False
        )
        self._raw = secure  # before the handshake, so that the watchdog can end that as well
        secure.do_handshake()
        made = http.client.HTTPConnection(host, port, timeout=seconds)
        made.sock = secure
        made.auto_open = 0  # it would open without TLS
        self._http = made
        return made

    def _told(self, error: Exception, path: str) -> Problems:
        """Return what went wrong on the way in our own words."""
        match error:
            case ssl.SSLCertVerificationError():
                why = plain(error.verify_message)
                message = f"The certificate of {self.address} is not trusted: {why}."
                hint = "Make sure it is the right machine; --ca FILE trusts a certificate of yours."
                return problem("certificate", message, None, hint)
            case ssl.SSLError():
                message = f"{self.address} does not speak TLS as this machine does."
                return problem("no-connection", message, None, "Check the port.")
            case http.client.IncompleteRead() | ConnectionResetError() | BrokenPipeError():
                return cut_off(path)
            case OSError():
                why = plain(error.strerror or str(error))
                message = f"{self.address} cannot be reached: {why}."
                hint = "Check the address, and that this machine may connect to it."
                return problem("no-connection", message, None, hint)
        message = f"{self.address} did not answer {path} as HTTP asks."
        return problem("not-http", message, None, "Check the address and the port.")


class _GoneError(Exception):
    """The host closed the connection before it answered."""


def cut_off(path: str) -> Problems:
    """Return the problem of a reply that ends too early."""
    message = f"The connection was cut off while {path} was read."
    return problem("cut-off", message, None, "Try again; nothing was kept of what had come.")


def _read(answer: http.client.HTTPResponse, path: str, most: int) -> bytes:
    """Read a body piece by piece, so that none takes more memory than it may."""
    if answer.headers.get("content-encoding", "identity").lower() != "identity":
        message = f"{path} came packed, which was not asked for."
        raise problem("not-http", message, None, "Check the service.")
    if (answer.length or 0) > most:
        raise too_large(path, most)
    pieces: list[bytes] = []
    size = 0
    while piece := answer.read(_PIECE):
        size += len(piece)
        if size > most:
            raise too_large(path, most)
        pieces.append(piece)
    if answer.length:
        raise cut_off(path)
    return b"".join(pieces)


def said_by(reply: Reply) -> str:
    """Return the message of an error response (DSP0266, 8.7), or an empty text."""
    try:
        error = json.loads(reply.body)["error"]
        extended = error.get("@Message.ExtendedInfo") or [{}]
        said = extended[0].get("Message") or error.get("message", "")
    except (ValueError, KeyError, TypeError, AttributeError, IndexError, RecursionError):
        return ""
    return plain(str(said)).rstrip(".")
