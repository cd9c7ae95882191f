"""All commands, topic by topic."""

from __future__ import annotations

from teardown_app.cli import bill, hold, job, shop
from teardown_app.cli.command import Command

TOPICS = {
    "bill": "Bills of tool models: check, print, positions.",
    "job": "Jobs: open, show, what is open, sign, close.",
    "shop": "People, places, carriers.",
    "part": "Parts: taken off, tagged, found, judged, released, fitted.",
}

COMMANDS: tuple[Command, ...] = (*bill.COMMANDS, *shop.COMMANDS, *job.COMMANDS, *hold.COMMANDS)
