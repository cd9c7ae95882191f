"""The desk: one tablet with its workshop, who is signed on, the open screen, and what is half-entered.

Everything a person does comes through here: `touch` a step, `row` or `flag`, `entered` a field, `scan`
a text. Everything recorded goes out through `recording`, everything asked through `asking`. After each of
these `listeners` are told, and `view` gives what to show. Nothing here knows a widget.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

from attrs import evolve

from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.record import Draft, Record
from teardown_app.domain.parts.parts import came_from
from teardown_app.domain.points.point import Point
from teardown_app.records.own_notes import OwnNotes
from teardown_app.records.pins import Pins
from teardown_app.ui.asking import Asking
from teardown_app.ui.form import Form, Values
from teardown_app.ui.kept import keep, resume
from teardown_app.ui.keyed import keyed
from teardown_app.ui.known_here import perhaps
from teardown_app.ui.label_queue import LabelQueue
from teardown_app.ui.listing import Listing
from teardown_app.ui.news import News
from teardown_app.ui.recording import Recording, Undo
from teardown_app.ui.red_list import red_list, red_place
from teardown_app.ui.scanning import is_tag, meaning
from teardown_app.ui.screen import Screen
from teardown_app.ui.session import Session
from teardown_app.ui.settings import BENCHES, Choice, Settings
from teardown_app.ui.slow import Slow
from teardown_app.ui.tree import TALLIES, Tally
from teardown_app.ui.view import REJECT, UNSURE, Scan, Step, View
from teardown_app.ui.watching import Watching
from teardown_app.workflows.act import Act, Drafts, ShopAct, refuse
from teardown_app.workshop import OpenJob, Workshop

FIRST, HOME = "sign on", "jobs"
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
INVITES = "Scan a label, or touch here to search"


class Desk:
    """One tablet."""

    def __init__(self, workshop: Workshop, screens: dict[str, type[Screen]], forms: dict[str, Form]) -> None:
        home = workshop.home
        self.workshop, self.screens = workshop, screens
        self.private = OwnNotes(home.disk, home.path / "private")
        self._drafts = OwnNotes(home.disk, home.path / "drafts")
        self.settings = Settings(self.private.read("settings"), lambda note: self.private.keep("settings", note))
        self.session = Session(Pins(home.disk, home.path))
        self.asking, self.recording = Asking(self, forms), Recording(self)
        self.news, self.labels = News(self.private), LabelQueue(workshop, self.private)
        self.slow, self.listing = Slow(), Listing(workshop.lists)
        self.watching = Watching(self, home.path)
        self.listeners: list[Callable[[], None]] = []
        self.feedback: list[Callable[[str], None]] = []
        self.glass_dots_per_inch = 160.0
        self._job_number = ""
        self._scan = Scan()
        self._back: list[tuple[str, str, Values]] = []
        self._tallies: dict[tuple[str, str], Tally] = {}
        self._points: list[Point] | None = None
        self.screen: Screen = screens[FIRST](self)
        workshop.listeners.append(self._took)
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
            self.recording.forget()
            self.asking.wait_no_more()

    @property
    def opened(self) -> OpenJob:
        """The job in hand with its points."""
        return self.workshop.job(self.job_number)

    @property
    def job(self) -> Job:
        """The job in hand."""
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

    def stands(self, key: str) -> bool | None:
        """True where a place is as it has to be before the tool runs, None where nothing is asked of it."""
        return self.opened.live.stands(key)

    def tally(self, name: str) -> Tally:
        """Counts per assembly of the job in hand, kept current: places that are `off`, or that `stand`."""
        key = (self.job_number, name)
        opened = self.opened
        if key not in self._tallies:
            done = TALLIES[name]
            self._tallies[key] = Tally(opened.job, lambda place: done(opened, place))
        tally = self._tallies[key]
        tally.take(set())
        return tally

    def _took(self, record: Record, opened: OpenJob | None) -> None:
        self._points = None
        for (number, _), tally in self._tallies.items():
            if opened is not None and number == record.job:
                tally.take(opened.looked_at)

    @property
    def look(self) -> Act:
        """For asking, not for recording."""
        return self.workshop.act(self.session.current, self.job)

    @property
    def choice(self) -> Choice:
        """What the person in front of the glass chose."""
        return self.settings.of(self.session.current)

    def elsewhere(self, number: str) -> str:
        """The other job and place that a number belongs to; empty when no other job here knows it."""
        return self.workshop.belongs_elsewhere(number, self.job_number)

    # screens

    def go(self, name: str, *, back: bool = False, job: str = "", **state: Any) -> None:
        """Opens a screen; with `back` it offers the way to the one before."""
        before = (self.job_number, self.screen.name, self.screen.state)
        self.watching.forget_questions()
        self.job_number = job or self.job_number
        self._points = None
        if self.screens[name].of_job and not self.job_number:
            self.say("Choose a job first.", REJECT)
            name = HOME
        self._back = [*self._back[-8:], before] if back else []
        self.asking.close()
        self.screen = self.screens[name](self, state)

    def go_back(self) -> None:
        """Opens the screen from which this one was opened."""
        self.watching.forget_questions()
        here = self.screen.state
        before = (self.job_number, str(here.get("came", HOME)), here.get("before", {}))
        job, name, state = self._back.pop() if self._back else before
        self.asking.close()
        self.job_number = job
        self.screen = self.screens[name](self, state)

    # what a person does

    def touch(self, step: Step) -> None:
        """A step was touched; its act is a method of the screen, of what watches the camera, else of the desk."""
        if not step.ready:
            self.did(lambda: self.say(step.why_not, REJECT))
            return
        if step.act == "go":
            self._scan = Scan(count=self._scan.count)  # what was said belongs to the screen before
            self.watching.off()
        owner = next((one for one in (self.screen, self.watching) if hasattr(type(one), step.act)), self)
        self.did(lambda: getattr(owner, step.act)(*step.args))

    def row(self, act: str, key: str) -> None:
        """A row was touched."""
        self.did(lambda: getattr(self.screen, act)(key))

    def flag(self, key: str) -> None:
        """A flag on the drawing was touched."""
        self.did(lambda: self.screen.flag(key))

    def band(self, number: int) -> None:
        """A band of the picture beside a question was touched."""
        self.did(lambda: self.asking.ask_again(number))

    def mark_photo(self, x: float, y: float, from_x: float, from_y: float) -> None:
        """A ring or an arrow was set on the photograph."""
        self.did(lambda: self.screen.ring(x, y, from_x, from_y))

    def entered(self, name: str, text: str) -> None:
        """A field was entered."""
        self.did(lambda: self.asking.entered(name, text))

    def scan(self, text: str) -> None:
        """A code was read, or a number typed: ours are shown with their next step, others said to be foreign."""
        self.did(lambda: self.watching.read(text))

    def keyed(self, text: str) -> None:
        """A scanner typed: as a scan, and through the keyboard that it is set to."""
        self.did(lambda: keyed(self, text))

    def typed(self, text: str) -> None:
        """Something stands on the pad that is not entered yet."""
        self.session.touched()
        if self.asking.entry is not None:
            tells = self.asking.typed(text)
            self._keep()
            if tells:
                self._tell()

    def did(self, doing: Callable[[], object]) -> None:
        """Does what a person asked for, and shows what came of it."""
        self.session.touched()
        self.asking.attempt(doing)
        self._changed()

    # acts of steps that stand on every screen

    def one_back(self) -> None:
        """The field before is asked again."""
        self.asking.one_back()

    def leave_form(self) -> None:
        """The open form is left."""
        self.asking.leave()

    def who(self) -> None:
        """Asks who is at the tablet."""
        self.asking.who()

    def take_back(self) -> None:
        """Takes the last act back."""
        self.recording.take_back()

    def stop_listing(self) -> None:
        """Goes on without the jobs that are not listed yet."""
        self.listing.stop()

    def stop_slow(self) -> None:
        """Stops what takes long; nothing of it is kept."""
        self.slow.stop()

    def see_red(self) -> None:
        """Goes to what is in the tool for a time."""
        place = red_place(self.opened.live)
        if place:
            self.go("assembly", at=place, list=True)
        else:
            self.go("points")

    def open_form(self, form: str, *given: str) -> None:
        """Opens a form with what its plate knows: names and values by turns."""
        self.screen.state.pop("said", None)
        self.open(form, **dict(zip(given[::2], given[1::2], strict=True)))

    def search(self) -> None:
        """Asks what is looked for."""
        self.open("find")

    # what screens and forms ask of it

    def open(self, form: str, **values: Any) -> None:
        """Opens a form with what is known already."""
        self.asking.open(form, **values)

    def act(
        self, build: Callable[[Act], Drafts], says: str, *, weighty: str = "", first: Sequence[Draft] = ()
    ) -> list[Record]:
        """Records an act on the job in hand; `weighty` says what the PIN is asked for."""
        return self.recording.act(build, says, weighty=weighty, first=first)

    def shop_act(self, build: Callable[[ShopAct], Drafts], says: str, *, undo: Undo | None = None) -> None:
        """Records an act on the shop's registers."""
        self.recording.shop_act(build, says, undo=undo)

    def signed_on(self, code: str) -> None:
        """Somebody said who they are."""
        if self.screen.name == FIRST:
            self.go(HOME)
        self.asking.known_now(code)

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
            looked = perhaps(self, words)
            if looked is not None:
                self.say(looked.says, UNSURE)

    def bills(self) -> list[Path]:
        """Bills that lie in the folder `bills`: folders and workbooks."""
        try:
            found = sorted((self.workshop.home.path / "bills").iterdir())
        except OSError:
            return []
        return [one for one in found if (one / "bill.csv").is_file() or one.suffix.lower() == ".xlsx"]

    def traces(self) -> list[Path]:
        """Traces of stylus instruments that lie in the folder `traces`, the newest first."""
        try:
            found = [one for one in (self.workshop.home.path / "traces").iterdir() if one.is_file()]
        except OSError:
            return []
        return sorted(found, key=lambda one: one.stat().st_mtime, reverse=True)

    def measured_glass(self, drawn: float, millimetres: float) -> None:
        """A bar drawn so long measures this much: works out the true dots per inch."""
        if not drawn / 4 <= millimetres <= drawn * 4:
            refuse(f"{millimetres:g} mm is no length of that bar.", "Measure it again.")
        self.settings.measure(self.glass_dots_per_inch * drawn / millimetres)

    # saying and showing

    def say(self, says: str, mark: str = "") -> None:
        """Says something on the scan line, with a flash and a sound of its own kind."""
        self._scan = Scan(says, mark, count=self._scan.count + 1)
        for tell in self.feedback:
            tell(mark)

    @property
    def said(self) -> Scan:
        """What was said last on the scan line."""
        return self._scan

    def say_with(self, says: str, doing: Callable[[], object]) -> None:
        """Does something, and puts these words before what is said of it."""
        count = self._scan.count
        self.asking.attempt(doing)
        if self._scan.count == count:
            self.say(says, UNSURE)
        else:
            self._scan = evolve(self._scan, says=f"{says} {self._scan.says}")

    def view(self) -> View:
        """What is shown now."""
        view = self.screen.view()
        asked = self.asking.field()
        view = evolve(
            view,
            screen=self.screen.name,
            tabs=self._tabs(),
            strip=self.recording.strip,
            scan=evolve(self._scan, who=self.session.current or "nobody", invites=INVITES),
            red=red_list(self.opened.live) if self.job_number else "",
            busy=self.slow.says or self.listing.says,
            live=self.watching.live(),
            camera=self.watching.plate(),
        )
        if asked is not None:
            title = " · ".join(said for said in (view.title, self.asking.says) if said)
            before = (Step("Question before", "one_back"),) if self.asking.can_go_back else ()
            quiet = (*before, Step("Cancel", "leave_form"))
            strip = evolve(view.strip, step=None)
            picture = self.asking.picture()
            return evolve(view, field=asked, figure=picture, main=None, quiet=quiet, title=title, tabs=(), strip=strip)
        if self.slow.says:
            return evolve(view, main=Step("Stop", "stop_slow"), quiet=())
        back = (Step("Back", "go_back"),) if self._back or "came" in self.screen.state else ()
        return evolve(view, quiet=(*back, *view.quiet)[:2])

    def _tabs(self) -> tuple[Step, ...]:
        """The benches; none before somebody has signed on."""
        here = self.screen.name
        if here == FIRST:
            return ()
        chosen = self.screen.tab or here
        names = [name for _, name in TABS]
        if self.choice.benches == BENCHES[1]:
            has_routes = bool(self.job_number and self.job.bill.routes)
            names = [one for one in names if one in (*LIGHT_TABS, here) or (one == "cleaning" and has_routes)]
        return tuple(Step(says, "go", (name,), chosen=name == chosen) for says, name in TABS if name in names)

    def _tell_of_troubles(self) -> None:
        found = [f"{one.message} {one.what_to_do}" for one in self.workshop.home.troubles]
        if self.session.pins.garbled:
            found.append("The PINs of this tablet cannot be read. Everybody chooses a PIN again.")
        if found:
            self.say(found[0], UNSURE)

    # what goes on by itself

    def tick(self) -> None:
        """Called now and then: looks for pictures, lists jobs, takes what came of slow work and of the camera."""
        if self.watching.tick():
            self._tell()
        done = self.slow.take()
        if done is not None:
            self.asking.attempt(done)
            self._changed()
        elif self.slow.says or self.listing.go_on():
            self._tell()
        else:
            self.watching.look_for_pictures()

    # what comes back after a restart

    def resume(self) -> None:
        """Opens what was open when the app went away; who it is is asked all the same."""
        resume(self, self._drafts, FIRST, HOME)

    def close(self) -> None:
        """Keeps what is half-entered and lets the next program write."""
        self._keep()
        self.watching.close()
        self.slow.close()
        self.workshop.close()

    def _changed(self) -> None:
        self._keep()
        self._tell()

    def _tell(self) -> None:
        for tell in self.listeners:
            tell()

    def _keep(self) -> None:
        if not keep(self, self._drafts) and self._scan.mark != REJECT:
            self.say("What is half-entered cannot be kept: the disk is full. Recorded things are safe.", UNSURE)
