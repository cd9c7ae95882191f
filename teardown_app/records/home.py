"""A data folder: opens it, reads the records of a job, appends what an act brings.

The one door of this room for the workshop. Knows nothing of what records mean.
"""

from __future__ import annotations

import errno
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from teardown_app import __version__
from teardown_app.domain.record import SHOP, VERSION, Draft, Record
from teardown_app.records import attachments, gate, incarnation, journal, set_aside
from teardown_app.records.archive import device_folders, own_folder
from teardown_app.records.clock import Clock, Moment, Source
from teardown_app.records.disk import Disk, RealDisk, make_folders
from teardown_app.records.header import Header, Seen
from teardown_app.records.hlc import LogicalTime
from teardown_app.records.incarnation import Incarnation
from teardown_app.records.knowledge import vector_for
from teardown_app.records.lock import FolderLock, Lock
from teardown_app.records.marks import Marks
from teardown_app.records.names import stem_of
from teardown_app.records.pen import Moved, Pen
from teardown_app.records.placeholders import fill
from teardown_app.records.trouble import NotRecorded, NotWritable, ReadOnly, RecordsError, Trouble


class Home:
    """One data folder, open for writing by one program or for reading by any.

    `troubles` lists what a person should know of; it grows while jobs are read.
    """

    def __init__(self, path: Path, source: Source, disk: Disk | None = None, lock: Lock | None = None) -> None:
        self.path = path
        self.disk: Disk = disk or RealDisk()
        self.clock = Clock(source)
        self.troubles: list[Trouble] = []
        self._lock: Lock = lock or FolderLock(path / "private")
        self._time = LogicalTime()
        self._heads: dict[str, Seen] = {}
        self._pens: dict[str, Pen] = {}
        self._who: Incarnation | None = None
        self._marks: Marks | None = None

    # Opening

    def open(self) -> Home:
        """Open for writing. Raises `InUse`, or `RecordsError` when the folder cannot be made."""
        try:
            make_folders(self.disk, self.path / "private")
            self._lock.take()
            self._pass_the_gate()
        except OSError as fault:
            self.close()
            raise RecordsError(f"The data folder {self.path} cannot be used: {_why(fault)}") from fault
        return self

    def open_to_read(self) -> Home:
        """Open for reading: no lock, nothing is changed on the disk."""
        self._who = None
        return self

    def close(self) -> None:
        """Let the next writer in."""
        self._pens.clear()
        self._marks = None
        self._lock.give_back()

    def __enter__(self) -> Home:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    @property
    def dev(self) -> str:
        """Device and incarnation that new records carry."""
        return self._writer().dev

    @property
    def letters(self) -> str:
        """The four characters that this incarnation puts into its numbers."""
        return self._writer().letters

    # Reading

    def jobs(self) -> list[str]:
        """Numbers of all jobs that have records here, in the order of their names."""
        found: dict[str, str] = {}
        for folder in device_folders(self.disk, self.path):
            for stem in journal.numbers(self.disk, folder):
                if stem not in found:
                    found[stem] = journal.job_of(self.disk, folder, stem) or stem
        return [found[stem] for stem in sorted(found) if stem != SHOP]

    def records(self, job: str) -> list[Record]:
        """All records of a job, or of `_shop`, by all devices: each device's in its order."""
        stem, found, heads = stem_of(job), [], {}
        own: journal.Reading | None = None
        for folder in device_folders(self.disk, self.path):
            segments = journal.numbers(self.disk, folder).get(stem)
            if not segments:
                continue
            reading = journal.read(self.disk, folder, stem, segments)
            if reading.job not in ("", job):
                self._say(_other_capitals(folder, job, reading.job))
                continue
            own = self._note(folder, reading) or own
            found += reading.records
            if reading.records:
                heads[folder.name] = (reading.tail.seq, reading.tail.h8)
        self._heads[job] = heads
        if self._marks is not None and job not in self._pens:
            self._claim(job, own, found)
        self._time.take(max((record.hlc for record in found), default=""))
        return found

    def heads(self, job: str) -> Seen:
        """What this tablet has now: `<dev>` -> last record of this job, `_shop/<dev>` -> of the shop."""
        shop = {f"{SHOP}/{dev}": head for dev, head in self._heads_of(SHOP).items()}
        return shop if job == SHOP else {**self._heads_of(job), **shop}

    def extents(self) -> dict[str, int]:
        """`<dev>/<file stem>` -> bytes on disk: tells cheaply whether a job has grown."""
        totals: dict[str, int] = {}
        for folder in device_folders(self.disk, self.path):
            for name, size in self.disk.sizes(folder).items():
                key = f"{folder.name}/{name.split('.')[0]}"
                totals[key] = totals.get(key, 0) + size
        return totals

    # Writing

    def append(self, drafts: Sequence[Draft], by: str, seen: Mapping[str, tuple[int, str]]) -> list[Record]:
        """Record what an act brings, all of it; when this returns it is on the disk.

        `seen` is what `heads` gave when the form was opened (`knowledge.vector_for` tells how acts on
        two jobs are given). Raises `NotWritable` or `NotRecorded`.
        """
        self._writer()
        pens = {job: self._pen(job) for job in dict.fromkeys(draft.job for draft in drafts)}
        moment = self.clock.now()
        try:
            records = self._compose(drafts, by, seen, pens, moment)
        except NotWritable:
            for pen in pens.values():
                pen.abandon()
            raise
        self._commit(pens, records, moment)
        return records

    def attach(self, data: bytes, ext: str) -> str:
        """Keep bytes as an attachment; the SHA-256 to name in a record."""
        self._writer()
        return attachments.keep(self.disk, self.path, data, ext)

    def attachment(self, digest: str) -> bytes:
        """An attachment's bytes, checked. Raises `AttachmentError`."""
        return attachments.read(self.disk, self.path, digest)

    # Inside

    def _compose(
        self, drafts: Sequence[Draft], by: str, seen: Mapping[str, tuple[int, str]], pens: dict[str, Pen], at: Moment
    ) -> list[Record]:
        dev, main_job = self.dev, next((draft.job for draft in drafts if draft.job != SHOP), SHOP)
        count = {job: pen.seq for job, pen in pens.items()}
        stems = []
        for draft in drafts:
            count[draft.job] += 1
            stems.append(f"{draft.job}:{dev}:{count[draft.job]}")
        records = []
        for n, draft in enumerate(drafts):
            fields: dict[str, Any] = {
                "v": VERSION, "dev": dev, "job": draft.job, "seq": 0, "hlc": self._time.tick(at.reading.ms),
                "wall": at.wall, "clk": at.clk, "prev": "", "act": by, "typ": draft.typ,
                "ent": fill(draft.ent, n, stems), "seen": {}, "body": fill(draft.body, n, stems),
            }  # fmt: skip
            known = vector_for(draft.job, dev, seen, main_job)
            records.append(pens[draft.job].compose(fields, known, trial=at.trial))
        return records

    def _commit(self, pens: dict[str, Pen], records: list[Record], moment: Moment) -> None:
        written: list[Record] = []
        for job, pen in pens.items():
            try:
                pen.commit()
            except OSError as fault:
                self._give_up(pens, job, fault)
                raise NotRecorded(f"NOT recorded. {_why(fault)}", written) from fault
            written += [record for record in records if record.job == job]
            self._heads[job][self.dev] = (pen.tail.seq, pen.tail.h8)
            self.clock.recorded(moment)
            self._marks_now().set(job, pen.tail, self._time.highest, self.clock.anchor)

    def _give_up(self, pens: dict[str, Pen], failed: str, fault: OSError) -> None:
        for pen in pens.values():
            pen.abandon()
        if isinstance(fault, Moved):
            del self._pens[failed]

    def _pen(self, job: str) -> Pen:
        if job not in self._pens:
            self.records(job)
        if job not in self._pens:
            raise NotRecorded(f"NOT recorded. {self.troubles[-1]}")
        return self._pens[job]

    def _note(self, folder: Path, reading: journal.Reading) -> journal.Reading | None:
        """Say what is wrong with a reading; the reading back when it is of the file written now."""
        if self._who is not None and folder == own_folder(self.path, self._who.dev):
            return reading
        if reading.fault:
            self._say(reading.fault)
        return None

    def _claim(self, job: str, own: journal.Reading | None, found: list[Record]) -> None:
        """Get the own file of a job ready for writing: torn end aside, or a new incarnation."""
        who, stem = self._writer(), stem_of(job)
        folder = own_folder(self.path, who.dev)
        reading = own or journal.Reading(job, [], journal.Tail(), b"", None)
        try:
            against = self._against(folder / stem, job, reading, found)
            if against:
                self._renew([against])
                reading = journal.Reading(job, [], journal.Tail(), b"", None)
            elif reading.torn or reading.lost_first_line:
                self._say(set_aside.torn_end(self.disk, self.path, folder, stem, reading))
        except OSError as fault:
            self._say(Trouble(str(folder), 0, 0, "this job cannot be written now", _why(fault)))
            return
        self._pens[job] = self._new_pen(job, reading.tail)

    def _against(self, path: Path, job: str, own: journal.Reading, found: list[Record]) -> Trouble | None:
        dev = self._writer().dev
        others = [record for record in found if record.dev != dev]
        key = f"{SHOP}/{dev}" if job == SHOP else dev
        return gate.on_reading(path, own, self._marks_now().by_job.get(job)) or gate.seen_by_others(
            path, others, key, own.tail.seq
        )

    def _new_pen(self, job: str, tail: journal.Tail) -> Pen:
        who, heads = self._writer(), self._heads[job]
        before = next((dev for n in range(who.n - 1, -1, -1) if (dev := f"{who.id}~{n}") in heads), None)
        after = (before, *heads[before]) if before else None
        blank = Header(who.dev, who.letters, "", job, 0, "", {}, __version__, after)
        return Pen(self.disk, own_folder(self.path, who.dev), blank, tail)

    def _pass_the_gate(self) -> None:
        who = incarnation.load(self.disk, self.path)
        if who is None:
            has_records = bool(self.disk.folders(self.path / "out" / "journals"))
            return self._renew([gate.copied(self.path)] if has_records else [])
        self._use(who)
        against = gate.at_start(self.disk, self.path, who, self._marks_now())
        return self._renew(against) if against else None

    def _renew(self, reasons: list[Trouble]) -> None:
        """Begin a new incarnation; the files written so far are left as they are."""
        for reason in reasons:
            self._say(reason)
        self._use(incarnation.begin(self.disk, self.path, self._who))
        self._pens.clear()

    def _use(self, who: Incarnation) -> None:
        marks = Marks(self.disk, self.path / "private", who.dev)
        before = self._marks
        self._who, self._marks = who, marks
        self._time.take(max(marks.hlc, before.hlc if before else ""))
        self.clock.anchor = marks.anchor or self.clock.anchor

    def _heads_of(self, job: str) -> Seen:
        if job not in self._heads:
            self.records(job)
        return self._heads[job]

    def _writer(self) -> Incarnation:
        if self._who is None or self._marks is None:
            raise ReadOnly(f"{self.path} is open for reading only; open it for writing first.")
        return self._who

    def _marks_now(self) -> Marks:
        if self._marks is None:
            raise ReadOnly(f"{self.path} is open for reading only; open it for writing first.")
        return self._marks

    def _say(self, trouble: Trouble) -> None:
        if trouble not in self.troubles:
            self.troubles.append(trouble)


def _why(fault: OSError) -> str:
    if fault.errno == errno.ENOSPC:
        return f"The disk is full ({fault.filename}). Make room, then save again."
    if fault.errno in (errno.EACCES, errno.EROFS, errno.EPERM):
        return f"{fault.filename} may not be written. Check the rights of the folder, then save again."
    return f"{fault.filename}: {fault.strerror or fault}. Save again; if it stays so, close the app and start it anew."


def _other_capitals(folder: Path, job: str, there: str) -> Trouble:
    return Trouble(
        str(folder), 0, 0, f"the job {there} is stored here; {job} differs from it in capitals only",
        f"Use {there}, or another number.",
    )  # fmt: skip
