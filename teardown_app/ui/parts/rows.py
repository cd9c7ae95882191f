"""A list of rows of one height; changing one row of thousands draws that row alone."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from kivy.properties import BooleanProperty, NumericProperty, StringProperty
from kivy.uix.behaviors import ButtonBehavior
from kivy.uix.floatlayout import FloatLayout
from kivy.uix.recycleview import RecycleView
from kivy.uix.recycleview.views import RecycleDataViewBehavior

from teardown_app.ui.parts.looks import load_looks
from teardown_app.ui.view import Row


class RowPlate(RecycleDataViewBehavior, ButtonBehavior, FloatLayout):
    """One row: mark, text with a note beneath, what is aligned right, a bar for done of all."""

    key = StringProperty("")
    text = StringProperty("")
    sub = StringProperty("")
    mark = StringProperty("")
    trail = StringProperty("")
    depth = NumericProperty(0)
    done = NumericProperty(-1)
    all = NumericProperty(0)
    chosen = BooleanProperty(False)
    act = StringProperty("")

    def on_release(self) -> None:
        """Tells the list which row was touched."""
        owner = self.parent.parent if self.parent else None
        if isinstance(owner, Rows):
            owner.dispatch("on_row", self.act, self.key)


class Rows(RecycleView):
    """The list. `on_row(act, key)` tells which row was touched."""

    empty = StringProperty("")

    __events__ = ("on_row",)

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self._rows: tuple[Row, ...] = ()

    def on_row(self, act: str, key: str) -> None:
        """A row was touched; bound by whoever shows the list."""

    def show(self, rows: Sequence[Row], empty: str = "") -> None:
        """Shows rows; where only some changed, only those are drawn anew."""
        self.empty = "" if rows else empty
        if len(rows) != len(self._rows):
            self.data = [as_data(row) for row in rows]
        else:
            self._change(rows)
        self._rows = tuple(rows)

    def _change(self, rows: Sequence[Row]) -> None:
        for n, (old, new) in enumerate(zip(self._rows, rows, strict=True)):
            if old is not new and old != new:
                data = as_data(new)
                list.__setitem__(self.data, n, data)
                for view in self._views_of(n):
                    self.view_adapter.refresh_view_attrs(n, data, view)

    def _views_of(self, n: int) -> list[RowPlate]:
        """The plate of a row in sight, or the one that waits out of sight and would come back as it was."""
        waiting = [views.get(n) for views in self.view_adapter.dirty_views.values()]
        return [view for view in (self.view_adapter.get_visible_view(n), *waiting) if view is not None]

    def show_row(self, key: str) -> None:
        """Scrolls so that a row can be seen."""
        place = next((n for n, row in enumerate(self._rows) if row.key == key), None)
        beneath = self.layout_manager.height - self.height
        if place is None or beneath <= 0:
            return
        top = place * self.layout_manager.height / len(self._rows)
        self.scroll_y = 1 - min(1.0, max(0.0, (top - self.height / 3) / beneath))


def as_data(row: Row) -> dict[str, Any]:
    """A row as the list keeps it."""
    return {
        "key": row.key,
        "text": row.text,
        "sub": row.sub,
        "mark": row.mark,
        "trail": row.trail,
        "depth": row.depth,
        "done": row.done,
        "all": row.all,
        "chosen": row.chosen,
        "act": row.act,
    }


load_looks(__file__)
