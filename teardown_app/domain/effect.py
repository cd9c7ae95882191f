"""Why a record can have no effect, and who may take a weighty one back."""

from __future__ import annotations

from teardown_app.domain.record import Record

NO_RIGHT, NEWER, MISFIT, VOIDED = "no right", "newer", "misfit", "voided"
"""Why a record has no effect."""


def undoing_right(record: Record) -> str:
    """The right that somebody else needs to take a weighty record back; empty for the others."""
    if record.typ == "disposition.given":
        return "scrap" if record.body.get("as") == "scrap" else "release"
    if record.typ == "hold.placed":
        return "release"
    if record.typ == "check.read" and record.body.get("verdict") == "reject":
        return "release"
    if record.typ == "approval.given" and record.body.get("as") == "declined":
        return "office"
    return ""
