"""A program that writes until it is ended, and says after each write what was acknowledged.

Arguments: address of the database, the most bytes a file may have or 0, bytes of a text.
"""

from __future__ import annotations

import itertools
import resource
import sys

from baywright.store import Store, StoreUnavailable, open_store


def write(store: Store, size: int) -> None:
    """Keep builds and change them, for ever."""
    for number in itertools.count():
        kept = store.builds.keep(f"build {number}", "f2", "first" * (size // 5), "anna")
        print(kept.id, kept.version, flush=True)  # noqa: T201 - what it is for
        kept = store.builds.change(kept.id, 1, f"second {number} " * (size // 9), "ben")
        print(kept.id, kept.version, flush=True)  # noqa: T201


def main() -> None:
    """Open the store, then write."""
    url, most, size = sys.argv[1], int(sys.argv[2]), int(sys.argv[3])
    with open_store(url) as store:
        if most:
            resource.setrlimit(resource.RLIMIT_FSIZE, (most, most))
        try:
            write(store, size)
        except StoreUnavailable as error:
            print("unavailable", error.problems[0].kind, error.sentence, flush=True)  # noqa: T201


if __name__ == "__main__":
    main()
