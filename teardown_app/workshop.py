"""The one place that opens things and hands them out: data folder, shop, jobs, bills, word lists.

Doors come here with drafts from a workflow; `record` puts them on the disk, takes them into state and
tells listeners. Nobody else writes.
"""

from __future__ import annotations

import gc
import json
import os
import tomllib
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from functools import cached_property
from hashlib import sha256
from pathlib import Path
from typing import Any

from platformdirs import user_data_path

from teardown_app.domain.bill.bill import Bill
from teardown_app.domain.bill.materials import Materials
from teardown_app.domain.job.job import REACH_BACK, Job
from teardown_app.domain.ledger.acts import asks_pin
from teardown_app.domain.ledger.record import SHOP, Draft, Record
from teardown_app.domain.next.progress import Row, job_rows, shop_rows, tag_rows
from teardown_app.domain.parts.bound import Bound, Register, bound, no_others
from teardown_app.domain.parts.parts import parts_of_number
from teardown_app.domain.parts.routing import Moment
from teardown_app.domain.points.live import Live
from teardown_app.domain.shop.known_numbers import issued_numbers
from teardown_app.domain.shop.labels import OnItsWay, why_void
from teardown_app.domain.shop.shop import Shop
from teardown_app.domain.tags.tag import issue
from teardown_app.intake import frozen_bill
from teardown_app.intake.drawings import drawings_in
from teardown_app.intake.materials import read_materials
from teardown_app.labels.label import Label, blank_label, label_of_number
from teardown_app.labels.supplies import supply
from teardown_app.records import pins
from teardown_app.records.clock import source_of
from teardown_app.records.home import Home
from teardown_app.records.lists import Lists, Rows
from teardown_app.records.trouble import NotRecorded, Trouble
from teardown_app.workflows.act import Act, ShopAct, refuse
from teardown_app.workflows.label import not_void, number_of_ours
from teardown_app.workflows.open_job import open_job

Seen = Mapping[str, tuple[int, str]]
Listener = Callable[[Record, "OpenJob | None"], None]


LONG_BYTES = 4_096
"""What was measured stands in the record itself up to this length."""


def _written(measured: Mapping[str, Any]) -> bytes:
    return json.dumps(measured, sort_keys=True).encode()


class OpenJob:
    """A job with its open points, both current; `register` knows on which parts of other jobs a number is."""

    def __init__(self, job: Job, register: Register = no_others) -> None:
        self.job = job
        self.live = Live(job, register)
        self.looked_at: set[str] | None = None
        """Places that the last record could change; None for all of them."""

    def take(self, record: Record) -> None:
        """Takes a record in; points follow."""
        self.looked_at = self.live.update(record, self.job.take(record))


