"""A desk on the invented demo shop, with a roll of labels printed ahead."""

from __future__ import annotations

from pathlib import Path

from teardown_app.ui.demo_shop import furnish
from teardown_app.ui.desk import Desk
from teardown_app.ui.table import FORMS, SCREENS
from teardown_app.workshop import assets_folder, open_workshop

PIN = "314159"


class DemoDesk(Desk):
    """A desk that knows the numbers of the roll beside it."""

    roll: tuple[str, ...] = ()


def filled_desk(home: Path) -> DemoDesk:
    """A desk on a new data folder with the demo shop in it."""
    workshop = open_workshop(home, assets_folder(), writes=True)
    furnish(workshop)
    numbers, draft = workshop.new_numbers("P", 80)
    workshop.record([draft], "MK")
    desk = DemoDesk(workshop, SCREENS, FORMS)
    desk.roll = tuple(numbers)
    return desk


def reopened(desk: DemoDesk) -> DemoDesk:
    """The same data folder opened anew, as after a restart."""
    home, roll = desk.workshop.home.path, desk.roll
    desk.close()
    fresh = DemoDesk(open_workshop(home, assets_folder(), writes=True), SCREENS, FORMS)
    fresh.roll = roll
    fresh.resume()
    return fresh
