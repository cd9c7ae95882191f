"""Photographs of parts, places or the whole tool. Files are kept before the record that names them."""

from __future__ import annotations

from collections.abc import Sequence

from teardown_app.domain.job.job import JOB
from teardown_app.workflows.act import Act, Drafts, refuse
from teardown_app.workflows.deed import by_hand

WHENS = ("as found", "in work", "finished", "fitted", "shipped")


def photograph(
    act: Act, things: Sequence[str], photos: Sequence[str], *, area: str = "", note: str = "", when: str = "as found"
) -> Drafts:
    """Records photographs, by the SHA-256 of their files, of all these things in one act."""
    act.working()
    if when not in WHENS:
        refuse(f"{when} is not known.", f"A photograph shows the tool {', '.join(WHENS)}.")
    if not things:
        refuse("Nobody said what the photograph shows.", "Name parts or places; without any it is of the whole tool.")
    if not photos:
        refuse("There is no photograph.", "Name the file of the picture.")
    body = {"photos": list(photos), "area": area or None, "note": note or None, "when": when}
    return [act.draft("photo.taken", tuple(dict.fromkeys(things)), **body)]


PHOTO = by_hand("part photo", JOB, "{shows}: {count} pictures kept without metadata.", "photo.taken")