class Workshop:
    """Everything that is open."""

    def __init__(self, home: Home, assets: Path) -> None:
        self.home = home
        self.assets = assets
        self.listeners: list[Listener] = []
        self.lists = Lists(home, self._rows_of)
        self._jobs: dict[str, OpenJob] = {}
        self._bills: dict[str, Bill] = {}
        self.shop = Shop()
        with no_collecting():
            self.shop.take_all(home.records(SHOP))
        if home.writable and not home.disk.exists(home.path / "private" / pins.FILE):
            self._say_lost_pins()

    def _say_lost_pins(self) -> None:
        """PINs were chosen on this tablet, and their file is gone: whoever claims the initials next chooses anew."""
        chose = sorted({one.act for one in self.shop.of_kind("pin.enrolled") if one.dev == self.home.dev})
        if chose:
            self.home.troubles.append(
                Trouble(
                    str(self.home.path / "private" / pins.FILE), 0, 0,
                    f"the PINs of this tablet are gone: {', '.join(chose)} had one",
                    "Look who was at the tablet. Each chooses a PIN again, which the office sees.",
                )
            )  # fmt: skip

    def close(self) -> None:
        """Lets the next program write."""
        try:
            self.lists.flush()
        finally:
            self.home.close()

    # what is open

    def job(self, number: str) -> OpenJob:
        """The job of a number; read from its records when first asked for."""
        if number not in self._jobs:
            with no_collecting():
                self._jobs[number] = OpenJob(self.read_apart(number), self._others(number))
        return self._jobs[number]

    def _others(self, job: str) -> Register:
        """Parts of other jobs that a number is on: of open jobs as they stand, of others by the index."""

        def register(number: str) -> list[Bound]:
            known = [*self._jobs, *(one for one in self.lists.jobs_of(number) if one not in self._jobs)]
            jobs = [self._jobs[one].job if one in self._jobs else self.read_apart(one) for one in known if one != job]
            return [bound(other, part) for other in jobs for part in parts_of_number(other, number)]

        return register

    def read_apart(self, number: str) -> Job:
        """A job as its records stand, not kept open: for looking at many."""
        job = Job(number, self.shop, self.bill)
        job.take_all(self.home.records(number))
        return job

    def _read_job(self, number: str) -> OpenJob:
        with no_collecting():
            return OpenJob(self.read_apart(number))

    def find_job(self, name: str) -> OpenJob:
        """The job of a number, or of a name or order reference that only one job has."""
        if name.upper() in self.home.jobs():
            return self.job(name.upper())
        rows = self.lists.jobs()
        found = [str(row["job"]) for row in rows if name in (row["name"], row["order"]) and name]
        if not found:
            refuse(f"There is no job {name} here.", "List the jobs.", "job list")
        if len(found) > 1:
            refuse(f"{name} stands for the jobs {', '.join(found)}.", "Give the job's number.")
        return self.job(found[0])

    def whose(self, number: str) -> Row | None:
        """The job and part that a number stands for: open jobs from their state, others from the index."""
        for opened in self._jobs.values():
            row = tag_rows(opened.job).get(number) if parts_of_number(opened.job, number) else None
            if row is not None:
                return row
        return self.lists.tag(number, but=tuple(self._jobs))

    def belongs_elsewhere(self, number: str, job: str) -> str:
        """The other job and place that a number belongs to, in words; empty when no other job here knows it."""
        row = self.whose(number)
        if not row or row["job"] == job:
            return ""
        what = f"{row.get('description', '')} {row.get('position', '')}".strip()
        return f"job {row['job']} ({what})" if what else f"job {row['job']}"

    def label_for(self, number: str, job: str = "") -> Label | None:
        """The label of a number as it would be printed now; None while the number stands for nothing here."""
        for name in [job] if job else self._jobs_behind(number):
            found = label_of_number(number, self.shop, self.job(name).job)
            if found is not None:
                return found
        return None if job else label_of_number(number, self.shop)

    def label_in_queue(self, one: OnItsWay) -> Label | None:
        """What is printed for a label of the queue; None where it stands for nothing and is none of a roll."""
        return self.label_for(one.number, one.job) or (blank_label(one.number) if one.blank else None)

    def _jobs_behind(self, number: str) -> list[str]:
        """Jobs that a number may stand in: bags are known by the job alone, so all open ones are looked at."""
        if number[0] == "J":
            return [number] if number in self.home.jobs() else []
        if number[0] == "H":
            return [str(row["job"]) for row in self.lists.jobs() if not row["closed"]]
        row = self.whose(number) if number[0] == "P" else None
        return [str(row["job"])] if row else []

    def job_behind(self, number: str) -> str:
        """The job that a number stands in; empty for one of the shop's registers, or of none."""
        for name in self._jobs_behind(number):
            if label_of_number(number, self.shop, self.job(name).job) is not None:
                return name
        return ""

    def stands_for(self, number: str) -> str:
        """What a number stands for, in words; empty while it stands for nothing here."""
        label = self.label_for(number)
        return ", ".join(label.lines) or number if label else ""

    def known_numbers(self, most: int = 20_000) -> list[str]:
        """Numbers that a label here may bear: issued, or bound in any job, as far as the index has got."""
        bound = [number for opened in self._jobs.values() for number in tag_rows(opened.job)]
        return list(dict.fromkeys([*bound, *issued_numbers(self.shop, most), *self.lists.tags_so_far()]))[:most]

    def _rows_of(self, journal: str) -> Rows:
        if journal == SHOP:
            return shop_rows(self.shop)
        opened = self._jobs.get(journal) or self._read_job(journal)  # not kept: there may be thousands
        return job_rows(opened.job, opened.live.points())

    def bill(self, digest: str) -> Bill | None:
        """The frozen bill of a SHA-256, None when its file is not here."""
        if digest not in self._bills:
            data = self.home.attachment(digest)
            self._bills[digest] = frozen_bill.load(data)
        return self._bills[digest]

    def open_from_bill(
        self, bill: Bill, folder: Path, by: str, *, printed: str = "", **said: Any
    ) -> tuple[str, list[Record]]:
        """Opens a job and freezes the bill with the drawings beside it; its number and the records.

        `printed` is a job number printed ahead, `said` what `workflows.open_job` takes. What is refused
        leaves no file behind.
        """
        number, issued = self.job_number(printed)
        frozen, drawings = frozen_bill.dump(bill), _drawings_beside(bill, folder)
        named = {name: self.digest(data) for name, (data, _) in drawings.items()}
        act = self.shop_act(by)
        drafts = open_job(act, bill, digest=self.digest(frozen), drawings=named, number=number, **said)
        self.home.attach(frozen, "json")
        for data, ext in drawings.values():
            self.home.attach(data, ext)
        return number, self.record([*issued, *drafts], by)

    def twins(self, number: str, order: str, serial: str) -> list[str]:
        """Other open jobs on the same tool or order, in words: perhaps it was opened twice."""
        rows = [row for row in self.lists.jobs() if row["job"] != number and not row["closed"]]
        same = [str(row["job"]) for row in rows if (row["order"], row["serial"]) == (order, serial)]
        if same:
            return [f"Look: {', '.join(same)} is open on the same order and serial number."]
        others = [str(row["job"]) for row in rows if row["order"] == order]
        return [f"The order has {', '.join(others)} too: call each by its number."] if others else []

    def job_number(self, printed: str = "") -> tuple[str, list[Draft]]:
        """A number for a new job, and the record that it was issued: one printed ahead, or a new one."""
        if printed:
            tag = number_of_ours(printed)
            if tag.number in self.home.jobs():
                refuse(f"{tag.number} is the number of a job already.", "Take another label, or none.")
            if tag.letter != "J" or tag.incarnation != self.home.letters:
                refuse(f"{printed} is no job number of this tablet.", "Take a job label printed here, or none.")
            return not_void(self.shop, tag.number), []
        numbers, draft = self.new_numbers("J", 1)
        return numbers[0], [draft]

    def new_numbers(self, letter: str, count: int) -> tuple[list[str], Draft]:
        """Numbers never issued before, and the record that says so, to be written before they are used. Void ones
        are stepped over: another tablet may have said so before it knew what was issued here."""
        letters = self.home.letters
        first = after = self.shop.next_counter(letters, letter)
        numbers: list[str] = []
        while len(numbers) < count:
            more, after = issue(letter, letters, after, count - len(numbers))
            numbers += [number for number in more if not why_void(self.shop, number)]
        body = {"letter": letter, "letters": letters, "first": first, "next": after, "count": count}
        return numbers, Draft(SHOP, "numbers.issued", ("numbers:" + letters,), body)

    def now(self) -> Moment:
        """The tablet's clock, for workflows."""
        moment = self.home.clock.now()
        return Moment(self.home.dev, moment.wall, moment.clk)

    def act(self, by: str, job: Job) -> Act:
        """An act of a person on a job, now."""
        return Act(job, self.shop, by, self.now())

    def shop_act(self, by: str) -> ShopAct:
        """An act of a person on the shop's registers, now."""
        return ShopAct(self.shop, by, self.now())

    # recording

    def record(self, drafts: Sequence[Draft], by: str, seen: Seen | None = None) -> list[Record]:
        """Puts an act on the disk and takes it into state. `seen`: what was here when its form was opened."""
        if seen is None:
            seen = self.heads(drafts)
        try:
            records = self.home.append(drafts, by, seen)
        except NotRecorded as fault:
            self._take_all(fault.written)  # of an act on two journals one may be on the disk already
            raise
        self._take_all(records)
        return records

    def asks_pin(self, drafts: Sequence[Draft]) -> bool:
        """True for an act for which its person's PIN is asked, by touch or by command (`domain/ledger/acts.py`)."""
        return any(asks_pin(draft, self._taken_back(draft)) for draft in drafts)

    def _taken_back(self, draft: Draft) -> Record | None:
        """What a taking back takes back."""
        if draft.typ != "record.voided":
            return None
        return next(iter(self.job(draft.job).job.of_ref(str(draft.body["record"]))), None)

    def _take_all(self, records: Sequence[Record]) -> None:
        for record in records:
            self._take(record)

    @staticmethod
    def digest(data: bytes) -> str:
        """The name under which an attachment will be kept."""
        return sha256(data).hexdigest()

    def heads(self, drafts: Sequence[Draft]) -> dict[str, tuple[int, str]]:
        """What this tablet has now of the journals that the drafts go to."""
        jobs = list(dict.fromkeys(draft.job for draft in drafts if draft.job != SHOP))
        heads = dict(self.home.heads(jobs[0] if jobs else SHOP))
        for other in jobs[1:]:  # of an act on two jobs the second one's tablets are named with it
            heads |= {f"{other}/{dev}": last for dev, last in self.home.heads(other).items() if "/" not in dev}
        return heads

    def _take(self, record: Record) -> None:
        opened: OpenJob | None = None
        if record.job == SHOP:
            self._take_shop(record)
        else:
            opened = self._jobs.get(record.job)
            if opened is None:
                opened = self.job(record.job)
            else:
                opened.take(record)
            self._tell_of_labels(record)
        for listener in self.listeners:
            listener(record, opened)

    def _tell_of_labels(self, record: Record) -> None:
        """A number that comes onto a part here may be in use in another job that is open."""
        number = str(record.body.get("number") or "")
        for name, other in self._jobs.items() if number else ():
            if name != record.job:
                other.live.labels_changed([number])

    def _take_shop(self, record: Record) -> None:
        self.shop.take(record)
        for opened in self._jobs.values():
            if opened.job.shop_took(record):
                opened.live = Live(opened.job, self._others(opened.job.number))
        if record.typ in REACH_BACK:
            self.lists.catch_up_on(self.jobs_with(str(record.body.get("number", ""))))

    def name_if_long(self, measured: Mapping[str, Any]) -> str:
        """SHA-256 of what was measured where that is too long for a record, else empty. Nothing is kept yet."""
        data = _written(measured)
        return self.digest(data) if len(data) > LONG_BYTES else ""

    def keep_if_long(self, measured: Mapping[str, Any]) -> None:
        """Attaches it, before the record that names it."""
        if self.name_if_long(measured):
            self.home.attach(_written(measured), "json")

    def jobs_with(self, instrument: str) -> list[str]:
        """Open and closed jobs with readings taken with an instrument; with any where none is named."""
        used = {str(row["job"]): row.get("instruments") or [] for row in self.lists.jobs()}
        return [job for job, numbers in used.items() if (instrument in numbers if instrument else numbers)]

    # word lists and tables

    @cached_property
    def materials(self) -> Materials:
        """The table of materials, with what the shop adds to it."""
        return materials_of(self.home.path, self.assets)

    @cached_property
    def words(self) -> dict[str, Any]:
        """The shop's words for conditions and findings."""
        own = self.home.path / "shop" / "findings.toml"
        path = own if own.is_file() else self.assets / "findings.toml"
        return tomllib.loads(path.read_text(encoding="utf-8"))


