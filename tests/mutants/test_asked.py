"""Which tests are asked about which file, and that the list of equals is not stale."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.house.sources import PROJECT
from tests.mutants.equivalents import equivalents, why_equal
from tests.mutants.rooms import ASKED, Step, asked_about


def test_every_room_that_is_named_and_every_test_that_is_asked_is_there() -> None:
    """A folder that moved would ask nobody."""
    assert [room for room in ASKED if not (PROJECT / "teardown_app" / room).exists()] == []
    assert [test for tests in ASKED.values() for test in tests if not (PROJECT / test).exists()] == []


def test_of_two_rooms_the_inner_one_says_who_is_asked() -> None:
    """First its own examples, then what is named, the tests with a window left out."""
    steps = asked_about("teardown_app/domain/ledger/facets.py")
    assert steps[0] == Step("teardown_app/domain/ledger/facets.py", ("--doctest-modules",))
    assert [step.target for step in steps[1:]] == list(ASKED["domain/ledger"])
    assert [step.target for step in asked_about("teardown_app/domain/points/place.py")[1:]] == list(ASKED["domain"])
    assert all(step.options == ("--ignore=tests/ui/glass",) for step in steps[1:])


@pytest.mark.parametrize("entry", equivalents(), ids=lambda entry: entry.file)
def test_a_change_listed_as_equal_is_of_a_line_that_is_there(entry: object) -> None:
    """And has its reason."""
    file, before, after, why = entry  # type: ignore[misc]
    lines = {line.strip() for line in (PROJECT / file).read_text(encoding="utf-8").splitlines()}
    assert before in lines and after != before and len(why.split()) > 4


def test_a_listed_change_is_known_by_its_file_and_both_lines(tmp_path: Path) -> None:
    """The same lines in another file are another change."""
    listed = tmp_path / "equal.toml"
    listed.write_text('[[equivalent]]\nfile = "a.py"\nbefore = "x"\nafter = "y"\nwhy = "same"\n', encoding="utf-8")
    found = equivalents(listed)
    assert why_equal(found, "a.py", "x", "y") == "same"
    assert why_equal(found, "b.py", "x", "y") == why_equal(found, "a.py", "x", "z") == ""
