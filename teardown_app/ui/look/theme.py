"""The look that is on: palette, scale, type. Widgets bind to it and draw themselves anew when it changes."""

from __future__ import annotations

from typing import Any

from kivy.event import EventDispatcher
from kivy.properties import ColorProperty, NumericProperty, StringProperty

from teardown_app.ui.look import measure
from teardown_app.ui.look.palette import LIGHT, Palette

REGULAR, BOLD = "teardown-regular", "teardown-bold"


class Theme(EventDispatcher):
    """Colours by meaning, and sizes in pixels of this glass; kv reads them as `theme.ink`, `theme.body`."""

    name = StringProperty(LIGHT.name)
    base = ColorProperty(LIGHT.base)
    plate = ColorProperty(LIGHT.plate)
    paper = ColorProperty((1, 1, 1, 1))
    """Drawings are black on white in every palette."""
    ink = ColorProperty(LIGHT.ink)
    quiet = ColorProperty(LIGHT.quiet)
    line = ColorProperty(LIGHT.line)
    accent = ColorProperty(LIGHT.accent)
    over_accent = ColorProperty(LIGHT.over_accent)
    stop = ColorProperty(LIGHT.stop)
    caution = ColorProperty(LIGHT.caution)
    safe = ColorProperty(LIGHT.safe)
    must = ColorProperty(LIGHT.must)

    far = NumericProperty()
    number = NumericProperty()
    head = NumericProperty()
    body = NumericProperty()
    note = NumericProperty()
    row = NumericProperty()
    gap = NumericProperty()
    grid = NumericProperty()
    main = NumericProperty()
    mm = NumericProperty(1.0)
    """Pixels of a millimetre."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self.resize()

    def wear(self, palette: Palette) -> None:
        """Puts a palette on."""
        for one in ("base", "plate", "ink", "quiet", "line", "accent", "over_accent"):
            setattr(self, one, getattr(palette, one))
        for one in ("stop", "caution", "safe", "must"):
            setattr(self, one, getattr(palette, one))
        self.name = palette.name

    def resize(self, density: str = "", dots_per_inch: float = 0.0) -> None:
        """Works all sizes out anew, for gloves or bare hands and for the true size of the glass."""
        scale = measure.scale
        scale.density = density or scale.density
        scale.dots_per_inch = dots_per_inch or scale.dots_per_inch
        self.mm = scale.mm(1)
        self.far, self.number = scale.sp(measure.FAR), scale.sp(measure.NUMBER)
        self.head, self.body, self.note = (
            scale.sp(measure.HEAD),
            scale.sp(measure.BODY),
            scale.sp(measure.NOTE),
        )
        self.row, self.gap, self.grid = scale.row, scale.mm(measure.GAP_MM), scale.mm(measure.GRID_MM)
        self.main = scale.mm(measure.MAIN_MM)


theme = Theme()
