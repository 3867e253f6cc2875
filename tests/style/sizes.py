"""How long our files and functions are."""

from __future__ import annotations

from dataclasses import dataclass

from tests.style.sources import body_lines, sources


@dataclass(frozen=True, slots=True, order=True)
class Size:
    """A length in lines, and what has it."""

    lines: int
    place: str


def file_sizes(folder: str = "") -> list[Size]:
    """Return the length of each of our Python files below a folder, longest first."""
    found = [Size(s.lines, s.path) for s in sources() if s.path.startswith(folder)]
    return sorted(found, reverse=True)


def function_sizes(folder: str = "") -> list[Size]:
    """Return the length of the body of each of our functions below a folder, longest first."""
    found = [
        Size(body_lines(function), f"{source.path}:{function.name}")
        for source in sources()
        if source.path.startswith(folder)
        for function in source.functions()
    ]
    return sorted(found, reverse=True)


def percentile(sizes: list[Size], share: float) -> int:
    """Return the length that this share of the sizes, between 0 and 1, does not exceed."""
    ordered = sorted(size.lines for size in sizes)
    return ordered[min(len(ordered) - 1, int(share * len(ordered)))]


def report() -> list[str]:
    """Return the middle, the 95th percentile and the five longest, for files and for functions."""
    lines: list[str] = []
    for title, sizes in (("files", file_sizes()), ("function bodies", function_sizes())):
        middle, high = percentile(sizes, 0.5), percentile(sizes, 0.95)
        lines.append(f"{len(sizes)} {title}: median {middle} lines, 95th percentile {high}")
        lines += [f"  {size.lines:4} {size.place}" for size in sizes[:5]]
    return lines
