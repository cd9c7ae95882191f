"""A data folder: opens it, reads the records of a job, appends what an act brings.

The one door of this room for the workshop. Knows nothing of what records mean.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path

from teardown_app.domain.ledger.record import SHOP, Draft, Record
from teardown_app.records import act, attachments, journal
from teardown_app.records.archive import device_folders
from teardown_app.records.branches import heads_of
from teardown_app.records.clock import Clock, Moment, Source
from teardown_app.records.disk import Disk, Moved, RealDisk, make_folders
from teardown_app.records.header import Seen
from teardown_app.records.hlc import LogicalTime
from teardown_app.records.lock import FolderLock, Lock
from teardown_app.records.names import stem_of
from teardown_app.records.own_files import OwnFiles
from teardown_app.records.pen import Pen
from teardown_app.records.trouble import NotRecorded, NotWritable, ReadOnly, RecordsError, Trouble, why


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
        self._barred: dict[str, Trouble] = {}
        """Why a job cannot be written, as found when it was last read."""
        self._own: OwnFiles | None = None
        self._half_written = ""
        """Why nothing more is written until the next start; empty where nothing stands against it."""

    # Opening

    def open(self) -> Home:
        """Open for writing. Raises `InUse`, or `RecordsError` when the folder cannot be used."""
        try:
            make_folders(self.disk, self.path / "private")
            if not self.disk.owner_only(self.path / "private"):
                self._say(_open_to_all(self.path / "private"))
            self._lock.take()
            self._own = OwnFiles(self.disk, self.path, self.clock, self._time, self._say)
        except OSError as fault:
            self.close()
            raise RecordsError(f"The data folder {self.path} cannot be used. {why(fault)}") from fault
        return self

    def open_to_read(self) -> Home:
        """Open for reading: takes no lock and changes nothing on the disk."""
        self._own = None
        return self

    def close(self) -> None:
        """Let the next writer in."""
        self._own = None
        self._lock.give_back()

    def __enter__(self) -> Home:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    @property
    def writable(self) -> bool:
        """True when this program may record here."""
        return self._own is not None

    @property
    def dev(self) -> str:
        """Device and incarnation that new records carry."""
        return self._writer().who.dev

    @property
    def letters(self) -> str:
        """The four characters that this incarnation puts into its numbers."""
        return self._writer().who.letters

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
        """All records of a job, or of `_shop`, by all devices, each once: each device's branches in their order."""
        self._barred.pop(job, None)
        readings = self._readings(job)
        found = list({record.h: record for reading in readings.values() for record in reading.records}.values())
        heads = self._heads[job] = heads_of(readings)
        self._time.take(max((record.hlc for record in found), default=""))
        if self._own and not self._own.pen(job) and job not in self._barred:
            self._claim(self._own, job, readings, heads)
        return found

    def heads(self, job: str) -> Seen:
        """What this tablet has now: `<dev>` -> last record of this job, `_shop/<dev>` -> of the shop; `<dev>#<h8>` of a
        further branch."""
        shop = {f"{SHOP}/{dev}": head for dev, head in self._heads_of(SHOP).items()}
        return shop if job == SHOP else {**self._heads_of(job), **shop}

    def extents(self) -> dict[str, int]:
        """`<dev>/<first part of the file name>` -> bytes on disk: tells cheaply whether a job has grown."""
        totals: dict[str, int] = {}
        for folder in device_folders(self.disk, self.path):
            for name, size in self.disk.sizes(folder).items():
                key = f"{folder.name}/{name.split('.')[0]}"
                totals[key] = totals.get(key, 0) + size
        return totals

    def attachment(self, digest: str) -> bytes:
        """An attachment's bytes, checked. Raises `AttachmentError`."""
        return attachments.read(self.disk, self.path, digest)

    def attached(self, digest: str) -> Path:
        """Where an attachment lies, for showing it. Raises `AttachmentError`."""
        return attachments.find(self.disk, self.path, digest)

    # Writing

    def append(self, drafts: Sequence[Draft], by: str, seen: Mapping[str, tuple[int, str]]) -> list[Record]:
        """Record what an act brings, all of it; when this returns it is on the disk.

        `seen` is what `heads` gave when the form was opened (`knowledge.vector_for` tells how it is
        given for an act on two jobs). Raises `NotWritable` or `NotRecorded`.
        """
        self._writer()
        if self._half_written:
            raise NotRecorded(self._half_written)
        pens = self._pens_of(dict.fromkeys(draft.job for draft in drafts))
        moment = self.clock.now()
        try:
            records = act.compose(drafts, by, seen, self.dev, pens, moment, self._time)
        except NotWritable:
            act.abandon(pens)
            raise
        self._commit(pens, records, moment)
        return records

    def attach(self, data: bytes, ext: str) -> str:
        """Keep bytes as an attachment; the SHA-256 to name in a record appended after this."""
        self._writer()
        return attachments.keep(self.disk, self.path, data, ext)

    # Inside

    def _readings(self, job: str) -> dict[str, journal.Reading]:
        stem, found = stem_of(job), {}
        for folder in device_folders(self.disk, self.path):
            segments = journal.numbers(self.disk, folder).get(stem)
            if not segments:
                continue
            reading = journal.read(self.disk, folder, stem, segments)
            if reading.fault:
                self._say(reading.fault)
            if reading.job in ("", job):
                found[folder.name] = reading
            else:
                self._bar(job, folder, _other_capitals(folder, job, reading.job))
        return found

    def _claim(self, own: OwnFiles, job: str, readings: dict[str, journal.Reading], heads: Seen) -> None:
        trouble = own.claim(job, readings, heads)
        if trouble:
            self._bar(job, own.folder, trouble)

    def _bar(self, job: str, folder: Path, trouble: Trouble) -> None:
        self._say(trouble)
        if self._own and folder == self._own.folder:
            self._barred[job] = trouble

    def _commit(self, pens: Mapping[str, Pen], records: list[Record], moment: Moment) -> None:
        own = self._writer()
        self._write(own, pens, records)
        self.clock.recorded(moment)
        for job, pen in pens.items():
            self._heads[job][own.who.dev] = (pen.tail.seq, pen.tail.h8)
            own.acknowledge(job, pen.tail)

    def _write(self, own: OwnFiles, pens: Mapping[str, Pen], records: list[Record]) -> None:
        done = list[str]()
        try:
            own.note_act(pens)
            for job, pen in pens.items():
                pen.commit()
                done.append(job)
        except OSError as fault:
            act.abandon(pens)
            if isinstance(fault, Moved):
                own.drop(list(pens)[len(done)])
            left = self._not_taken_back([pens[job] for job in done])
            raise self._refusal(fault, [record for record in records if pens[record.job] in left]) from fault

    def _not_taken_back(self, pens: list[Pen]) -> list[Pen]:
        """Takes back what an act wrote before it failed; the files of which that could not be."""
        left = []
        for pen in reversed(pens):
            try:
                pen.take_back()
            except OSError:
                left.append(pen)
        return left

    def _refusal(self, fault: OSError, written: list[Record]) -> NotRecorded:
        """What is said where a disk takes nothing; where it does not even give back, nothing more is written until the
        next start has completed the act."""
        if not written:
            return NotRecorded(f"NOT recorded. {why(fault)}")
        jobs = ", ".join(dict.fromkeys(record.job for record in written))
        self._half_written = (
            f"NOT recorded as a whole: what it says of {jobs} is on the disk, the rest is not. {why(fault)} "
            "Close the app and start it anew: then the rest is written."
        )
        return NotRecorded(self._half_written, written)

    def _pens_of(self, jobs: Iterable[str]) -> dict[str, Pen]:
        for job in jobs:
            self._pen(job)  # may begin a new incarnation, and then no pen got before it is good
        return {job: self._pen(job) for job in jobs}

    def _pen(self, job: str) -> Pen:
        own = self._writer()
        if not own.pen(job):
            self.records(job)
        pen = own.pen(job)
        if not pen:
            raise NotRecorded(f"NOT recorded. {self._barred[job]}")
        return pen

    def _heads_of(self, job: str) -> Seen:
        if job not in self._heads:
            self.records(job)
        return self._heads[job]

    def _writer(self) -> OwnFiles:
        if not self._own:
            raise ReadOnly(f"{self.path} is open for reading only; open it for writing first.")
        return self._own

    def _say(self, trouble: Trouble) -> None:
        if trouble not in self.troubles:
            self.troubles.append(trouble)


def _other_capitals(folder: Path, job: str, there: str) -> Trouble:
    return Trouble(
        str(folder), 0, 0, f"the job {there} is stored here; {job} differs from it in capitals only",
        f"Use {there}, or another number.",
    )  # fmt: skip


def _open_to_all(private: Path) -> Trouble:
    return Trouble(
        str(private), 0, 0, "others who use this machine can read what is private to this tablet, the PINs' values too",
        "Put the data folder on a disk that knows owners.",
    )  # fmt: skip
