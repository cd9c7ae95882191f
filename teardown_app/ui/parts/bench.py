"""The bench: the one layout of all screens. Scan line on top, what is here, the thing in hand, the band.

Given a view it shows it; it tells what was touched (`on_step`, `on_row`, `on_flag`) and what was entered.
Landscape sets the halves side by side, portrait stacks them.
"""

from __future__ import annotations

from typing import Any

from kivy.clock import Clock
from kivy.properties import BooleanProperty, ColorProperty, StringProperty
from kivy.uix.behaviors import ButtonBehavior
from kivy.uix.boxlayout import BoxLayout
from kivy.uix.relativelayout import RelativeLayout
from kivy.uix.widget import Widget

from teardown_app.ui.look.theme import theme
from teardown_app.ui.parts.card import CardPane, keep_as_many
from teardown_app.ui.parts.drawing import DrawingPane
from teardown_app.ui.parts.figure import FigurePane
from teardown_app.ui.parts.live import LivePane
from teardown_app.ui.parts.looks import load_looks
from teardown_app.ui.parts.pad import Pad
from teardown_app.ui.parts.photo import PhotoPane
from teardown_app.ui.parts.plate import Plate
from teardown_app.ui.parts.rows import Rows
from teardown_app.ui.parts.tray import TrayPane
from teardown_app.ui.view import ACCEPT, REJECT, TAG, UNSURE, Scan, Step, Strip, View

__all__ = ["Bench", "CardPane", "DrawingPane", "Pad", "PhotoPane", "Plate", "Rows"]

FLASH_S = 0.35


class ScanLine(BoxLayout):
    """Always listening: what was read last, how, and who is signed on. Touched, it opens the tag pad."""

    said = StringProperty("")
    mark = StringProperty("")
    invites = StringProperty("")
    edge = ColorProperty((0, 0, 0, 0))
    _count = 0

    def show(self, scan: Scan) -> None:
        """Says what was taken or refused, and lets its edge flash when that is new."""
        self.said, self.mark, self.invites = scan.says, scan.mark, scan.invites
        if not scan.says:
            self._calm(0)
        if scan.count != self._count:
            self._count = scan.count
            self.edge = {ACCEPT: theme.safe, REJECT: theme.stop, UNSURE: theme.caution}.get(scan.mark, theme.accent)
            Clock.unschedule(self._calm)
            Clock.schedule_once(self._calm, FLASH_S)

    def _calm(self, _elapsed: float) -> None:
        self.edge = (0, 0, 0, 0)

    def forget(self) -> None:
        """Leaves nothing scheduled."""
        Clock.unschedule(self._calm)


class ScanTouch(ButtonBehavior, Widget):
    """The whole scan line can be touched."""


class RedLine(ButtonBehavior, Widget):
    """What is in the tool for a time; touched, it leads there."""


class ListPane(RelativeLayout):
    """The list, and in its place why it is empty."""


class Band(BoxLayout):
    """What to do next, at most two quieter things, and the strip that confirms the last record."""

    strip_says = StringProperty("")
    strip_mark = StringProperty("")
    can_take_back = BooleanProperty(False)
    wide = BooleanProperty(True)

    __events__ = ("on_step",)

    def __init__(self, **kwargs: Any) -> None:
        self._main = False
        super().__init__(**kwargs)

    def on_step(self, step: Step) -> None:
        """A plate of the band was touched."""

    def show(self, main: Step | None, quiet: tuple[Step, ...], strip: Strip) -> None:
        """Shows the steps and the strip."""
        steps = [*quiet[:2], main] if main else [*quiet[:2]]
        box = self.ids.steps
        if len(box.children) != len(steps) or self._main != bool(main):
            self._main = bool(main)
            box.clear_widgets()
            for _ in steps:
                plate = Plate()
                plate.bind(on_step=lambda _, step: self.dispatch("on_step", step))
                box.add_widget(plate)
        for plate, step in zip(box.children[::-1], steps, strict=True):
            plate.show(step)
            plate.filled = step is main
            plate.type_size = theme.head if step is main else 0
            plate.size_hint_x = 1.0 if step is main else 0.36 if main else 0.5
        self.strip_says, self.strip_mark = strip.says, strip.mark
        self.can_take_back = strip.step is not None
        self.ids.back.show(strip.step)


