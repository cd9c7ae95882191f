"""Pictures of every screen for the manual, taken from the app as it runs: `make pictures`.

One process takes those of one tablet; run as a module it starts one for each.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path
from shutil import copyfile
from typing import Any

from tests.ui.profiles import NAME, TABLETS, before_kivy

PROJECT = Path(__file__).parents[2]
FOLDER = PROJECT / "docs" / "operating" / "pictures"


def take_all(folder: Path) -> list[Path]:
    """Walks a job through all screens, with real touches, and takes a picture of each."""
    before_kivy()
    from tests.ui.glass_hand import GlassHand
    from tests.ui.shop import PIN, filled_desk
    from tests.ui.stage import Stage

    folder.mkdir(parents=True, exist_ok=True)
    prefix = NAME.split()[-1]
    desk = filled_desk(Path(tempfile.mkdtemp()))
    taken_now = desk.workshop.home.path / "pictures"
    taken_now.mkdir()
    copyfile(PROJECT / "sample_bills" / "brd-25" / "drawings" / "10.png", taken_now / "manifold.png")
    stage = Stage(desk)
    hand, taken = GlassHand(desk, stage), []

    def picture(name: str) -> None:
        path = stage.picture(folder / f"{prefix}-{name}.png")
        taken.append(path.replace(folder / f"{prefix}-{name}.png"))

    stage.open()
    try:
        picture("sign-on")
        hand.touch("MK")
        picture("pin")
        hand.enter(PIN)
        hand.enter(PIN)
        hand.row("BRD-25")
        picture("jobs")
        hand.touch("Work on")
        picture("teardown-count")
        hand.touch("Count")
        picture("number-pad")
        hand.enter("1, all of them")
        hand.touch("Worn")
        picture("teardown")
        hand.scan(desk.roll[0])
        picture("teardown-recorded")
        hand.scan(desk.roll[0])
        picture("part")
        hand.touch("Finding")
        picture("finding")
        hand.touch("Cancel")
        hand.touch("Say what happens")
        hand.enter("use as is")
        hand.touch("Photograph")
        picture("photograph")
        hand.touch("Cleaning")
        picture("cleaning")
        hand.touch("Take all")
        picture("cleaning-basket")
        hand.touch("Assembly")
        picture("assembly")
        hand.scan(desk.roll[0])
        picture("assembly-no")
        hand.touch("Open points")
        picture("points")
        _readings(desk, stage, hand, picture)
        _camera(desk, stage, hand, picture)
        hand.touch("Office")
        picture("office")
        hand.touch("People")
        picture("office-people")
        hand.touch("Instruments")
        picture("office-instruments")
        hand.touch("Labels")
        picture("office-labels")
        hand.touch("Office")
        hand.touch("This tablet")
        picture("office-tablet")
        hand._press(stage.app.bench.ids.scan_touch)
        picture("search")
    finally:
        stage.close()
    return taken


READINGS = {
    "reading": ("10.10", "bowl-roughness", "wall 0", ("0.42 um",)),
    "reading-plate": (
        "30.40",
        "plate-flatness",
        "",
        ("0 0 0", "90 52 0.012", "90 156 -0.02", "0 208 0.031", "-90 156 0.006"),
    ),
    "reading-runout": ("40.10", "rotor-runout", "", ("0.00", "0.06", "0.11", "0.17", "0.2")),
}
"""Picture -> place, check, spot, what is typed; the last is left on the pad. Invented."""


def _readings(desk: Any, stage: Any, hand: Any, picture: Callable[[str], None]) -> None:
    """Readings of several kinds while they come in, and what they were over the jobs."""
    from teardown_app.domain.parts.parts import number_of
    from tests.ui.hands import taken_off

    for name, (key, check, spot, typed) in READINGS.items():
        part = taken_off(desk, key)
        desk.open("check", thing=part, check=check, when="as found", spot=spot)
        desk._changed()
        if desk.asking.field().name == "tool":
            desk.entered("tool", desk.asking.field().choices[0])
        stage.frames()
        for n, text in enumerate(word for one in typed for word in one.split(" ") if word != "um"):
            if n:
                stage.app.bench.pad.done()
                stage.frames()
            stage.app.bench.pad.type(text)
        picture(name)
        hand.touch("Cancel")
    bowl = taken_off(desk, "10.10")
    desk.open("check", thing=bowl, check="bowl-roughness", when="as found", spot="wall 0")
    desk.entered("value", "0.33 um")
    hand.scan(number_of(desk.job, bowl))
    hand.touch("Trend")
    picture("trend")


def _camera(desk: Any, stage: Any, hand: Any, picture: Callable[[str], None]) -> None:
    """The camera's pane over a label, and a tray; labels drawn on a bench in the camera's place."""
    from PIL import Image

    from teardown_app.domain.parts.parts import number_of
    from teardown_app.intake.comparison.known_tags import KnownTags
    from teardown_app.ui.captures import opening_of
    from tests.ui.bench_pictures import put_picture
    from tests.ui.hands import taken_off
    from tests.ui.test_recognised import likely_photo

    folder = Path(tempfile.mkdtemp())
    desk.watching.camera.opening = opening_of(folder)
    chosen = [taken_off(desk, key) for key in ("10.20", "20.10", "20.22", "30.40", "40.10", "70.30")]
    numbers = [number_of(desk.job, part) for part in chosen]
    put_picture(folder, "one", numbers[:1])
    hand.touch("Teardown")
    hand.touch("Camera")
    stage.until(lambda: desk.screen.name == "part")
    stage.wait(0.5)
    picture("camera")
    hand.touch("Teardown")
    known = KnownTags(desk.workshop.known_numbers())
    Image.fromarray(likely_photo(numbers[1], known)).save(folder / "stained.png")
    hand.touch("Camera")
    stage.until(lambda: desk.watching.live() is not None and len(desk.watching.live().steps) == 2)
    stage.wait(0.5)
    picture("camera-compare")
    hand.touch("No")
    hand.touch("Cleaning")
    put_picture(folder, "tray", [*numbers, "MAKER 55-A", desk.roll[70]], 3)
    hand.touch("Camera")
    stage.until(lambda: bool(desk.watching.tray_steps()))
    desk.touch(desk.watching.tray_steps()[0])
    stage.until(lambda: desk.screen.name == "tray")
    stage.wait(0.5)
    picture("tray")
    hand.touch("Back")


def main() -> None:
    """Takes the pictures of both tablets, each in a process of its own."""
    if "TEARDOWN_TABLET" in os.environ:
        for path in take_all(FOLDER):
            print(path.relative_to(PROJECT))
        return
    for name in TABLETS:
        subprocess.run(
            [sys.executable, "-m", "tests.ui.pictures"], env={**os.environ, "TEARDOWN_TABLET": name}, check=True
        )


if __name__ == "__main__":
    main()
