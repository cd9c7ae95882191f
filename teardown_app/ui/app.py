"""The touch app: opens the window on a desk, and passes on what is touched, typed and scanned."""

from __future__ import annotations

from time import monotonic
from typing import Any

from kivy.app import App
from kivy.clock import Clock
from kivy.core.image import Image
from kivy.core.window import Window
from kivy.graphics.texture import Texture
from kivy.loader import Loader

from teardown_app.ui.desk import Desk
from teardown_app.ui.keyed import is_scan
from teardown_app.ui.look.palette import PALETTES
from teardown_app.ui.look.theme import theme
from teardown_app.ui.parts.bench import Bench
from teardown_app.ui.view import REJECT, Card, Step, View
from teardown_app.ui.wedge import Wedge, sign_of

TICK_S = 0.1
ENTER, TAB, BACKSPACE, ESCAPE = (13, 271), 9, 8, 27
SAYS_NOTHING = {"ctrl", "alt", "meta"}
"""A key pressed with one of these is no character."""
PALM = 3
"""So many fingers at once are a wet palm, not touches (common practice)."""


class NotOpen(App):
    """Says in a window why the data folder could not be opened: a tablet has no command line."""

    title = "Teardown"

    def __init__(self, says: str, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self._says = says

    def build(self) -> Bench:
        """The bench with nothing on it but the trouble."""
        bench = Bench()
        bench.show(View("", card=Card("Not open", self._says, REJECT)))
        return bench


class TeardownApp(App):
    """One window on one desk."""

    title = "Teardown"

    def __init__(self, desk: Desk, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self.desk = desk
        self._fingers: set[Any] = set()
        self._worn = ""

    def build(self) -> Bench:
        """The bench, bound to the desk."""
        self._dress()
        Loader.loading_image = Loader.error_image = Image(Texture.create(size=(1, 1)))  # not Kivy's turning wheel
        bench = self.bench = Bench()
        desk = self.desk
        bench.bind(
            on_step=lambda _, step: desk.touch(step),
            on_row=lambda _, act, key: desk.row(act, key),
            on_flag=lambda _, key: desk.flag(key),
            on_band=lambda _, number: desk.band(number),
            on_entered=lambda _, name, text: desk.entered(name, text),
            on_draft=lambda _, _name, text: desk.typed(text),
            on_ring=lambda _, *mark: desk.mark_photo(*mark),
            on_scan_touched=lambda _: desk.touch(Step("Search", "search")),
        )
        desk.listeners.append(self.show)
        bench.live.frame, bench.live.outlines = desk.watching.frame, desk.watching.outlines
        self.wedge = Wedge(desk.keyed, bench.pad.type, bench.pad.take_off, lambda text: is_scan(desk, text))
        self.show()
        return bench

    def show(self) -> None:
        """Shows what the desk shows now."""
        self._dress()
        self.bench.show(self.desk.view())

    def on_start(self) -> None:
        """Listens to keyboard and clock."""
        Window.bind(on_textinput=self._text, on_key_down=self._key)
        Window.bind(on_touch_down=self._down, on_touch_up=self._up)
        Clock.schedule_interval(self._tick, TICK_S)

    def on_pause(self) -> bool:
        """Everything is on the disk already; the camera is let go of."""
        self.desk.watching.off()
        self.show()
        return True

    def on_stop(self) -> None:
        """Lets go of the window, the clock and the data folder."""
        Window.unbind(on_textinput=self._text, on_key_down=self._key)
        Window.unbind(on_touch_down=self._down, on_touch_up=self._up)
        Clock.unschedule(self._tick)
        self.bench.forget()
        self.desk.close()

    def _dress(self) -> None:
        """Puts on what the person chose."""
        choice, dots = self.desk.choice, self.desk.settings.dots_per_inch
        wanted = f"{choice} {dots}"
        if wanted != self._worn:
            self._worn = wanted
            theme.wear(PALETTES[choice.look])
            theme.resize(choice.density, dots)
            self.desk.glass_dots_per_inch = theme.mm * 25.4
        Window.clearcolor = theme.base

    def _tick(self, _elapsed: float) -> None:
        self.wedge.silence(monotonic())
        self.desk.tick()

    def _text(self, _window: Any, text: str) -> None:
        self.wedge.take(text, monotonic(), into_field=self.bench.pad.takes_typing)

    def _key(self, _window: Any, key: int, _code: int = 0, _sign: Any = None, held: Any = ()) -> bool:
        pad = self.bench.pad
        if key in (*ENTER, TAB):
            if not self.wedge.end(monotonic()) and pad.field is not None and key != TAB:
                pad.done()
            return True
        if key == BACKSPACE:
            self.wedge.let_go()
            self.wedge.forget()
            pad.back()
            return True
        if not SAYS_NOTHING & set(held or ()):
            sign = sign_of(key, shift="shift" in (held or ()))
            self.wedge.press(sign, monotonic(), into_field=pad.takes_typing)
        return key == ESCAPE

    def _down(self, _window: Any, touch: Any) -> bool:
        """Counts fingers; from the third on they are a palm, and nothing is touched."""
        if getattr(touch, "is_mouse_scrolling", False):
            return False
        self.wedge.let_go()
        self._fingers.add(touch.uid)
        return len(self._fingers) >= PALM

    def _up(self, _window: Any, touch: Any) -> bool:
        self._fingers.discard(touch.uid)
        return False
