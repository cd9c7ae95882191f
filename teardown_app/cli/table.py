"""All commands, topic by topic."""

from __future__ import annotations

from teardown_app.cli import bill, folder, hold, job, label, look, shop
from teardown_app.cli.command import Command

TOPICS = {
    "bill": "Bills of tool models: check, print, positions.",
    "job": "Jobs: open, show, what is open, sign, close.",
    "shop": "People, places, carriers.",
    "part": "Parts: taken off, tagged, found, judged, released, fitted.",
    "label": "Labels: rolls printed ahead, labels of a job, pictures.",
}

COMMANDS: tuple[Command, ...] = (
    *bill.COMMANDS,
    *shop.COMMANDS,
    *job.COMMANDS,
    *look.COMMANDS,
    *hold.COMMANDS,
    *label.COMMANDS,
    *folder.COMMANDS,
)
