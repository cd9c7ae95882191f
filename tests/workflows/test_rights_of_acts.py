"""Each act asks of a person the rights that the table of acts gives to what it records: these, and no others."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from typing import Any

import pytest

from teardown_app.domain.ledger.acts import Needed, right_for, rights_to_take_back
from teardown_app.domain.ledger.kinds.kind import RIGHTS
from teardown_app.domain.ledger.record import SHOP, Draft, Record
from teardown_app.workflows.deed import Deed
from teardown_app.workshop import Workshop
from tests.workflows.reassembly.bench import Bench
from tests.workflows.reassembly.conftest import bench
from tests.workflows.test_deeds import MADE, NAMES, STAGES, of_the_pump

__all__ = ["bench"]

WITHOUT = {right: f"N{n}" for n, right in enumerate(RIGHTS)}
"""Somebody who has every right but one."""


class NotWritten(Exception):
    """An act that would have been recorded."""


@contextmanager
def nothing_is_written(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """An act goes up to where it would be recorded."""

    def stop(self: Workshop, drafts: Sequence[Draft], *others: Any, **more: Any) -> Any:
        raise NotWritten

    with monkeypatch.context() as patch:
        patch.setattr(Workshop, "record", stop)
        yield


def is_let_in(bench: Bench, command: str, by: str) -> bool:
    """Would it be recorded? False where a right stands against it; any other refusal is a fault of the test."""
    try:
        said = bench.refused(f"{command} --by {by}")
    except NotWritten:
        return True
    assert f"{by} has no right to" in said, said
    return False


def asked_of(record: Record, records: dict[str, Record]) -> Needed:
    """The table's word for a record."""
    if record.typ == "record.voided":
        return rights_to_take_back(records[record.body["record"]]) or ()
    return right_for(record)


def all_records(bench: Bench) -> dict[str, Record]:
    """What is on the disk, by name."""
    with bench.open() as workshop:
        home = workshop.home
        return {record.ref: record for journal in (SHOP, *home.jobs()) for record in home.records(journal)}


@pytest.mark.parametrize("deed", MADE, ids=NAMES)
def test_an_act_asks_the_rights_of_the_table(bench: Bench, monkeypatch: pytest.MonkeyPatch, deed: Deed) -> None:
    """Somebody who lacks one of them is told so before anything is recorded; lacking another he is not."""
    with bench.open() as workshop:
        for right, code in WITHOUT.items():
            body = {"code": code, "rights": [each for each in RIGHTS if each != right]}
            workshop.record([Draft(SHOP, "person.given", (f"person:{code}",), body)], "OF")
    for stage in STAGES[deed.name]:
        stage(bench)
    command = re.sub(r" --by \w+$", "", f"{deed.name} {of_the_pump(bench, deed.example)}")
    with nothing_is_written(monkeypatch):
        refused = {right for right, code in WITHOUT.items() if not is_let_in(bench, command, code)}
    before = all_records(bench)
    bench.do(f"{command} --by OF")
    after = all_records(bench)
    groups = {group for name in after.keys() - before.keys() for group in asked_of(after[name], after)}
    assert refused == {right for (right,) in groups}
