"""Children of the touch benchmark: each opens a real window, measures one thing and says what it found.

The window is opened as the tests of the screens do it: fixed metrics, no input devices, nothing of the
person's own settings. A child says `shown` as soon as its first frame is on the glass, later one line of JSON.
"""

from __future__ import annotations

import gc
import json
import os
import subprocess
import sys
import traceback
from collections.abc import Callable
from pathlib import Path
from statistics import median
from time import perf_counter
from typing import Any

from tests.ui.profiles import before_kivy

PROJECT = Path(__file__).parents[2]
SHOWN = "shown"
PERSON, PIN = "OF", "314159"
ROWS = 2_000
SCANS, CHANGES = 1_000, 200
AWAY = ("jobs", "assembly", "points", "office")
"""Screens gone to and come back from while scanning: two changes each time."""


def there_is_glass() -> bool:
    """True where a window can be opened."""
    return sys.platform != "linux" or bool(os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY"))


def run_child(what: str, *args: object) -> tuple[float, dict[str, Any]]:
    """Seconds from starting a child to its first frame, and what it found."""
    start = perf_counter()
    command = [sys.executable, "-m", "tests.benchmarks._glass", what, *map(str, args)]
    with subprocess.Popen(command, cwd=PROJECT, stdout=subprocess.PIPE, text=True) as child:
        assert child.stdout is not None
        first = child.stdout.readline().strip()
        took = perf_counter() - start
        rest = child.stdout.read()
    if first != SHOWN or child.returncode:
        raise SystemExit(f"the child {what} ended with code {child.returncode}: {first} {rest}")
    return took, json.loads(rest)


# in the child


def get_ready() -> None:
    """What has to be set before Kivy is imported; frames are not held back to sixty a second."""
    before_kivy()
    from kivy.config import Config

    Config.set("graphics", "maxfps", "0")


def frames(count: int = 1) -> None:
    """Lets frames pass and waits until they are drawn."""
    from kivy.base import EventLoop
    from kivy.graphics.opengl import glFinish

    for _ in range(count):
        EventLoop.idle()
    glFinish()


def put_up(app: Any) -> None:
    """Opens the window on an app and draws its first frames."""
    from kivy.core.window import Window

    drawn: list[bool] = []
    Window.bind(on_flip=lambda _: drawn.append(True))
    app._run_prepare()
    frames(2)
    assert drawn, "nothing was drawn"
    print(SHOWN, flush=True)


def bare(_folder: str = "") -> dict[str, Any]:
    """A window with one label and nothing else."""
    get_ready()
    from kivy.app import App
    from kivy.uix.label import Label

    class Bare(App):  # type: ignore[misc]
        def build(self) -> Label:
            return Label(text="Teardown")

    put_up(Bare())
    return {}


def jobs(folder: str) -> dict[str, Any]:
    """The app as a person starts it, on the jobs screen it was left on; how long each stage took."""
    start = perf_counter()
    from teardown_app.ui.desk import Desk
    from teardown_app.ui.table import FORMS, SCREENS
    from teardown_app.workshop import assets_folder, open_workshop

    marks = [("imports", perf_counter() - start)]

    def stage(name: str) -> None:
        marks.append((name, perf_counter() - start - sum(took for _, took in marks)))

    workshop = open_workshop(Path(folder), assets_folder(), writes=True)
    desk = Desk(workshop, SCREENS, FORMS)
    desk.resume()
    stage("shop and desk")
    get_ready()
    from teardown_app.ui.app import TeardownApp

    stage("Kivy and its window")
    workshop.lists.jobs()
    stage("list of jobs")
    app = TeardownApp(desk)
    put_up(app)
    stage("screen and two frames")
    found = {"stages": dict(marks), "rows": len(app.bench.rows.data), "screen": desk.screen.name}
    desk.close()
    return found


def rows(_folder: str = "") -> dict[str, Any]:
    """Milliseconds for one changed row of many, without and with its frame, and for all rows anew."""
    get_ready()
    from kivy.app import App

    from teardown_app.ui.parts.rows import Rows, as_data
    from teardown_app.ui.view import ACCEPT, EMPTY, Row

    shown = [Row(str(n), f"10.{n}  plate {n}", mark=EMPTY, depth=1, trail=str(n)) for n in range(ROWS)]

    class Listed(App):  # type: ignore[misc]
        def build(self) -> Rows:
            self.list = Rows()
            self.list.show(shown)
            return self.list

    app = Listed()
    put_up(app)
    frames(4)
    in_sight = next(n for n in range(ROWS) if app.list.view_adapter.get_visible_view(n))

    def changed(n: int, mark: str) -> tuple[float, float]:
        shown[n] = Row(str(n), f"10.{n}  plate {n}", mark=mark, depth=1, trail=f"{mark} {n}")
        return _both(lambda: app.list.show(shown))

    def anew(mark: str) -> tuple[float, float]:
        data = [as_data(row) for row in shown]
        data[in_sight]["mark"] = mark
        list.__setitem__(app.list.data, slice(None), data)
        return _both(app.list.refresh_from_data)

    found: dict[str, Any] = {}
    for name, act in (
        ("in sight", lambda mark: changed(in_sight + 2, mark)),
        ("out of sight", lambda mark: changed(ROWS // 2, mark)),
        ("all anew", anew),
    ):
        times = [act(ACCEPT if n % 2 else EMPTY) for n in range(41)][1:]
        found[name] = [median(one[0] for one in times) * 1e3, median(one[1] for one in times) * 1e3]
    plate = app.list.view_adapter.get_visible_view(in_sight + 2)
    assert plate.trail == f"{EMPTY} {in_sight + 2}", plate.trail
    return found


def _both(act: Callable[[], object]) -> tuple[float, float]:
    """Seconds of an act with the laying out that it asks for, and of both with the frame that shows it."""
    from kivy.clock import Clock

    start = perf_counter()
    act()
    Clock.tick()
    Clock.tick_draw()
    acted = perf_counter()
    frames()
    return acted - start, perf_counter() - start


class Shares:
    """Seconds spent in named methods since last asked."""

    def __init__(self) -> None:
        self._spent: dict[str, float] = {}

    def watch(self, owner: Any, method: str, name: str) -> None:
        """Counts what a method of one object takes."""
        real = getattr(owner, method)
        self._spent[name] = 0.0

        def timed(*args: Any, **named: Any) -> Any:
            start = perf_counter()
            try:
                return real(*args, **named)
            finally:
                self._spent[name] += perf_counter() - start

        setattr(owner, method, timed)

    def take(self) -> dict[str, float]:
        """What was spent, and counts anew."""
        spent = dict(self._spent)
        self._spent = dict.fromkeys(self._spent, 0.0)
        return spent


class ScanningBench:
    """The teardown bench on a large job, with a roll of free labels beside it."""

    def __init__(self, folder: str) -> None:
        get_ready()
        from teardown_app.ui.app import TeardownApp
        from teardown_app.ui.desk import Desk
        from teardown_app.ui.table import FORMS, SCREENS
        from teardown_app.workshop import assets_folder, open_workshop

        self.workshop = open_workshop(Path(folder), assets_folder(), writes=True)
        numbers, draft = self.workshop.new_numbers("P", SCANS)
        self.workshop.record([draft], PERSON)
        self.roll = list(numbers)
        desk = self.desk = Desk(self.workshop, SCREENS, FORMS)
        desk.session.pins.enrol(PERSON, PIN)
        desk.session.sign_on(PERSON, PIN)
        desk.job_number = self.workshop.home.jobs()[0]
        desk.go("teardown")
        self.app = TeardownApp(desk)
        put_up(self.app)
        frames(4)
        self._bare = os.open(Path(folder) / "bare", os.O_WRONLY | os.O_CREAT | os.O_APPEND, 0o600)

    def watch(self, shares: Shares) -> None:
        """Watches what a scan goes through."""
        shares.watch(self.workshop.home.disk, "append_for_good", "append and sync")
        shares.watch(self.workshop, "record", "recording")
        shares.watch(self.desk, "elsewhere", "asking other jobs")
        shares.watch(self.desk, "_keep", "keeping the draft")
        shares.watch(self.desk, "view", "view")
        shares.watch(self.app.bench, "show", "showing")

    def floor(self) -> float:
        """Seconds of a bare append and sync of as many bytes as the last record's."""
        record = next(reversed(self.desk.job.records.values()))
        line = json.dumps(record._asdict()).encode() + b"\n"
        start = perf_counter()
        os.write(self._bare, line)
        os.fsync(self._bare)
        return perf_counter() - start

    def until_a_part(self) -> None:
        """Counts hardware until a part is in hand, past the glass: that is not measured."""
        from teardown_app.workflows.count import count

        desk = self.desk
        while (position := desk.screen._position()).line.kind == "hardware":  # type: ignore[attr-defined]
            act = self.workshop.act(PERSON, desk.job)
            self.workshop.record(count(act, [position.key], position.count), PERSON)

    def scan(self) -> tuple[float, float]:
        """Scans the next label; seconds until it stands on the glass as recorded, and of them the frame."""
        number = self.roll.pop(0)
        start = perf_counter()
        self.desk.scan(number)
        done = perf_counter()
        frames()
        end = perf_counter()
        says = self.app.bench.ids.band.strip_says
        assert says.startswith("Recorded:") and number in says, (number, says, self.desk.view().scan.says)
        return end - start, end - done

    def away_and_back(self, screen: str) -> float:
        """Two screen changes; seconds until the first of the two is on the glass."""
        from teardown_app.ui.view import Step

        took = _both(lambda: self.desk.touch(Step(screen, "go", (screen,))))[1]
        assert self.desk.screen.name == screen
        _both(lambda: self.desk.touch(Step("Teardown", "go", ("teardown",))))
        return took


def scans(folder: str) -> dict[str, Any]:
    """A thousand scans with two hundred screen changes among them: times, shares, and what memory grows by."""
    bench, shares = ScanningBench(folder), Shares()
    bench.watch(shares)
    took: list[dict[str, float]] = []
    changes: dict[str, list[float]] = {name: [] for name in AWAY}
    memory = []
    for n in range(SCANS):
        bench.until_a_part()
        shares.take()
        whole, frame = bench.scan()
        took.append({**shares.take(), "frame": frame, "whole": whole, "floor": bench.floor()})
        if n % (2 * SCANS // CHANGES) == 0:
            name = AWAY[n // (2 * SCANS // CHANGES) % len(AWAY)]
            changes[name].append(bench.away_and_back(name))
        if n + 1 in (SCANS // 10, SCANS // 2, SCANS):
            memory.append(_memory(n + 1, len(bench.desk.job.records)))
    places = len(bench.desk.job.positions)
    bench.desk.close()
    return {"scans": took, "changes": changes, "memory": memory, "places": places}


def _memory(scans: int, records: int) -> dict[str, int]:
    """What is held now: kilobytes of the process, widgets, objects, who is told of a new
    look (widgets that are gone too); records, which have to stay."""
    from kivy.uix.widget import Widget

    from teardown_app.ui.look.theme import theme

    gc.collect()
    pages = int(Path("/proc/self/statm").read_text().split()[1]) if sys.platform == "linux" else 0
    held = gc.get_objects()
    widgets = sum(isinstance(one, Widget) for one in held if type(one).__module__ != "weakref")
    kilobytes = pages * os.sysconf("SC_PAGE_SIZE") // 1024 if pages else 0
    told = len(theme.get_property_observers("name"))
    found = {"scans": scans, "records": records, "kilobytes": kilobytes, "widgets": widgets}
    return {**found, "objects": len(held), "told": told}


def _say_fault(kind: type[BaseException], fault: BaseException, trace: Any) -> None:
    """Kivy keeps stderr for itself; a fault is said on the real one."""
    traceback.print_exception(kind, fault, trace, file=sys.__stderr__)


def camera(_folder: str = "") -> dict[str, Any]:
    """Seconds that the screen's thread gives to each new picture of a camera, and to one it has shown already;
    meanwhile the other two threads take pictures and read labels as they do."""
    get_ready()
    import tempfile

    from kivy.app import App

    from teardown_app.ui.black_box import BlackBox
    from teardown_app.ui.camera import Camera
    from teardown_app.ui.captures import PictureCapture
    from teardown_app.ui.label_reader import LabelReader
    from teardown_app.ui.looking import Looking
    from teardown_app.ui.parts.live import LivePane
    from teardown_app.ui.view import Live
    from tests.ui.bench_pictures import put_picture

    folder = Path(tempfile.mkdtemp(prefix="teardown-bench-"))
    path = put_picture(folder, "bench", [f"MAKER {n}" for n in range(8)])

    class Quick(PictureCapture):
        pause_s = 1 / 30

    eye = Camera(lambda _side: Quick(path))
    looking = Looking(eye, LabelReader(BlackBox(folder)), folder / "trays")

    class Eyed(App):  # type: ignore[misc]
        def build(self) -> LivePane:
            self.pane = LivePane()
            return self.pane

    app = Eyed()
    put_up(app)
    app.pane.show(Live("", pictured=True))
    eye.start("back")
    looking.start()
    fresh, again, shown, read = [], [], 0, set()
    until = perf_counter() + 60
    while len(fresh) < 200 and perf_counter() < until:
        frame, seen = eye.newest(), looking.newest
        start = perf_counter()
        app.pane.ids.eye.show(frame, seen)
        took = perf_counter() - start
        if frame is not None:
            (fresh if frame.number != shown else again).append(took)
            shown = frame.number
            read.add(seen.number if seen else 0)
        frames()
    size = eye.newest().size
    eye.stop(), looking.stop()
    return {"fresh": fresh, "again": again, "size": size, "read": len(read), "labels": len(seen.labels)}


CHILDREN = {"camera": camera, "bare": bare, "jobs": jobs, "rows": rows, "scans": scans}

if __name__ == "__main__":
    sys.excepthook = _say_fault
    print(json.dumps(CHILDREN[sys.argv[1]](*sys.argv[2:])), flush=True)
    sys.__stdout__.flush()  # type: ignore[union-attr]
    os._exit(0)  # what Kivy does at the end of the program is not measured
