"""The files this tablet writes: its incarnation, its marks and the open end of each job's file.

Decides, when a folder is opened and when a job is read, whether the files found may be continued.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path

from teardown_app import __version__
from teardown_app.domain.ledger.record import SHOP
from teardown_app.records import gate, incarnation, journal, set_aside, whole_act
from teardown_app.records.archive import own_folder
from teardown_app.records.clock import Clock
from teardown_app.records.disk import Disk
from teardown_app.records.header import Header, Seen
from teardown_app.records.hlc import LogicalTime
from teardown_app.records.incarnation import Incarnation
from teardown_app.records.marks import Marks
from teardown_app.records.names import device_of, stem_of
from teardown_app.records.pen import Pen
from teardown_app.records.trouble import Trouble, why

_NOTHING = journal.Reading("", [], journal.Tail(), b"", None)


class OwnFiles:
    """The writing side of an open data folder. Made by `Home.open`, under the lock."""

    def __init__(self, disk: Disk, home: Path, clock: Clock, time: LogicalTime, say: Callable[[Trouble], None]) -> None:
        self._disk = disk
        self._home = home
        self._clock = clock
        self._time = time
        self._say = say
        self._pens: dict[str, Pen] = {}
        found = incarnation.load(disk, home)
        if found:
            self._use(found)
            against = gate.at_start(disk, home, found, self.marks)
        else:
            against = [gate.copied(home)] if disk.folders(home / "out" / "journals") else []
        if against or not found:
            self._renew(found, against)
        elif completed := whole_act.complete(disk, home / "private", self.who.dev, self.folder):
            self._say(completed)

    who: Incarnation
    marks: Marks

    @property
    def folder(self) -> Path:
        """Where the incarnation writes."""
        return own_folder(self._home, self.who.dev)

    def pen(self, job: str) -> Pen | None:
        """The open end of a job's file; None until `claim` has succeeded."""
        return self._pens.get(job)

    def drop(self, job: str) -> None:
        """Look at a job's file anew before anything more is written."""
        self._pens.pop(job, None)

    def claim(self, job: str, readings: Mapping[str, journal.Reading], heads: Seen) -> Trouble | None:
        """Get the file of a job ready for writing: its torn end aside, or a new incarnation. `readings`: what the
        folders hold of the job.

        On a disk that takes nothing there is no pen afterwards; the trouble that comes back says why.
        """
        try:
            tail = self._settled(job, readings)
        except OSError as fault:
            return Trouble(str(self.folder), 0, 0, "this job cannot be written now", why(fault))
        blank = Header(
            self.who.dev, self.who.letters, "", job, 0, "", {}, __version__, self._before(heads)
        )  # fmt: skip
        self._pens[job] = Pen(self._disk, self.folder, blank, tail)
        return None

    def note_act(self, pens: Mapping[str, Pen]) -> None:
        """Notes what goes to more than one file, before the first of them is written. Raises `OSError`."""
        pieces = [piece for pen in pens.values() for piece in pen.pieces()]
        if len(pieces) > 1:
            whole_act.note(self._disk, self._home / "private", self.who.dev, pieces)

    def acknowledge(self, job: str, tail: journal.Tail) -> None:
        """A job's file has grown for good."""
        self.marks.set(job, tail, self._time.highest, self._clock.anchor)

    def _settled(self, job: str, readings: Mapping[str, journal.Reading]) -> journal.Tail:
        stem, own = stem_of(job), readings.get(self.who.dev, _NOTHING)
        against = self._against(job, own, readings)
        if against:
            self._renew(self.who, [against])
            return journal.Tail()
        if own.torn or own.lost_first_line:
            self._say(set_aside.torn_end(self._disk, self._home, self.folder, stem, own))
        return own.tail

    def _against(self, job: str, own: journal.Reading, readings: Mapping[str, journal.Reading]) -> Trouble | None:
        """What says that the own file of a job is not what was written last, or goes on elsewhere."""
        path = self.folder / stem_of(job)
        key = f"{SHOP}/{self.who.dev}" if job == SHOP else self.who.dev
        others = {name: one.records for name, one in readings.items() if name != self.who.dev}
        branches = [records for name, records in others.items() if device_of(name) == self.who.dev]
        return (
            gate.on_reading(path, own, self.marks.by_job.get(job))
            or gate.goes_on(path, own.records, branches)
            or gate.seen_by_others(path, others.values(), key, own.tail.seq, branches)
        )

    def _before(self, heads: Seen) -> tuple[str, int, str] | None:
        """The last readable record of this job by an earlier incarnation."""
        for n in range(self.who.n - 1, -1, -1):
            dev = f"{self.who.id}~{n}"
            if dev in heads:
                return (dev, *heads[dev])
        return None

    def _renew(self, before: Incarnation | None, reasons: list[Trouble]) -> None:
        """Begin a new incarnation; the files written so far are left as they are."""
        for reason in reasons:
            self._say(reason)
        self._use(incarnation.begin(self._disk, self._home, before))
        self._pens.clear()

    def _use(self, who: Incarnation) -> None:
        self.who, self.marks = who, Marks(self._disk, self._home / "private", who.dev)
        self._time.take(self.marks.hlc)
        self._clock.anchor = self.marks.anchor or self._clock.anchor
