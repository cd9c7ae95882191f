"""The desk: one tablet with its workshop, who is signed on, the open screen, and what is half-entered.

Everything a person does comes through here: `touch` a step, `row` or `flag`, `entered` a field, `scan`
a text. Everything recorded goes out through `act` or `shop_act`. After each of these `listeners` are
told, and `view` gives what to show. Nothing here knows a widget.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

from attrs import evolve

from teardown_app.domain.job import Job
from teardown_app.domain.parts import came_from
from teardown_app.domain.points.point import Point
from teardown_app.domain.record import Draft, Record
from teardown_app.domain.tag import parse
from teardown_app.records.own_notes import OwnNotes
from teardown_app.records.pins import PinFault, Pins
from teardown_app.records.trouble import RecordsError
from teardown_app.ui.form import Entry, Form, Values
from teardown_app.ui.frames import FolderFrames, FrameSource, numbers_in
from teardown_app.ui.kept import keep, resume
from teardown_app.ui.label_queue import LabelQueue
from teardown_app.ui.news import News
from teardown_app.ui.red_list import red_list
from teardown_app.ui.scanning import is_tag, meaning
from teardown_app.ui.screen import Screen
from teardown_app.ui.session import Session, WhoIsIt
from teardown_app.ui.settings import SIZES, Choice, Settings
from teardown_app.ui.slow import Slow
from teardown_app.ui.taking_back import Undo, take_all_back
from teardown_app.ui.tree import Tally
from teardown_app.ui.view import ACCEPT, REJECT, UNSURE, Field, Scan, Step, Strip, View
from teardown_app.ui.words import plainly
from teardown_app.workflows.act import Act, Drafts, Refused, ShopAct, refuse
from teardown_app.workshop import OpenJob, Workshop

Doing = Callable[[], object]

FIRST, HOME = "sign on", "jobs"
AT_ONCE = 20
"""So many jobs are listed between two looks at the glass, where the list has to be made anew."""
TABS = (
    ("Jobs", "jobs"),
    ("Teardown", "teardown"),
    ("Cleaning", "cleaning"),
    ("Assembly", "assembly"),
    ("Open points", "points"),
    ("Office", "office"),
)
LIGHT_TABS = ("jobs", "teardown", "assembly", "points")
"""What a one-person job needs; cleaning is added where the bill has routes."""


class Desk:
    """One tablet."""

    def __init__(self, workshop: Workshop, screens: dict[str, type[Screen]], forms: dict[str, Form]) -> None:
        self.workshop = workshop
        self.screens, self.forms = screens, forms
        home = workshop.home
        self._private = OwnNotes(home.disk, home.path / "private")
        self._drafts = OwnNotes(home.disk, home.path / "drafts")
        self.settings = Settings(self._private.read("settings"), lambda note: self._private.keep("settings", note))
        self.session = Session(Pins(home.disk, home.path))
        self.listeners: list[Callable[[], None]] = []
        self.feedback: list[Callable[[str], None]] = []
        self.slow = Slow()
        self.frames: FrameSource = FolderFrames(home.path / "scans")
        self._job_number = ""
        self.glass_dots_per_inch = 160.0
        self.screen: Screen = screens[FIRST](self)
        self.entry: Entry | None = None
        self.scan_says = Scan()
        self._strip = Strip()
        self._undo: list[Undo] = []
        self._beneath: Entry | None = None
        self._pending: Doing | None = None
        self._pending_job = ""
        self._back: list[tuple[str, str, Values]] = []
        self.news = News(self._private)
        self.bills_folder = home.path / "bills"
        self.labels = LabelQueue(workshop, self._private)
        self._tallies: dict[tuple[str, str], Tally] = {}
        self._points: list[Point] | None = None
        workshop.listeners.append(self._took)
        self.jobs_left = self.workshop.lists.left()
        if len(self.jobs_left) <= AT_ONCE:
            self.jobs_left = []
        self._jobs_all = len(self.jobs_left)
        self.listing_stopped = False
        self._tell_of_troubles()

    # the job in hand

    @property
    def job_number(self) -> str:
        """The job in hand, empty while none is."""
        return self._job_number

    @job_number.setter
    def job_number(self, number: str) -> None:
        """Takes a job in hand: what was confirmed or waited for in another one is not carried over."""
        if number != self._job_number:
            self._job_number, self._points = number, None
            self._strip, self._undo = Strip(), []
            self._wait_no_more()

    @property
    def opened(self) -> OpenJob:
        """The job that was chosen."""
        return self.workshop.job(self.job_number)

    @property
    def job(self) -> Job:
        """The job that was chosen."""
        return self.opened.job

    @property
    def job_name(self) -> str:
        """What people call the job."""
        return self.job.said("name") or self.job_number

    def points(self) -> list[Point]:
        """All points of the job in hand, worked out once between two records."""
        if self._points is None:
            self._points = self.opened.live.points()
        return self._points

    def tally(self, name: str, done: Callable[[Job, str], bool]) -> Tally:
        """Counts per assembly of the job in hand, kept current."""
        key = (self.job_number, name)
        if key not in self._tallies:
            self._tallies[key] = Tally(self.job, done)
        return self._tallies[key]

    def _took(self, record: Record, opened: OpenJob | None) -> None:
        self._points = None
        for (number, _), tally in self._tallies.items():
            if number == record.job:
                tally.take(record)

    @property
    def look(self) -> Act:
        """For asking, not for recording."""
        return self.workshop.act(self.session.current, self.job)

    @property
    def choice(self) -> Choice:
        """What the person in front of the glass chose."""
        return self.settings.of(self.session.current)

    # screens

    def go(self, name: str, *, back: bool = False, job: str = "", **state: Any) -> None:
        """Opens a screen; with `back` it offers the way to the one before."""
        before = (self.job_number, self.screen.name, self.screen.state)
        self.job_number = job or self.job_number
        self._points = None
        if self.screens[name].of_job and not self.job_number:
            self.say("Choose a job first.", REJECT)
            name = HOME
        self._back = [*self._back[-8:], before] if back else []
        self._wait_no_more()
        self.entry = None
        self.screen = self.screens[name](self, state)

    def go_back(self) -> None:
        """Opens the screen from which this one was opened."""
        job, name, state = self._back.pop() if self._back else (self.job_number, HOME, {})
        self._wait_no_more()
        self.job_number = job
        self.screen, self.entry = self.screens[name](self, state), None

    @property
    def can_go_back(self) -> bool:
        """True on a screen that was opened from another one."""
        return bool(self._back)

    # what a person does

    def touch(self, step: Step) -> None:
        """A step was touched."""
        self.session.touched()
        if not step.ready:
            self.say(step.why_not, REJECT)
        else:
            on_screen = getattr(type(self.screen), step.act, None)
            owner = self.screen if on_screen is not None else self
            if step.act == "go":
                self.scan_says = Scan(count=self.scan_says.count)  # what was said belongs to the screen before
            self.attempt(lambda: getattr(owner, step.act)(*step.args))
        self._changed()

    def row(self, act: str, key: str) -> None:
        """A row was touched."""
        self.session.touched()
        self.attempt(lambda: getattr(self.screen, act)(key))
        self._changed()

    def flag(self, key: str) -> None:
        """A flag on the drawing was touched."""
        self.session.touched()
        self.attempt(lambda: self.screen.flag(key))
        self._changed()

    def entered(self, name: str, text: str) -> None:
        """A field was entered."""
        self.session.touched()
        entry, asked = self.entry, self.field()
        if asked is not None and not text.strip() and not asked.may_be_empty:
            self.say("Nothing was entered.", REJECT)
        elif entry is not None and asked is not None and asked.name == name:
            entry.values[name] = text
            entry.order.append(name)
            entry.typed = ""
            self._advance()
        self._changed()

    def typed(self, text: str) -> None:
        """Something stands on the pad that is not entered yet."""
        self.session.touched()
        if self.entry is not None:
            self.entry.typed = text
            self._keep()

    def one_back(self) -> None:
        """Goes back to the field before, and out of the form from the first."""
        entry = self.entry
        if entry is None or not entry.order:
            self.leave_form()
            return
        name = entry.order.pop()
        entry.typed = str(entry.values.pop(name, ""))

    def leave_form(self) -> None:
        """Leaves a form; nothing is recorded."""
        beneath = self._beneath
        self._wait_no_more()
        self.entry = beneath
        if beneath is not None and self.field() is None:  # all was entered already: the last thing is asked again
            last = beneath.order.pop() if beneath.order else ""
            self.entry = beneath if last and beneath.values.pop(last, None) is not None else None

    def mark_photo(self, x: float, y: float, from_x: float, from_y: float) -> None:
        """A ring or an arrow was set on the photograph."""
        self.session.touched()
        self.screen.ring(x, y, from_x, from_y)
        self._changed()

    def close(self) -> None:
        """Keeps what is half-entered and lets the next program write."""
        self._keep()
        self.slow.close()
        self.workshop.close()

    # forms

    def open(self, form: str, **values: Any) -> None:
        """Opens a form with what is known already; one that asks nothing is done at once."""
        self._wait_no_more()
        self.entry = Entry(form, values)
        self._advance()

    def field(self) -> Field | None:
        """What the open form asks now."""
        if self.entry is None:
            return None
        try:
            asked = self.forms[self.entry.form].ask(self, self.entry.values)
        except (LookupError, Refused):  # a form of another job, or of a place that is not there any more
            self.entry = None
            self.say("What was half-entered does not belong here any more. Enter it again.", REJECT)
            return None
        return evolve(asked, draft=self.entry.typed) if asked and self.entry.typed else asked

    def _advance(self) -> None:
        entry = self.entry
        if entry is None or self.field() is not None:
            return
        self.attempt(lambda: self._finish(entry))

    def _finish(self, entry: Entry) -> None:
        try:
            self.forms[entry.form].finish(self, entry.values)
        except (Refused, PinFault, RecordsError):
            if entry.order:
                entry.values.pop(entry.order.pop(), None)
            elif self.entry is entry:
                self.entry = None
            raise
        if self.entry is entry:
            self.entry = None

    # who it is

    def attempt(self, doing: Doing) -> bool:
        """Does something; a refusal is shown, and where nobody can be named for it, it asks who first."""
        try:
            doing()
        except Refused as refusal:
            self.say(f"{refusal.wrong} {plainly(refusal.instead)}".strip(), REJECT)
        except (RecordsError, PinFault) as trouble:
            self.say(str(trouble), REJECT)
        except WhoIsIt as asked:
            self._pending, self._beneath, self._pending_job = doing, self.entry, self.job_number
            known = {"code": asked.code, "weighty": True} if asked.code else {}
            self.entry = Entry("who", {"why": asked.why, **known})
        else:
            return True
        return False

    def _wait_no_more(self) -> None:
        """What waited for a name is given up."""
        self._pending, self._beneath, self._pending_job = None, None, ""

    def who(self) -> None:
        """Asks who is at the tablet."""
        self._wait_no_more()
        self._beneath = self.entry if self.entry and self.entry.form != "who" else None
        self.entry = Entry("who", {"why": "Who is at the tablet?"})

    def signed_on(self, code: str) -> None:
        """Somebody said who they are: what waited for that goes on."""
        self.say(f"{code} is at the tablet.", ACCEPT)
        if self.screen.name == FIRST:
            self.go(HOME)
        else:
            self.known_now()

    def known_now(self) -> None:
        """What waited for a name goes on."""
        pending, beneath, job = self._pending, self._beneath, self._pending_job
        self._wait_no_more()
        self.entry = beneath
        if pending is not None and job == self.job_number:
            self.attempt(pending)
        if self._pending is None:
            self.session.done()  # a PIN counts for what it was asked for, also when that was refused

    # recording

    def act(
        self, build: Callable[[Act], Drafts], says: str = "", *, weighty: str = "", first: Sequence[Draft] = ()
    ) -> list[Record]:
        """Records an act on the job in hand; `weighty` says what the PIN is asked for."""
        by = self.session.who(weighty=weighty)
        drafts = build(self.workshop.act(by, self.job))
        records = self.workshop.record([*first, *drafts], by)
        self.session.done()
        undo = [Undo(record.job, record.ref, record.typ) for record in records if record.job == self.job_number]
        self._recorded(says or "Recorded.", undo)
        return records

    def shop_act(
        self, build: Callable[[ShopAct], Drafts], says: str, *, weighty: str = "", undo: Undo | None = None
    ) -> list[Record]:
        """Records an act on the shop's registers."""
        by = self.session.who(weighty=weighty)
        records = self.workshop.record(build(self.workshop.shop_act(by)), by)
        self.session.done()
        self._recorded(says, [undo] if undo else [])
        return records

    def _recorded(self, says: str, undo: list[Undo]) -> None:
        self._strip, self._undo = Strip(f"Recorded: {says}", ACCEPT, bool(undo)), undo
        self.say(says, ACCEPT)

    def take_back(self) -> None:
        """Takes the last act back, with all its records."""
        says = self._strip.says.removeprefix("Recorded: ")
        take_all_back(self, self._undo)
        self._strip, self._undo = Strip(f"Taken back: {says}", UNSURE), []
        self.say(f"Taken back: {says}", UNSURE)

    def elsewhere(self, number: str) -> str:
        """The other job and place that a number belongs to; empty when no other job here knows it."""
        return self.workshop.belongs_elsewhere(number, self.job_number)

    def took_off(self, part: str, number: str, *, queued: bool) -> None:
        """A part came off: the bench goes on, and its label is queued where it is printed later."""
        if queued:
            self.labels.add(self.job_number, number)
        self.screen.state["last"] = part
        self.screen.state.pop("at", None)
        self.screen.state.pop("condition", None)

    def confirm(self, says: str) -> None:
        """Confirms something recorded that is not taken back from the strip."""
        self._recorded(says, [])

    # bills, labels, the glass

    def bills(self) -> list[Path]:
        """Bills that lie in the bills folder: folders and workbooks."""
        try:
            found = sorted(self.bills_folder.iterdir())
        except OSError:
            return []
        return [one for one in found if (one / "bill.csv").is_file() or one.suffix.lower() == ".xlsx"]

    def keep_labels(self, pdf: bytes, name: str) -> None:
        """Writes a sheet of labels."""
        self.labels.write(pdf, name)
        self.say(f"Labels written: {name}", ACCEPT)

    def measured_glass(self, drawn: float, millimetres: float) -> None:
        """A bar drawn so long measures this much: works out the true dots per inch."""
        if not drawn / 4 <= millimetres <= drawn * 4:
            refuse(f"{millimetres:g} mm is no length of that bar.", "Measure it again.")
        self.settings.measure(self.glass_dots_per_inch * drawn / millimetres)
        self.say("The glass is measured.", ACCEPT)

    # searching and scanning

    def search(self) -> None:
        """Asks what is looked for."""
        self.leave_form()
        self.open("find")

    def find(self, words: str) -> None:
        """Opens what a number or a position names; else lists what the words find."""
        if is_tag(words):
            meaning(self, words)
        elif self.job_number and words in self.job.positions:
            there = came_from(self.job, words)
            if there:
                self.go("part", part=there[0], back=True)
            else:
                self.go("teardown", at=words)
        else:
            self.go("found", words=words, back=True)

    def scan(self, text: str) -> None:
        """A code was read, or a number typed: ours are shown with their next step, others said to be foreign."""
        self.session.touched()
        self.attempt(lambda: meaning(self, text))
        self._changed()

    def scans_into_field(self, number: str) -> bool:
        """True when the open form asks for a number: the scan is the answer."""
        asked = self.field()
        if asked is None or asked.kind != "tag" or self.entry is None:
            return False
        self.entry.values[asked.name] = parse(number).number
        self.entry.order.append(asked.name)
        self.entry.typed = ""
        self._advance()
        return True

    # saying and showing

    def say(self, says: str, mark: str = "") -> None:
        """Says something on the scan line, with a flash, a sound and a vibration of its own kind."""
        self.scan_says = Scan(says, mark, self.session.current, self.scan_says.count + 1)
        for tell in self.feedback:
            tell(mark)

    def view(self) -> View:
        """What is shown now."""
        view = self.screen.view()
        asked, entry = self.field(), self.entry
        view = evolve(
            view,
            tabs=self._tabs(),
            strip=self._strip,
            scan=evolve(self.scan_says, who=self.session.current or "nobody"),
            red=red_list(self.opened.job) if self.job_number else (),
            busy=self.slow.says or self._how_far(),
        )
        if asked is not None and entry is not None:
            says = self.forms[entry.form].says
            quiet = (Step("One back", "one_back"), Step("Leave it", "leave_form"))
            return evolve(
                view, field=asked, main=None, quiet=quiet, title=f"{view.title} · {says}" if says else view.title
            )
        if self.slow.says:
            return evolve(view, main=Step("Stop", "stop_slow"), quiet=())
        back = (Step("Back", "go_back"),) if self.can_go_back else ()
        return evolve(view, quiet=(*back, *view.quiet)[:2])

    def _how_far(self) -> str:
        """How many of the jobs are in the list, while it is made anew."""
        if not self.jobs_left:
            return ""
        return f"Listing the jobs: {self._jobs_all - len(self.jobs_left)} of {self._jobs_all}"

    def stop_listing(self) -> None:
        """Goes on without the jobs that are not listed yet; they are listed at the next start."""
        self.jobs_left, self.listing_stopped = [], True

    def stop_slow(self) -> None:
        """Stops what takes long; nothing of it is kept."""
        self.slow.stop()

    def tick(self) -> None:
        """Called now and then: takes what came of slow work."""
        done = self.slow.take()
        if done is None and not self.slow.says:
            self._look_for_frames()
        if self.jobs_left:
            some, self.jobs_left = self.jobs_left[:AT_ONCE], self.jobs_left[AT_ONCE:]
            self.workshop.lists.catch_up_on(some)
            self._changed()
        if done is not None:
            self.attempt(done)
            self._changed()
        elif self.slow.says:
            for tell in self.listeners:
                tell()

    def _look_for_frames(self) -> None:
        """A picture from a camera or a scanner is read off the screen's thread; every number of ours is a scan."""
        path = self.frames.newest()
        if path is not None:
            self.slow.start("Reading the picture:", lambda report: numbers_in(path, report), self._read_frame)

    def _read_frame(self, numbers: Sequence[str]) -> None:
        if not numbers:
            self.say("No number of ours is in the picture. Hold the camera closer, or type the number.", REJECT)
        for number in numbers:
            self.attempt(lambda number=number: meaning(self, number))  # type: ignore[misc]

    def _tabs(self) -> tuple[Step, ...]:
        names = [name for _, name in TABS]
        if self.choice.size == SIZES[1]:
            names = [one for one in names if one in LIGHT_TABS or (one == "cleaning" and self._has_routes())]
        return tuple(
            Step(says, "go", (name,), chosen=self.screen.name == name or self.screen.name.startswith(f"{name} "))
            for says, name in TABS
            if name in names or name == self.screen.name
        )

    def _has_routes(self) -> bool:
        return bool(self.job_number and self.job.bill.routes)

    def _tell_of_troubles(self) -> None:
        found = [f"{one.message} {one.what_to_do}" for one in self.workshop.home.troubles]
        if self.session.pins.garbled:
            found.append("The PINs of this tablet cannot be read. Everybody chooses a PIN again.")
        if found:
            self.say(found[0], UNSURE)

    # what comes back after a restart

    def _changed(self) -> None:
        self._keep()
        for tell in self.listeners:
            tell()

    @property
    def entry_to_keep(self) -> Entry | None:
        """The half-entered form: the one beneath, while it is asked who it is."""
        return self.entry if self._pending is None else self._beneath

    def _keep(self) -> None:
        if not keep(self, self._drafts) and self.scan_says.mark != REJECT:
            self.say("What is half-entered cannot be kept: the disk is full. Recorded things are safe.", UNSURE)

    def resume(self) -> None:
        """Opens what was open when the app went away; who it is is asked all the same."""
        resume(self, self._drafts, FIRST, HOME)
