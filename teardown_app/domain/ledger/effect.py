"""Why a record can have no effect, and who may take a weighty one back."""

from __future__ import annotations

from collections.abc import Callable

from teardown_app.domain.ledger.kinds import KINDS
from teardown_app.domain.ledger.record import Record

NO_RIGHT, NEWER, MISFIT, VOIDED = "no right", "newer", "misfit", "voided"
"""Why a record has no effect."""


NOBODYS_OWN = ("job.closed", "job.reopened")
"""Taking these back needs the right whoever made them: it opens or closes the job."""

OfRef = Callable[[str], list[Record]]
"""Name of a record -> the records of that name (several only on a fork)."""


def undoing_right(record: Record) -> str:
    """The right that taking a weighty record back needs; empty for the others."""
    if record.typ == "disposition.given":
        return "scrap" if record.body.get("as") == "scrap" else "release"
    if record.typ in ("hold.placed", "check.read"):
        return "release" if record.typ == "hold.placed" or record.body.get("verdict") == "reject" else ""
    if record.typ == "approval.given" and record.body.get("as") == "declined":
        return "office"
    return {"job.closed": "office", "job.reopened": "sign"}.get(record.typ, "")


def rights_to_take_back(record: Record, by: str, of_ref: OfRef) -> set[str]:
    """Rights that a person needs to take a record back. What comes back needs the right of its own kind."""
    if record.typ == "record.voided":
        named = of_ref(str(record.body.get("record", "")))
        return {right for one in named for right in _rights_to_restore(one, by, of_ref)}
    right = undoing_right(record)
    return {right} if right and (record.act != by or record.typ in NOBODYS_OWN) else set()


def _rights_to_restore(record: Record, by: str, of_ref: OfRef) -> set[str]:
    if record.typ == "record.voided":
        named = of_ref(str(record.body.get("record", "")))
        return {right for one in named for right in rights_to_take_back(one, by, of_ref)}
    kind = KINDS.get(record.typ)
    return {kind.right_for(record)} if kind else set()
