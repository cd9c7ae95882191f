"""An act: its drafts made into lines, in their order, each in its own file. Nothing is written yet."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from teardown_app.domain.ledger.record import SHOP, VERSION, Draft, Record
from teardown_app.records.clock import Moment
from teardown_app.records.hlc import LogicalTime
from teardown_app.records.knowledge import vector_for
from teardown_app.records.pen import Pen
from teardown_app.records.placeholders import fill


def compose(
    drafts: Sequence[Draft],
    by: str,
    seen: Mapping[str, tuple[int, str]],
    dev: str,
    pens: Mapping[str, Pen],
    at: Moment,
    time: LogicalTime,
) -> list[Record]:
    """The records of an act, waiting in their pens. Raises `NotWritable`; then `abandon` the pens."""
    main_job = next((draft.job for draft in drafts if draft.job != SHOP), SHOP)
    names, records = _names(drafts, dev, pens), []
    for n, draft in enumerate(drafts):
        fields: dict[str, Any] = {
            "v": VERSION, "dev": dev, "job": draft.job, "seq": 0, "hlc": time.tick(at.reading.ms),
            "wall": at.wall, "clk": at.clk, "prev": "", "act": by, "typ": draft.typ,
            "ent": fill(draft.ent, n, names), "seen": {}, "body": fill(draft.body, n, names),
        }  # fmt: skip
        known = vector_for(draft.job, dev, seen, main_job)
        records.append(pens[draft.job].compose(fields, known, trial=at.trial))
    return records


def abandon(pens: Mapping[str, Pen]) -> None:
    """Forget what was composed and not committed."""
    for pen in pens.values():
        pen.abandon()


def _names(drafts: Sequence[Draft], dev: str, pens: Mapping[str, Pen]) -> list[str]:
    """`job:dev:seq` of the records that the drafts will be."""
    count = {job: pen.seq for job, pen in pens.items()}
    names = []
    for draft in drafts:
        count[draft.job] += 1
        names.append(f"{draft.job}:{dev}:{count[draft.job]}")
    return names