def _drawings_beside(bill: Bill, folder: Path) -> dict[str, tuple[bytes, str]]:
    """The drawings that a bill names, by name: what is in the file, and its ending."""
    there = drawings_in(folder)
    names = sorted({*bill.drawings.values(), *(one.drawing for one in bill.callouts)})
    files = {name: folder / there.find(name) for name in names if there.find(name)}
    return {name: (file.read_bytes(), file.suffix[1:].lower()) for name, file in files.items()}


@contextmanager
def no_collecting() -> Iterator[None]:
    """Reading many records makes only things that stay: looking for garbage meanwhile doubles the time."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()


def materials_of(home: Path, assets: Path) -> Materials:
    """The table that comes with the app, and what the shop adds in `shop/materials.toml`."""
    own = home / "shop" / "materials.toml"
    return read_materials(assets, own if own.is_file() else None)


def assets_folder() -> Path:
    """Where the files that come with the app are: word lists, materials, label stocks, fonts."""
    return supply("materials.toml").parent


def default_home() -> Path:
    """The data folder that `TEARDOWN_HOME` names, else the system's place for such data."""
    named = os.environ.get("TEARDOWN_HOME", "")
    return Path(named) if named else Path(user_data_path("teardown-app", appauthor=False))


def open_workshop(path: Path, assets: Path, *, writes: bool) -> Workshop:
    """The workshop on a data folder; for reading only, it needs no lock and changes nothing."""
    home = Home(path, source_of(os.environ))
    return Workshop(home.open() if writes else home.open_to_read(), assets)
