"""What every screen is: a name, a state that can be kept, a view, and what a scan means to it.

A screen says and does; it knows no widget. All that is not in the records is in `state`, plain values
that come back after a restart. Acts that a `Step` names are methods of the screen.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, ClassVar

from teardown_app.domain.tags.tag import Tag
from teardown_app.ui.view import View

if TYPE_CHECKING:
    from teardown_app.ui.desk import Desk


class Screen:
    """A screen at a desk."""

    name: ClassVar[str] = ""
    tab: ClassVar[str] = ""
    """The bench it belongs to, where it is none itself."""
    of_job: ClassVar[bool] = True
    """True where a job has to be chosen first."""

    def __init__(self, desk: Desk, state: dict[str, Any] | None = None) -> None:
        self.desk = desk
        self.state: dict[str, Any] = dict(state or {})

    def view(self) -> View:
        """What is shown now."""
        raise NotImplementedError

    def choose(self, key: str) -> None:
        """A row was touched."""

    def flag(self, key: str) -> None:
        """A flag on the drawing was touched."""

    def scanned(self, tag: Tag) -> bool:
        """A number of ours was scanned; false leaves it to the desk, which shows what it stands for."""
        return False

    def came_off(self, part: str) -> None:
        """A part came off on this screen."""

    def take_tray(self, parts: list[str]) -> None:
        """Parts were taken from one picture that was shown on this screen."""

    def in_hand(self) -> str:
        """The part that is in hand on this screen, empty where there is none: a maker's code is noted on it."""
        return ""

    def ring(self, x: float, y: float, from_x: float, from_y: float) -> None:
        """A ring or an arrow was set on the photograph; screens without one have nothing to do."""
