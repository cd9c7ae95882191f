"""A stage for the whole app: real window, real touches at places of the glass, no thread, no sleep. What the app itself
measures by a clock goes by the stage's own in tests: a scanner's burst is one however slowly the machine draws."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from time import perf_counter
from typing import Any

from kivy.base import EventLoop
from kivy.core.window import Window
from kivy.input.motionevent import MotionEvent
from kivy.uix.widget import Widget

from teardown_app.ui.app import TeardownApp
from teardown_app.ui.desk import Desk
from teardown_app.ui.parts.plate import Plate
from teardown_app.ui.parts.rows import RowPlate
from tests.patience import until
from tests.ui.profiles import TABLET


class Finger(MotionEvent):
    """One touch of the glass."""

    def __init__(self, number: int, x: float, y: float) -> None:
        super().__init__(
            "finger", number, {"x": x / Window.width, "y": y / Window.height}, is_touch=True, type_id="touch"
        )
        self.profile = ["pos"]

    def depack(self, args: dict[str, float]) -> None:
        """Where it is, as a fraction of the glass."""
        self.sx, self.sy = args["x"], args["y"]
        super().depack(args)


class Stage:
    """The app on a tablet, and a person's hand."""

    def __init__(self, desk: Desk) -> None:
        self.app = TeardownApp(desk)
        self.desk = desk
        self._fingers = 0
        self.now = 0.0

    def open(self) -> None:
        """Opens the window at the tablet's size."""
        if EventLoop.window is None:
            EventLoop.ensure_window()
        Window.size = (TABLET.width, TABLET.height)
        for child in Window.children[:]:
            Window.remove_widget(child)
        self.app._run_prepare()
        self.frames(4)

    def close(self) -> None:
        """Closes the app and leaves the window empty."""
        self.app.stop()
        for child in Window.children[:]:
            Window.remove_widget(child)
        EventLoop.idle()

    def frames(self, count: int = 2) -> None:
        """Lets frames pass."""
        for _ in range(count):
            EventLoop.idle()

    def clock(self) -> float:
        """Seconds of the stage: they pass while it waits."""
        return self.now

    def wait(self, seconds: float) -> None:
        """Lets real time pass, frame by frame, and a frame after it."""
        end = perf_counter() + seconds
        while perf_counter() < end:
            EventLoop.idle()
        self.now += seconds
        self.frames()

    def until(self, so: Callable[[], object]) -> None:
        """Lets frames pass until something is so."""
        until(so, meanwhile=EventLoop.idle)
        self.frames()

    def down(self, x: float, y: float) -> Finger:
        """A finger comes down."""
        self._fingers += 1
        finger = Finger(self._fingers, x, y)
        EventLoop.post_dispatch_input("begin", finger)
        EventLoop.idle()
        return finger

    def move(self, finger: Finger, x: float, y: float) -> None:
        """The finger moves."""
        finger.move({"x": x / Window.width, "y": y / Window.height})
        EventLoop.post_dispatch_input("update", finger)
        EventLoop.idle()

    def up(self, finger: Finger) -> None:
        """The finger is lifted."""
        EventLoop.post_dispatch_input("end", finger)
        self.frames()

    def touch_at(self, x: float, y: float) -> None:
        """Touches a place of the glass."""
        self.up(self.down(x, y))

    def touch(self, widget: Widget) -> None:
        """Touches the middle of a widget, wherever it is now."""
        Plate.last_touch = ("", -1.0)  # a test is quicker than a person: each touch counts
        self.touch_at(*widget.to_window(*widget.center))

    def say(self, words: str) -> None:
        """Touches the plate that begins with these words."""
        self.touch(self.plate(words))

    def plate(self, words: str) -> Plate:
        """The plate that begins with these words, in sight."""
        found = [one for one in self.widgets(Plate) if one.text.startswith(words) and one.opacity and not one.disabled]
        assert found, f"no plate {words!r}; there are {[one.text for one in self.widgets(Plate) if one.opacity]}"
        exact = [one for one in found if one.text == words]
        return (exact or found)[0]

    def row(self, words: str) -> None:
        """Touches the row whose text has these words."""
        found = [one for one in self.widgets(RowPlate) if words in one.text]
        assert found, f"no row {words!r}; there are {[one.text for one in self.widgets(RowPlate)]}"
        self.touch(found[0])

    def keys(self, text: str) -> None:
        """Types on the pad, key by key, then OK."""
        for sign in text:
            self.touch(self.plate_on_pad("space" if sign == " " else sign))
        self.touch(self.plate_on_pad("OK"))

    def plate_on_pad(self, words: str) -> Plate:
        """A key of the pad."""
        return next(one for one in self.app.bench.pad.walk() if isinstance(one, Plate) and one.text == words)

    def wedge(self, text: str, *, enter: bool = True) -> None:
        """A burst from a keyboard-wedge scanner, after a second without any."""
        self.now += 1.0
        for sign in text:
            Window.dispatch("on_textinput", sign)
        if enter:
            Window.dispatch("on_key_down", 13, 40, None, [])
        self.frames()

    def widgets(self, kind: type[Any]) -> list[Any]:
        """All widgets of a kind on the glass."""
        return [one for child in Window.children for one in child.walk() if isinstance(one, kind)]

    def picture(self, path: Path) -> Path:
        """Takes a picture of the glass."""
        self.frames(4)
        return Path(Window.screenshot(str(path)))


def corners(widget: Widget) -> tuple[float, float, float, float]:
    """Left, low, right, top of a widget on the glass."""
    left, low = widget.to_window(widget.x, widget.y)
    return left, low, left + widget.width, low + widget.height


def on_glass(widgets: list[Any]) -> Iterator[Any]:
    """Those that can be seen."""
    yield from (one for one in widgets if one.opacity and one.width > 1 and one.height > 1)
