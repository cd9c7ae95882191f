"""The app with a reader that dies at its first picture, as a native library would: `python -m tests.ui.dying_app
FOLDER TOLD`. Its first life half-enters a finding and switches the camera on; its second life tells what came back.
"""

from __future__ import annotations

import json
import os
import signal
import sys
from pathlib import Path
from typing import Any

from teardown_app.ui import label_reader, start
from teardown_app.ui.guard import after_fault
from tests.ui.bench_pictures import put_picture
from tests.ui.shop import PIN

HOME, TOLD = Path(sys.argv[1]), Path(sys.argv[2])
PICTURES = HOME / "camera"


def deadly() -> Any:
    """The reader: in the first life it dies in the picture it is given."""
    from teardown_app.intake.still_codes import read_still

    def read(grey: Any) -> Any:
        if not after_fault():
            os.kill(os.getpid(), signal.SIGSEGV)
        return read_still(grey)

    return read


def tell(desk: Any, **more: Any) -> None:
    """Notes what the desk has open."""
    entry = desk.asking.to_keep
    told = json.loads(TOLD.read_text()) if TOLD.exists() else []
    records = len(desk.job.records)
    life = {
        "after": after_fault(),
        "screen": desk.screen.name,
        "state": desk.screen.state,
        "entry": entry.as_note() if entry else None,
        "says": desk.view().scan.says,
        "records": records,
        **more,
    }
    TOLD.write_text(json.dumps([*told, life]))


def first_life(app: Any, _elapsed: float) -> None:
    """Takes a part off, half-enters a finding on it, then the camera sees a label."""
    from tests.ui.hands import taken_off

    desk = app.desk
    desk.session.pins.enrol("MK", PIN)
    desk.session.sign_on("MK", PIN)
    desk.job_number = desk.workshop.home.jobs()[0]
    numbers, draft = desk.workshop.new_numbers("P", 30)
    desk.workshop.record([draft], "MK")
    desk.roll = numbers
    part = taken_off(desk, "10.10")
    desk.go("part", part=part)
    desk.open("finding", part=part)
    desk.entered("word", "dent")
    desk.typed("half a wo")
    tell(desk)
    desk.watching.switch_camera()


def second_life(app: Any, _elapsed: float) -> None:
    """Tells what came back, and that another picture is read."""
    from kivy.clock import Clock

    desk = app.desk
    kept = len(list((HOME / "home" / "private" / "pictures-not-read").glob("*.png")))
    says = desk.view().scan.says
    put_picture(PICTURES, "b", ["ANOTHER 17"], 2)
    desk.watching.switch_camera()

    def look(_elapsed: float) -> bool:
        seen = desk.watching.outlines()
        if seen is None or not seen.labels:
            return True
        tell(desk, says=says, kept=kept, camera=desk.watching.camera.is_on, **{"read again": True})
        app.stop()
        return False

    Clock.schedule_interval(look, 0.05)


def main() -> int:
    """Starts the app as its guard does."""
    put_picture(PICTURES, "a", ["SOME CODE 4711"])
    label_reader.frame_reader = deadly
    sys.argv = ["app", "--home", str(HOME / "home"), "--demo", "--camera", str(PICTURES)]
    before = start.before_kivy

    def before_kivy(own: Path) -> None:
        """As it was, then the app is told what to do once it is open."""
        before(own)
        from kivy.clock import Clock

        from teardown_app.ui.app import TeardownApp

        opened = TeardownApp.on_start

        def on_start(app: Any) -> None:
            opened(app)
            life = second_life if after_fault() else first_life
            Clock.schedule_once(lambda elapsed: life(app, elapsed), 0.3)

        TeardownApp.on_start = on_start

    start.before_kivy = before_kivy
    return start.start()


if __name__ == "__main__":
    sys.exit(main())
