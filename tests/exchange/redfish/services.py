"""A Redfish service on this machine, over TLS, that behaves well or as badly as a test wants."""

from __future__ import annotations

import contextlib
import json
import ssl
import threading
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any

import trustme

Tree = dict[str, dict[str, Any]]
Misbehave = Callable[["Handler"], None]

TOKEN = "a-token-of-this-test"  # noqa: S105 - of a service that lives for a test
SESSIONS = "/redfish/v1/SessionService/Sessions"
SESSION = f"{SESSIONS}/1"


@dataclass
class Service:
    """A running service.

    Args:
        tree: resources by path.
        bad: paths that are answered by a function of the test.
        protected: whether only a session may read.
    """

    tree: Tree
    bad: dict[str, Misbehave] = field(default_factory=dict)
    protected: bool = True
    asked: list[tuple[str, str]] = field(default_factory=list)
    sessions: int = 0
    address: str = ""

    def paths(self, method: str = "GET") -> list[str]:
        return [path for verb, path in self.asked if verb == method]


class Handler(BaseHTTPRequestHandler):
    protocol_version = "HTTP/1.1"
    wbufsize = -1  # a head and its body travel together
    service: Service

    def log_message(self, *_: object) -> None:
        return

    def do_GET(self) -> None:
        path = self.path.rstrip("/")
        self.service.asked.append(("GET", path))
        if path in self.service.bad:
            self.service.bad[path](self)
        elif path != "/redfish/v1" and self.service.protected and not self.is_known():
            self.answer(401, said("Sign in first."))
        elif path in self.service.tree:
            self.answer(200, self.service.tree[path])
        else:
            self.answer(404, said("There is no such resource."))

    def do_POST(self) -> None:
        self.service.asked.append(("POST", self.path))
        length = int(self.headers.get("content-length", 0))
        wanted = json.loads(self.rfile.read(length))
        if self.path != SESSIONS or wanted != {"UserName": "reader", "Password": "right"}:
            self.answer(401, said("The user or the password is wrong."))
            return
        self.service.sessions += 1
        self.answer(201, {"@odata.id": SESSION}, {"X-Auth-Token": TOKEN, "Location": SESSION})

    def do_DELETE(self) -> None:
        self.service.asked.append(("DELETE", self.path))
        if self.path in self.service.bad:
            self.service.bad[self.path](self)
            return
        self.service.sessions -= 1
        self.answer(204)

    def is_known(self) -> bool:
        return self.headers.get("x-auth-token") == TOKEN

    def answer(
        self, status: int, body: object = None, headers: dict[str, str] | None = None
    ) -> None:
        data = b"" if body is None else json.dumps(body).encode()
        self.send_response(status)
        for name, value in (headers or {}).items():
            self.send_header(name, value)
        self.send_header("Content-Length", str(len(data)))
        self.end_headers()
        self.wfile.write(data)


def said(message: str) -> dict[str, Any]:
    return {"error": {"@Message.ExtendedInfo": [{"Message": message}], "message": "general"}}


@contextlib.contextmanager
def serving(service: Service, authority: trustme.CA, name: str = "localhost") -> Iterator[Service]:
    """Run a service with a certificate for a name."""
    context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    authority.issue_cert(name).configure_cert(context)
    handler = type("Bound", (Handler,), {"service": service})
    server = ThreadingHTTPServer(("127.0.0.1", 0), handler)
    server.handle_error = lambda *_: None  # type: ignore[method-assign]
    server.daemon_threads = True
    server.socket = context.wrap_socket(
        server.socket, server_side=True, do_handshake_on_connect=False
    )
    thread = threading.Thread(target=server.serve_forever, args=(0.02,), daemon=True)
    thread.start()
    service.address = f"https://localhost:{server.server_port}"
    try:
        yield service
    finally:
        server.shutdown()
        server.server_close()
        thread.join()


def trusted(authority: trustme.CA, folder: Path) -> Path:
    """Write the certificate of an authority; return the file."""
    path = folder / "authority.pem"
    authority.cert_pem.write_to_path(str(path))
    return path


def sleeps(seconds: float) -> Misbehave:
    return lambda handler: time.sleep(seconds)


def drips(handler: Handler) -> None:
    """Send the head, then a byte now and then for ever."""
    handler.send_response(200)
    handler.send_header("Content-Length", "100000")
    handler.end_headers()
    with contextlib.suppress(OSError):
        for _ in range(200):
            handler.wfile.write(b" ")
            handler.wfile.flush()
            time.sleep(0.05)


def drips_head(handler: Handler) -> None:
    """Send a status line, then a byte of a header now and then for ever."""
    with contextlib.suppress(OSError):
        handler.wfile.write(b"HTTP/1.1 200 OK\r\n")
        for _ in range(200):
            handler.wfile.write(b"x")
            handler.wfile.flush()
            time.sleep(0.05)


def cuts_off(handler: Handler) -> None:
    """Promise more than comes."""
    handler.send_response(200)
    handler.send_header("Content-Length", "1000")
    handler.end_headers()
    handler.wfile.write(b'{"Members"')
    handler.close_connection = True


def says_nothing(handler: Handler) -> None:
    """End the connection in place of an answer."""
    handler.close_connection = True


def is_huge(handler: Handler) -> None:
    """Send without end, and say no length."""
    handler.send_response(200)
    handler.send_header("Connection", "close")
    handler.end_headers()
    handler.close_connection = True
    with contextlib.suppress(OSError):
        for _ in range(2_000):
            handler.wfile.write(b" " * 100_000)


def says_it_is_huge(handler: Handler) -> None:
    handler.send_response(200)
    handler.send_header("Content-Length", str(10**12))
    handler.end_headers()
    handler.close_connection = True


def fails(handler: Handler) -> None:
    handler.answer(500, said("An internal part has failed."))


def speaks_otherwise(handler: Handler) -> None:
    handler.wfile.write(b"220 mail.invalid ready\r\n\r\n")
    handler.close_connection = True


def answers(text: str) -> Misbehave:
    """Answer with a text as it is."""

    def answer(handler: Handler) -> None:
        data = text.encode()
        handler.send_response(200)
        handler.send_header("Content-Length", str(len(data)))
        handler.end_headers()
        handler.wfile.write(data)

    return answer


def points_to(address: str) -> Misbehave:
    return lambda handler: handler.answer(302, None, {"Location": address})
