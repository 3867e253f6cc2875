"""A server of its own for a test, on a free port, with a store in a folder."""

from __future__ import annotations

import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from urllib.error import URLError
from urllib.request import urlopen

PROGRAM = "from baywright.cli import main; main()"


@contextmanager
def serving(
    folder: Path, *options: str, ready: str = "/bench/f2", first: str = ""
) -> Iterator[tuple[str, subprocess.Popen[bytes]]]:
    """Run the workbench; yields its address and its process.

    Args:
        folder: where its store and its log lie.
        options: further arguments of the command.
        ready: page that answers before it is yielded.
        first: Python statements that its process runs before anything else.
    """
    port = _free_port()
    database = f"sqlite:///{folder / 'store.sqlite'}"
    command = ["serve", "--port", str(port), "--database", database, *options]
    with (folder / "server.log").open("ab") as log:
        process = subprocess.Popen(
            [sys.executable, "-c", f"{first}\n{PROGRAM}", *command],
            stdout=log,
            stderr=subprocess.STDOUT,
        )
    try:
        address = f"http://127.0.0.1:{port}"
        _wait(address + ready, process)
        yield address, process
    finally:
        process.terminate()
        process.wait(30)


def _free_port() -> int:
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port: int = free.getsockname()[1]
    return port


def _wait(address: str, process: subprocess.Popen[bytes], seconds: float = 90.0) -> None:
    end = time.monotonic() + seconds
    while time.monotonic() < end and process.poll() is None:
        try:
            with urlopen(address, timeout=60):  # noqa: S310 - our own server
                return
        except URLError:
            time.sleep(0.2)
    raise TimeoutError(f"the server at {address} did not come up")
