"""What every test shares: a reproducible search for counterexamples."""

from __future__ import annotations

from datetime import timedelta

from hypothesis import HealthCheck, settings

settings.register_profile(
    "repeatable",
    derandomize=True,
    database=None,
    deadline=timedelta(seconds=2),
    max_examples=60,
    suppress_health_check=[HealthCheck.too_slow],
)
settings.register_profile("thorough", parent=settings.get_profile("repeatable"), max_examples=1000)
settings.load_profile("repeatable")
