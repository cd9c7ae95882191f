"""Pictures of every screen for the manual, taken from the app as it runs: `make pictures`.

One process takes those of one tablet; run as a module it starts one for each.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
from pathlib import Path
from shutil import copyfile

from tests.ui.profiles import NAME, TABLETS, before_kivy

PROJECT = Path(__file__).parents[2]
FOLDER = PROJECT / "docs" / "operating" / "pictures"


def take_all(folder: Path) -> list[Path]:
    """Walks a job through all screens, with real touches, and takes a picture of each."""
    before_kivy()
    from tests.ui.glass_hand import GlassHand
    from tests.ui.shop import filled_desk
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
        stage.row("MK")
        picture("pin")
        stage.keys("314159")
        stage.keys("314159")
        stage.row("BRD-25")
        picture("jobs")
        stage.say("Work on")
        picture("teardown-count")
        stage.touch(stage.plate_on_pad("1") if desk.entry else stage.plate("Count"))
        picture("number-pad")
        stage.touch(stage.plate_on_pad("1"))
        stage.say("Worn")
        picture("teardown")
        numbers = desk.roll
        stage.wedge(numbers[0])
        picture("teardown-recorded")
        stage.wedge(numbers[0])
        picture("part")
        stage.say("Finding")
        picture("finding")
        stage.say("Leave it")
        stage.say("Disposition")
        stage.say("use as is")
        stage.say("Photograph")
        picture("photograph")
        stage.say("Cleaning")
        picture("cleaning")
        stage.say("Take all")
        picture("cleaning-basket")
        stage.say("Assembly")
        picture("assembly")
        stage.wedge(numbers[0])
        picture("assembly-no")
        stage.say("Open points")
        picture("points")
        stage.say("Office")
        picture("office")
        hand.row("People")
        picture("office-people")
        hand.row("People")
        hand.row("This tablet")
        picture("office-tablet")
        hand.row("This tablet")
        stage.touch(stage.app.bench.ids.scan_touch)
        picture("search")
    finally:
        stage.close()
    return taken


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
