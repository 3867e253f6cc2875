"""What every test shares: a reproducible search for counterexamples, and the sizes at the end."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, settings

from tests.style.sizes import report

settings.register_profile(
    "repeatable",
    derandomize=True,
    database=None,
    deadline=None,  # a busy machine is no counterexample; pytest-timeout ends what hangs
    max_examples=60,
    suppress_health_check=[HealthCheck.too_slow],
)
settings.register_profile("thorough", parent=settings.get_profile("repeatable"), max_examples=1000)
settings.load_profile("repeatable")


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Show the longest files and functions when the tests of style were part of the run."""
    passed = terminalreporter.stats.get("passed", [])
    if any("tests/style/test_sizes.py" in result.nodeid for result in passed):
        terminalreporter.section("sizes")
        terminalreporter.write_line("\n".join(report()))
