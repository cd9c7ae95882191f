"""A pytest plugin: property tests try the same cases in every run; a change is noticed or not, never now and then."""

from __future__ import annotations

from hypothesis import HealthCheck, settings

settings.register_profile(
    "mutants", derandomize=True, database=None, deadline=None, suppress_health_check=list(HealthCheck)
)


def pytest_configure() -> None:
    """After the house's own profile, before any test module is read."""
    settings.load_profile("mutants")