class Bench(BoxLayout):
    """Shows a view."""

    title = StringProperty("")
    red = StringProperty("")
    caution = StringProperty("")
    busy = StringProperty("")
    wide = BooleanProperty(True)
    has_tabs = BooleanProperty(False)

    __events__ = ("on_step", "on_row", "on_flag", "on_band", "on_entered", "on_draft", "on_ring", "on_scan_touched")

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self._view: View | None = None
        self._tabs: tuple[Step, ...] = ()
        self._shown = ""
        self._screen = ""

    def on_kv_post(self, _base: Any) -> None:
        """Binds once the looks are there."""
        self.card, self.pad, self.drawing, self.photo = CardPane(), Pad(), DrawingPane(), PhotoPane()
        self.figure, self.tray, self.live = FigurePane(), TrayPane(), LivePane()
        self.here, self.hand = self.ids.here.__self__, self.ids.hand.__self__
        self.list = ListPane()
        self.rows = self.list.ids.rows
        self.ids.band.bind(on_step=self._stepped)
        self.ids.band.ids.back.bind(on_step=self._stepped)
        self.card.bind(on_step=self._stepped)
        self.rows.bind(on_row=lambda _, act, key: self.dispatch("on_row", act, key))
        self.drawing.bind(on_flag=lambda _, key: self.dispatch("on_flag", key))
        self.figure.bind(on_band=lambda _, number: self.dispatch("on_band", number))
        self.pad.bind(on_entered=lambda _, name, text: self.dispatch("on_entered", name, text))
        self.pad.bind(on_draft=lambda _, name, text: self.dispatch("on_draft", name, text))
        self.photo.bind(on_ring=lambda _, *mark: self.dispatch("on_ring", *mark))
        self.ids.who.bind(on_step=self._stepped)
        self.ids.camera.bind(on_step=self._stepped)
        self.live.bind(on_step=self._stepped)
        self.tray.bind(on_flag=lambda _, key: self.dispatch("on_flag", key))
        self.ids.red.bind(on_release=lambda _: self.dispatch("on_step", Step("In for a time", "see_red")))
        self.pad.bind(only_choices=lambda *_: self._share(self._view) if self._view else None)
        self.ids.scan_touch.bind(on_release=lambda _: self.dispatch("on_scan_touched"))

    def on_size(self, *_: object) -> None:
        """Turns the halves with the glass."""
        self.wide = self.width > self.height
        if self.ids:
            self.live.tall = self.wide
            self._size_tabs()
        if self._view is not None:
            self._share(self._view)

    def forget(self) -> None:
        """Leaves nothing scheduled."""
        self.ids.scan.forget()
        self.live.forget()

    def show(self, view: View) -> None:
        """Shows a view; what did not change is left as it is."""
        self._view = view
        self.title, self.caution, self.busy = view.title, view.caution, view.busy
        self.red, self.has_tabs = view.red, bool(view.tabs)
        self._show_tabs(view.tabs)
        self.rows.show(view.rows, view.empty)
        if view.screen != self._screen:
            self._screen, self._shown = view.screen, ""
            self.rows.scroll_y = 1
        self.drawing.show(view.drawing)
        self.photo.show(view.photo)
        self.figure.show(view.figure)
        self.tray.show(view.tray)
        self.live.show(view.live)
        self.ids.camera.show(view.camera)
        self.ids.scan.show(view.scan)
        self.ids.who.show(Step(view.scan.who, "who"))
        self.card.show(view.card)
        self.pad.show(view.field)
        self._share(view)
        if view.show != self._shown:
            self._shown = view.show
            self.rows.show_row(view.show)
        self.ids.band.show(view.main, view.quiet, view.strip)

    def _share(self, view: View) -> None:
        """Puts into the halves what there is to show, and nothing else."""
        pictures = (
            (self.figure, view.figure),
            (self.tray, view.tray),
            (self.photo, view.photo),
            (self.drawing, view.drawing),
        )
        _fill(self.here, next((pane for pane, there in pictures if there), self.list))
        typing = view.field is not None and not self.pad.only_choices
        beside = self.wide or view.figure is not None
        alone = typing and (not beside or self.pad.is_large)  # many keys need the room
        looks = view.live and (view.field is None or view.field.kind == TAG)  # other pads need the room
        held = self.pad if view.field else self.card
        _fill(self.hand, *((self.live, held) if looks else (held,)))
        halves = [self.hand] if alone else [self.here, self.hand]
        if self.ids.halves.children[::-1] != halves:
            self.ids.halves.clear_widgets()
            for half in halves:
                self.ids.halves.add_widget(half)
        pictured = any((view.photo, view.drawing, view.tray))
        tall = 1.0 if view.figure and not view.field else 1.8 if view.figure is None else 2.2
        self.hand.size_hint = (1, 1) if self.wide or pictured else (1, tall)

    def _show_tabs(self, tabs: tuple[Step, ...]) -> None:
        if tabs == self._tabs:
            return
        self._tabs = tabs
        box = self.ids.tabs
        keep_as_many(box, len(tabs), self._tab)
        for plate, step in zip(box.children[::-1], tabs, strict=True):
            plate.show(step)
        self._size_tabs()

    def _size_tabs(self) -> None:
        """One size for all of them."""
        for plate in self.ids.tabs.children:
            plate.type_size = theme.body if self.wide else theme.note * 0.9

    def _tab(self) -> Plate:
        plate = Plate()
        plate.bind(on_step=self._stepped)
        return plate

    def _stepped(self, _plate: Plate, step: Step) -> None:
        self.dispatch("on_step", step)

    def on_step(self, step: Step) -> None:
        """A plate was touched."""

    def on_row(self, act: str, key: str) -> None:
        """A row was touched."""

    def on_flag(self, key: str) -> None:
        """A flag on the drawing was touched."""

    def on_band(self, number: int) -> None:
        """A band of the plot was touched."""

    def on_entered(self, name: str, text: str) -> None:
        """Something was entered on a pad."""

    def on_draft(self, name: str, text: str) -> None:
        """Something stands on a pad."""

    def on_ring(self, x: float, y: float, from_x: float, from_y: float) -> None:
        """A photograph was marked."""

    def on_scan_touched(self) -> None:
        """The scan line was touched."""


def _fill(box: BoxLayout, *shown: Widget) -> None:
    """Puts widgets into a box, one under the other, in place of what is there."""
    if box.children[::-1] != list(shown):
        box.clear_widgets()
        for widget in shown:
            box.add_widget(widget)


load_looks(__file__)
