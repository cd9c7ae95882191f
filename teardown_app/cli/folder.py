"""Commands about the data folder: backup, and a check of everything in it."""

from __future__ import annotations

import os
from argparse import ArgumentParser
from pathlib import Path

from teardown_app.cli.command import Answer, Call, looks
from teardown_app.records import backup
from teardown_app.records.clock import source_of


def _target(parser: ArgumentParser) -> None:
    parser.add_argument("path", metavar="PATH", type=Path, help="new or empty folder for the copy")


def make_backup(call: Call) -> Answer:
    """Copies all but what is private, and reads the copy back."""
    made = backup.make(call.home, call.args.path, source_of(os.environ).read().wall)
    data = {"files": made.files, "bytes": made.bytes, "records": made.records}
    lines = [
        f"{made.files} files, {made.records} records copied to {call.args.path} and read back.",
        *(str(trouble) for trouble in made.troubles),
        "A tablet started from this copy goes on under a new name; PINs are not in it.",
    ]
    return Answer({**data, "troubles": [str(one) for one in made.troubles]}, lines, 1 if made.troubles else 0)


def verify(call: Call) -> Answer:
    """Reads every record and attachment and checks it."""
    records, troubles = backup.check(call.home)
    lines = [f"{records} records, {len(troubles)} troubles.", *(str(trouble) for trouble in troubles)]
    return Answer({"records": records, "troubles": [str(one) for one in troubles]}, lines, 1 if troubles else 0)


COMMANDS = (
    looks(
        ("backup",),
        "Copy the data folder, without what is private, and read the copy back; also while the app is open.",
        "teardown-app backup /media/stick/2026-03-14",
        make_backup,
        _target,
    ),
    looks(
        ("verify",),
        "Read every record and attachment of the data folder and check it. Exit 0 when all is well.",
        "teardown-app verify",
        verify,
    ),
)
