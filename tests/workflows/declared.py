"""A watch over every command that a test runs: it writes only kinds of record that the row of its act declares."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from typing import Any

import pytest

from teardown_app.cli import main as door
from teardown_app.cli.command import Call
from teardown_app.domain.ledger.record import Draft
from teardown_app.workflows.deeds import DEEDS
from teardown_app.workshop import Workshop

WRITES = {deed.name: set(deed.writes) for deed in DEEDS}


@pytest.fixture(autouse=True)
def only_declared_kinds(monkeypatch: pytest.MonkeyPatch) -> None:
    """Fails the test whose command writes a kind that its row does not name."""
    written: list[str] = []
    record, closing = Workshop.record, door.closing

    def noted(self: Workshop, drafts: Sequence[Draft], *others: Any, **more: Any) -> Any:
        written.extend(draft.typ for draft in drafts)
        return record(self, drafts, *others, **more)

    @contextmanager
    def watched(call: Call) -> Iterator[Call]:
        written.clear()
        with closing(call):
            yield call
        if call.args.command.by:
            name = " ".join(call.args.command.words)
            assert set(written) <= WRITES.get(name, set()), f"{name} writes what its row does not name"

    monkeypatch.setattr(Workshop, "record", noted)
    monkeypatch.setattr(door, "closing", watched)
