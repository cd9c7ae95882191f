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
        hand.touch("Office")
        picture("office")
        hand.touch("People")
        picture("office-people")
        hand.touch("This tablet")
        picture("office-tablet")
        hand._press(stage.app.bench.ids.scan_touch)
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
