"""What comes back after a restart: the job, the screen, the form and what stood on the pad.

Never a PIN: `Asking.to_keep` leaves that form out.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from teardown_app.records.own_notes import OwnNotes
from teardown_app.ui.form import entry_from

if TYPE_CHECKING:
    from teardown_app.ui.desk import Desk


def keep(desk: Desk, notes: OwnNotes) -> bool:
    """Keeps it; false when the disk would not take it."""
    entry = desk.asking.to_keep
    note = {
        "job": desk.job_number,
        "screen": desk.screen.name,
        "state": desk.screen.state,
        "entry": entry.as_note() if entry else None,
    }
    return notes.keep("desk", note)


def resume(desk: Desk, notes: OwnNotes, first: str, home: str) -> None:
    """Opens what was open when the app went away; who it is is asked all the same."""
    note = notes.read("desk")
    name, state, job = note.get("screen"), note.get("state"), str(note.get("job") or "")
    if job and any(not dev.startswith("_shop") for dev in desk.workshop.home.heads(job)):
        desk.job_number = job
    if name in desk.screens and name != first and (desk.job_number or not desk.screens[name].of_job):
        desk.screen = desk.screens[name](desk, state if isinstance(state, dict) else {})
        desk.asking.resume(entry_from(note.get("entry"), desk.asking.forms.__contains__))
    else:
        desk.go(home if desk.job_number else first)
