"""All commands, topic by topic."""

from __future__ import annotations

from teardown_app.cli import (
    bill,
    check,
    consumable,
    demo,
    finding,
    fit,
    folder,
    goods,
    hardware,
    hold,
    job,
    joint,
    label,
    look,
    operation,
    photograph,
    received,
    release,
    shop,
    take_off,
    temporary,
    wait,
)
from teardown_app.cli.command import Command

TOPICS = {
    "bill": "Bills of tool models: check, print, positions.",
    "job": "Jobs: open, show, what is open, sign, close.",
    "shop": "People, places, carriers.",
    "part": "Parts: taken off, tagged, found, judged, released, fitted.",
    "finding": "Findings: what the customer says to them.",
    "check": "Checks: read, not possible, what is asked for.",
    "hardware": "Counted screws and nuts: what became of them.",
    "joint": "Joints: torque, pass by pass, and opened again.",
    "consumable": "Consumables: renewed, or kept where they may be.",
    "temporary": "What is in only for a time: brackets, caps, bypasses, masks.",
    "label": "Labels: rolls printed ahead, labels of a job, pictures.",
}

COMMANDS: tuple[Command, ...] = (
    *bill.COMMANDS,
    *shop.COMMANDS,
    *job.COMMANDS,
    *look.COMMANDS,
    *take_off.COMMANDS,
    *check.COMMANDS,
    *finding.COMMANDS,
    *goods.COMMANDS,
    *photograph.COMMANDS,
    *hold.COMMANDS,
    *received.COMMANDS,
    *operation.COMMANDS,
    *wait.COMMANDS,
    *release.COMMANDS,
    *fit.COMMANDS,
    *hardware.COMMANDS,
    *joint.COMMANDS,
    *consumable.COMMANDS,
    *temporary.COMMANDS,
    *label.COMMANDS,
    *folder.COMMANDS,
    *demo.COMMANDS,
)
