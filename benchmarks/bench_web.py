"""Steps on the bench page at a real server, with twenty people working at once.

Each person follows a random link that fits something, reads the page for some seconds, and goes
on; who has nothing left to fit begins anew. The time is from the request to the last byte.
"""

from __future__ import annotations

import asyncio
import html
import random
import re
import socket
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from statistics import median, quantiles

import httpx2

from benchmarks.tables import Finding, Table, Wanted, spread

PEOPLE, STEPS, SECONDS = 20, 16, 3.0
"""People, steps of each, and seconds between two steps of one on average."""

START = "/bench/f2"

_FIT = re.compile(r'<a class="(?:n )?fit" href="([^"]+)"')


def findings() -> Iterator[Finding]:
    """Yield the table of the steps, and the figures that were set."""
    with server() as address:
        found = asyncio.run(_work(address))
    yield Table(
        f"A step on the bench page, {PEOPLE} people at once, in milliseconds",
        ("book", "steps", "median", "p95", "most"),
        (("f2", str(len(found)), *spread(found)),),
        f"Random steps, one of each person about every {SECONDS:g} s; server and people share "
        "the machine.",
    )
    yield Wanted("a step at the server, median, 20 people", median(found) * 1000, 100, None, "ms")
    p95 = quantiles(found, n=20)[-1] * 1000
    yield Wanted("a step at the server, 95th percentile, 20 people", p95, 250, None, "ms")


@contextmanager
def server(*options: str) -> Iterator[str]:
    """Run the workbench on a free port with a store of its own; yields its address."""
    port = free_port()
    with tempfile.TemporaryDirectory() as folder:
        database = f"sqlite:///{Path(folder) / 'store.sqlite'}"
        program = "from baywright.cli import main; main()"
        command = ["serve", "--port", str(port), "--database", database, *options]
        process = subprocess.Popen(  # noqa: S603 - our own program
            [sys.executable, "-c", program, *command], stdout=subprocess.DEVNULL
        )
        try:
            address = f"http://127.0.0.1:{port}"
            _wait(address, process)
            yield address
        finally:
            process.terminate()
            process.wait(20)


def free_port() -> int:
    """Return a port that nothing listens on."""
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port: int = free.getsockname()[1]
    return port


def _wait(address: str, process: subprocess.Popen[bytes], seconds: float = 90.0) -> None:
    """Wait until the server has answered, the book compiled.

    Raises:
        TimeoutError: when it does not come up in time.
    """
    end = time.monotonic() + seconds
    while time.monotonic() < end and process.poll() is None:
        try:
            if httpx2.get(address + START, timeout=60).status_code == 200:
                return
        except httpx2.ConnectError:
            time.sleep(0.2)
    raise TimeoutError(f"the server at {address} did not come up")


async def _work(address: str) -> list[float]:
    found: list[float] = []
    await asyncio.gather(*(_person(address, seed, found) for seed in range(PEOPLE)))
    return found


async def _person(address: str, seed: int, found: list[float]) -> None:
    chance = random.Random(seed)  # noqa: S311 - a walk, no secret
    async with httpx2.AsyncClient(base_url=address, timeout=60) as client:
        await asyncio.sleep(chance.uniform(0, SECONDS))
        page = (await client.get(START)).text
        for _ in range(STEPS):
            links = [html.unescape(link) for link in _FIT.findall(page)]
            await asyncio.sleep(chance.uniform(0.5, 1.5) * SECONDS)
            start = time.perf_counter()
            answer = await client.get(chance.choice(links) if links else START)
            found.append(time.perf_counter() - start)
            answer.raise_for_status()
            page = answer.text
