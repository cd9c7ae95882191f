"""The backup from the tablet, while the app is open: where to, then off the screen's thread with how far it is."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from teardown_app.records import backup
from teardown_app.ui.form import Form, Values
from teardown_app.ui.forms.asking import first_open, text
from teardown_app.ui.slow import Report
from teardown_app.ui.sticks import sticks
from teardown_app.ui.view import ACCEPT, UNSURE, Field
from teardown_app.ui.words import counted
from teardown_app.workflows.act import refuse

if TYPE_CHECKING:
    from teardown_app.ui.desk import Desk


def _ask(desk: Desk, values: Values) -> Field | None:
    there = [str(path) for path in sticks()]
    hint = "A new folder is made in it." if there else "No stick is in this tablet. Put one in, or take a folder of it."
    return first_open(values, text("into", "Where does the backup go?", [*there, str(Path.home())], hint=hint))


def _finish(desk: Desk, values: Values) -> None:
    home, into = desk.workshop.home, Path(str(values["into"]).strip()).expanduser()
    if not into.is_dir():
        refuse(f"There is no folder {into}.", "Put the stick in, or name a folder that is there.")
    wall = desk.workshop.now().wall
    target = into / f"teardown-backup-{wall[:16].replace(':', '')}"
    desk.slow.must_be_free()
    there = backup.files(home.disk, home.path)  # here, between two acts: none is copied in half

    def work(report: Report) -> backup.Backup:
        return backup.make(home.path, target, wall, home.disk, report, there)

    desk.slow.start(
        "Backup:", work, lambda made: _made(desk, target, made), holds=True, stopped=lambda: _stopped(desk, target)
    )


def _made(desk: Desk, target: Path, made: backup.Backup) -> None:
    done = f"{counted(made.files, 'file')} and {counted(made.records, 'record')} copied to {target} and read back."
    if made.troubles:
        desk.say(f"{done} Look: {made.troubles[0]}", UNSURE)
    else:
        desk.say(f"{done} PINs are not in it.", ACCEPT)


def _stopped(desk: Desk, target: Path) -> None:
    desk.say(f"Stopped: {target} is no backup. Take it away, and begin again when there is time.", UNSURE)


FORMS = (Form("backup", "backup", _ask, _finish),)
