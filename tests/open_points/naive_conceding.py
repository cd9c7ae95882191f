"""Witness: one open point, and whether it is conceded.

Written from `docs/formats/open-points.md` (What a program gets; section 6) alone.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from tests.open_points.naive_back import Lying
from tests.open_points.naive_entries import Entry
from tests.open_points.naive_ground import Ground

CLOSED_UP, POWER_ON, SHIP = "closed up", "power on", "ship"


class Seen(NamedTuple):
    """One open point as the witness sees it; `behind` names what a concession has to have seen."""

    key: str
    kind: str
    gate: str
    state: str
    behind: tuple[str, ...]
    position: str
    part: str
    never: bool
    """Never conceded."""


class Conceding:
    """Points, with the concessions of one job."""

    def __init__(self, ground: Ground) -> None:
        self.ground, self.tool, self.told, self.back = ground, ground.tool, ground.told, ground.back

    def point(
        self, kind: str, gate: str, subject: str, which: str, ground: Iterable[Lying], *, never: bool = False
    ) -> Seen:
        """One point, open or conceded."""
        state = "conceded" if not never and self.is_conceded(kind, subject, which, ground) else "open"
        return self.seen(kind, gate, subject, which, state, self._whole(subject, ground), never=never)

    def seen(
        self, kind: str, gate: str, subject: str, which: str, state: str, ground: Iterable[Lying], *,
        never: bool = False,
    ) -> Seen:  # fmt: skip
        """One point in this state. "`key` is `kind|subject|which`"."""
        behind = {record.ref for record, thing in ground if self.back.lies(record, thing)}
        position = subject if subject in self.tool.places else ""
        part = subject if subject in self.tool.parts else ""
        return Seen(
            f"{kind}|{subject}|{which}", kind, gate, state, tuple(sorted(behind)), position, part, never
        )  # fmt: skip

    def _whole(self, subject: str, ground: Iterable[Lying]) -> list[Lying]:
        """ "of a point about a place always also the claims of that place"."""
        return [*ground, *(self.ground.claims_of(subject) if subject in self.tool.places else [])]

    def concessions(self, kind: str, subject: str, which: str) -> list[Entry]:
        """Concessions of a key: "The key holds for any name of the part."."""
        keys = {f"{kind}|{name}|{other}" for name in self.told.names(subject) for other in self.told.names(which)}
        return [e for e in self.told.entries if e.fact == "concession" and e.value["key"] in keys]

    def is_conceded(self, kind: str, subject: str, which: str, ground: Iterable[Lying], right: str = "") -> bool:
        """Whether somebody concedes it, with this right where one is named. "The point is `conceded` while the
        concession has effect and its author had seen every record that section 5 lists for the kind; a point about a
        part is conceded only while the concession's `lines` are the lines of its seat. One about a place has also to
        count for the unit."."""
        whole = self._whole(subject, ground)
        found = self.concessions(kind, subject, which)
        return any(
            (not right or self.told.has_right(entry.record, right))
            and self.back.stands(entry.record, whole)
            and (subject not in self.tool.parts or entry.value.get("lines", []) == self.tool.line_names(subject))
            and (subject not in self.tool.places or self.ground.units.counts(entry.record, subject))
            for entry in found
        )
