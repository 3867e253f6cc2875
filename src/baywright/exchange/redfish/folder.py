"""A folder of mockup resources (DMTF DSP2043): one ``index.json`` for each path."""

from __future__ import annotations

from pathlib import Path

from baywright.problems import problem

ROOT = "/redfish/v1"
"""Path of the service root (DSP0266, 6.4)."""


class Folder:
    """Resources that lie in a folder.

    Args:
        folder: the folder of the service root, or one that holds ``redfish/v1``.
        most: largest size of one file, in bytes.

    Raises:
        Problems: kind ``no-source`` when there is no service root.
    """

    def __init__(self, folder: Path, most: int) -> None:
        self.name = str(folder)
        self._most = most
        self._root = root_of(folder)

    def fetch(self, path: str) -> bytes:
        """Return the body at a path.

        Raises:
            Problems: kinds ``no-resource``, ``strange-link`` and ``unreadable``.
        """
        steps = path.removeprefix(ROOT).strip("/").split("/")
        if not path.startswith(ROOT) or any(step in (".", "..") for step in steps):
            message = f"{path} leads out of the folder."
            raise problem("strange-link", message, None, "It was not followed.")
        file = self._root.joinpath(*steps, "index.json")
        try:
            with file.open("rb") as stream:
                return stream.read(self._most + 1)
        except FileNotFoundError as error:
            message = f"{path} is not in the folder."
            raise problem("no-resource", message, None, "Copy the whole tree.") from error
        except (OSError, ValueError) as error:
            message = f"{path} cannot be read in the folder."
            raise problem("unreadable", message, None, "Check its name and its rights.") from error


def is_mockup(folder: Path) -> bool:
    """Say whether a folder holds mockup resources."""
    return _root(folder) is not None


def root_of(folder: Path) -> Path:
    """Return the folder of the service root.

    Raises:
        Problems: kind ``no-source``.
    """
    root = _root(folder)
    if root is None:
        message = f"{folder} has no index.json of a service root."
        raise problem("no-source", message, None, "Give the folder that holds redfish/v1.")
    return root


def _root(folder: Path) -> Path | None:
    candidates = (folder, folder / "redfish" / "v1", folder / "v1")
    return next((each for each in candidates if (each / "index.json").is_file()), None)
