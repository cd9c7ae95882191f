"""The rows of acts are whole, and the example of each works and says what its row promises."""

from __future__ import annotations

import shlex
from collections.abc import Callable
from inspect import Parameter, signature
from string import Formatter

import pytest

from teardown_app.cli.table import COMMANDS
from teardown_app.domain.ledger.kinds import KINDS
from teardown_app.workflows.deed import ABOUT, HANDED_IN, JOB, SHOP, SORTS, Deed
from teardown_app.workflows.deeds import DEEDS
from tests.workflows import declared
from tests.workflows.reassembly.bench import ORDER, Bench
from tests.workflows.reassembly.conftest import bench

__all__ = ["bench"]

MADE = [deed for deed in DEEDS if deed.do]
NAMES = [deed.name for deed in MADE]
OF_THE_COMMAND = {"job", "things", "by", "home", "json", "command"}
"""Names of arguments that every command has."""


def test_no_two_rows_have_one_name() -> None:
    assert len({deed.name for deed in DEEDS}) == len(DEEDS)


@pytest.mark.parametrize("deed", DEEDS, ids=lambda deed: deed.name)
def test_a_row_names_known_kinds_sorts_and_fields(deed: Deed) -> None:
    names = [field.name for field in deed.fields]
    assert deed.writes and set(deed.writes) <= set(KINDS)
    assert deed.about in ABOUT and {field.sort for field in deed.fields} <= set(SORTS)
    assert len(set(names)) == len(names) and not set(names) & OF_THE_COMMAND
    assert bool(deed.do) == bool(deed.says) == bool(deed.example)


@pytest.mark.parametrize("deed", MADE, ids=NAMES)
def test_a_workflow_takes_exactly_the_fields_of_its_row(deed: Deed) -> None:
    assert deed.do is not None
    taken = list(signature(deed.do).parameters.values())[1 if deed.about in (JOB, SHOP) else 2 :]
    assert {one.name for one in taken} == {field.name for field in deed.fields}
    needed = {field.name for field in deed.fields if field.needed or field.first or field.sort == HANDED_IN}
    assert {one.name for one in taken if one.default is Parameter.empty} == needed


@pytest.mark.parametrize("deed", MADE, ids=NAMES)
def test_the_command_of_a_row_is_made_from_it(deed: Deed) -> None:
    command = next(one for one in COMMANDS if one.words == tuple(deed.name.split()))
    assert (command.says, command.example) == (deed.says, f"teardown-app {deed.name} {deed.example}")
    assert command.by and command.writes


def held(bench: Bench) -> None:
    """The bowl is on hold."""
    bench.do("part hold PO-7781 10.20 --why x --by MK")


def off(*keys: str) -> Callable[[Bench], object]:
    """Parts are off."""
    return lambda bench: bench.off(*keys)


STAGES: dict[str, tuple[Callable[[Bench], object], ...]] = {
    "part hold": (off("10.20"),),
    "part lift": (off("10.20"), held),
}
"""What has to be there before the example of a row works on the pump."""


@pytest.mark.parametrize("deed", MADE, ids=NAMES)
def test_the_example_of_a_row_works_and_says_what_the_row_promises(bench: Bench, deed: Deed) -> None:
    for stage in STAGES[deed.name]:
        stage(bench)
    example = deed.example.replace("J7K3M00018", ORDER).replace("P7K3M0001Q", "10.20")
    before = bench.records()
    said = bench.do(f"{deed.name} {example}")
    assert bench.records() > before
    words = [literal for literal, *_ in Formatter().parse(deed.done)]
    assert all(word in said for word in words), shlex.split(example)


def test_a_command_that_writes_what_its_row_does_not_name_is_seen(
    bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    bench.off("10.20")
    monkeypatch.setitem(declared.WRITES, "part hold", {"hold.lifted"})
    with pytest.raises(AssertionError, match="part hold writes what its row does not name"):
        bench.do("part hold PO-7781 10.20 --why x --by MK")
