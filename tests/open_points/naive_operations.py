"""Witness: operations: which are done, which *done* counts, what they spoil.

Written from `docs/formats/open-points.md` (section 2, reading of a part; section 4, An operation is over) alone.
"""

from __future__ import annotations

from collections.abc import Iterable

from teardown_app.domain.bill.bill import Operation
from teardown_app.domain.ledger.record import Record
from tests.open_points.naive_entries import Entry
from tests.open_points.naive_said import is_written
from tests.open_points.naive_tool import Tool


class Operations:
    """What was done on the parts of one job."""

    def __init__(self, tool: Tool) -> None:
        self.tool, self.told = tool, tool.told

    def done_on(self, parts: Iterable[str]) -> list[Record]:
        """Every operation.done on one of these parts, taken back or not."""
        names = {name for part in parts for name in self.told.names(part)}
        return [e for e in self.told.written if e.typ == "operation.done" and names & set(e.ent)]

    def spoils(self, done: Record, check: str) -> bool:
        """ "names it in `spoils`, or, naming none, is not in `outlasts`"."""
        operation = self._operation(done)
        if operation and operation.spoils:
            return check in operation.spoils
        known = self.tool.bill.checks.get(check)
        return known is None or done.body["operation"] not in known.outlasts

    def _operation(self, record: Record) -> Operation | None:
        known = self.tool.bill.routes.get(record.body["route"])
        return next((e for e in known.operations if e.id == record.body["operation"]), None) if known else None

    def is_over(self, part: str, entry: Entry) -> bool:
        """ "**An operation is over** when what holds of pass 1 is *skipped*, or *done* and that *done* counts"."""
        return self.told.value(part, entry.fact) == "skipped" or self._counts_on(part, entry.record)

    def counts(self, done: Record, parts: Iterable[str]) -> bool:
        """Whether a *done* counts on one of these parts that it is about."""
        about = {self.told.one(thing) for thing in done.ent}
        return any(self._counts_on(part, done) for part in parts if self.told.one(part) in about)

    def _counts_on(self, part: str, done: Record) -> bool:
        """ "where the bill gives the operation a `time`, its author had seen a beginning of that pass, or it says
        `began`; and each name in `record` stands, not blank, in its `values` or in those of a beginning he had seen";
        of an operation that the bill does not have nothing is asked."""
        operation, fact = self._operation(done), "operation/{route}/{operation}/{pass}".format(**done.body)
        if operation is None:
            return True
        started = [each.record for each in self.told.all(part, fact) if each.value == "started"]
        begun = [each for each in started if self.told.saw(done, each)]
        began = bool(begun) or "began" in done.body
        values = [each.body.get("values", {}) for each in [done, *begun]]
        written = {name for each in values for name, text in each.items() if is_written(text)}
        return (began or not getattr(operation, "time", "")) and set(operation.record) <= written
