"""The proof is asked of each program that follows rules 2: one switch names them."""

from __future__ import annotations

import pytest

from tests.proof.implementations import App, Twin

IMPLEMENTATIONS: tuple[str, ...] = ("twin", "app")
"""Of "twin" and "app"."""
PROGRAMS = {"twin": Twin, "app": App}


@pytest.fixture(scope="session", params=IMPLEMENTATIONS)
def points(request: pytest.FixtureRequest) -> Twin | App:
    """`points(shop, job_number, job_records, bills)` gives all points of one program."""
    return PROGRAMS[request.param]()
