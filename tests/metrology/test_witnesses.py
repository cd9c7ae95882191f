"""Every function of the metrology room against at least two sources that are not this project."""

from __future__ import annotations

import ast
from collections import defaultdict

import pytest

from tests.house.sources import PROJECT
from tests.metrology.all_witnesses import all_witnesses, installed
from tests.metrology.witness import Witness

ROOM = PROJECT / "teardown_app" / "metrology"
NOT_A_FORMULA = ("fault.py", "kind.py")
WITNESSES = all_witnesses()
AT_HAND = [one for one in WITNESSES if installed(one.needs)]
"""All of them with `make witnesses`, which has every library."""


@pytest.mark.parametrize("witness", AT_HAND, ids=[f"{one.function}: {one.source}" for one in AT_HAND])
def test_it_gives_what_the_source_says(witness: Witness) -> None:
    """Within what the source's own digits allow."""
    assert witness.difference() <= witness.within


def test_every_public_function_has_two_sources() -> None:
    """Read from the code itself, so that a new formula without a witness fails."""
    sources: dict[str, set[str]] = defaultdict(set)
    for one in WITNESSES:
        sources[one.function].add(one.source)
    formulas = [
        f"{path.stem}.{node.name}"
        for path in sorted(ROOM.glob("*.py"))
        if path.name not in NOT_A_FORMULA and not path.name.startswith("_")
        for node in ast.parse(path.read_text(encoding="utf-8")).body
        if isinstance(node, ast.FunctionDef) and not node.name.startswith("_")
    ]
    assert len(formulas) > 40
    lacking = [name for name in formulas if len(sources[name]) < 2]
    assert not lacking, lacking
    unknown = {name for name in set(sources) - set(formulas) if not name.startswith("_")}
    assert not unknown, "a witness for a function that is not there"
