"""The app from its command line to its closing, as the guard starts it."""

from __future__ import annotations

import os
import sys
import tempfile
from argparse import ArgumentParser
from contextlib import suppress
from pathlib import Path
from typing import NoReturn

from teardown_app.records.trouble import RecordsError
from teardown_app.ui.camera import KEPT_OFF, SAYS
from teardown_app.ui.captures import opening_of
from teardown_app.ui.demo_shop import furnish
from teardown_app.ui.desk import Desk
from teardown_app.ui.guard import AGAIN, CAMERA_OFF, after_fault
from teardown_app.ui.table import FORMS, SCREENS
from teardown_app.ui.view import UNSURE
from teardown_app.workshop import assets_folder, default_home, open_workshop

END = {
    AGAIN: "The app was started again after a fault. Nothing recorded is lost.",
    "picture": "The app was started again after a fault in reading a picture; nothing recorded is lost. "
    "The picture is kept aside and not read again.",
    CAMERA_OFF: f"The app was started again after several faults; nothing recorded is lost. {SAYS[KEPT_OFF]}",
}
"""What is said after a fault."""


def start() -> NoReturn:
    """Opens the data folder, then the window; ends the program when that is closed."""
    parser = ArgumentParser(prog="teardown-app-touch", description="The touch app for three benches.")
    parser.add_argument("--home", type=Path, default=None, metavar="FOLDER", help="the data folder")
    parser.add_argument("--demo", action="store_true", help="fills an empty data folder with an invented shop")
    parser.add_argument(
        "--camera", type=Path, default=None, metavar="PICTURE", help="a picture or a folder in place of the camera"
    )
    args = parser.parse_args()
    try:
        workshop = open_workshop(args.home or default_home(), assets_folder(), writes=True)
    except RecordsError as fault:
        print(f"teardown-app: {fault}", file=sys.stderr)
        before_kivy(Path(tempfile.mkdtemp(prefix="teardown-")))
        from teardown_app.ui.app import NotOpen

        NotOpen(str(fault)).run()
        leave(2)
    if args.demo:
        furnish(workshop)
    window = workshop.home.path / "private" / "window"
    before_kivy(window)
    from teardown_app.ui.app import TeardownApp
    from teardown_app.ui.sounds import Sounds

    desk = Desk(workshop, SCREENS, FORMS)
    desk.resume()
    desk.watching.camera.opening = opening_of(args.camera)
    say_what_happened(desk, after_fault())
    sounds = Sounds(window)
    desk.feedback.append(sounds.play)
    TeardownApp(desk).run()
    sounds.close()
    leave(0)


def say_what_happened(desk: Desk, after: str) -> None:
    """After a fault: the picture that was being read is kept aside, and it is said; after several the camera stays
    off. At any other start a picture that was left over is no picture that ended the app."""
    box = desk.watching.reader.box
    if not after:
        box.strike_out()
        return
    kept = box.set_aside()
    desk.watching.kept_off = after == CAMERA_OFF
    desk.say(END["picture" if kept and after == AGAIN else after], UNSURE)


def leave(code: int) -> NoReturn:
    """Ends the program at once, everything being closed. While Python takes itself down it would wait for a reader
    that hangs in a picture, and a fault in a driver would look to the guard like one of the app at work."""
    for stream in (sys.stdout, sys.stderr):
        with suppress(OSError, ValueError, AttributeError):  # a pack without a console has none; a pipe may be gone
            stream.flush()
    os._exit(code)


def before_kivy(own: Path) -> None:
    """What Kivy has to know before it is imported: no arguments of ours, a folder for its own files."""
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # one core compares labels, the others are for the glass
    os.environ.setdefault("KIVY_NO_ARGS", "1")
    os.environ.setdefault("KIVY_NO_CONSOLELOG", "1")
    os.environ.setdefault("KIVY_NO_FILELOG", "1")
    os.environ.setdefault("KIVY_HOME", str(own))
    own.mkdir(parents=True, exist_ok=True)
    from kivy.config import Config

    Config.set("kivy", "exit_on_escape", "0")
    Config.set("kivy", "log_level", "warning")
    Config.set("graphics", "multisamples", "0")
    Config.set("graphics", "width", "1280")
    Config.set("graphics", "height", "800")
    Config.set("graphics", "window_state", "maximized")
    Config.set("input", "mouse", "mouse,disable_multitouch")
    for name in ("mtdev_%(name)s", "hid_%(name)s"):
        if Config.has_option("input", name):
            Config.remove_option("input", name)
