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
    hand_over,
    instrument,
    job,
    joint,
    judge,
    label,
    label_paper,
    label_queue,
    look,
    measure,
    next,
    operation,
    photograph,
    shop,
    take_off,
)
from teardown_app.cli.command import Command
from teardown_app.cli.deed import made
from teardown_app.cli.hardware import MOVED
from teardown_app.workflows.hold import HOLD, LIFT
from teardown_app.workflows.release import RELEASE
from teardown_app.workflows.temporary import PUT_IN, TAKE_OUT
from teardown_app.workflows.wait import WAIT_OVER

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
    "label": "Labels: rolls, jobs, registers, the queue, printers, stocks, pictures.",
}

COMMANDS: tuple[Command, ...] = (
    *bill.COMMANDS,
    *shop.COMMANDS,
    *instrument.COMMANDS,
    *job.COMMANDS,
    *look.COMMANDS,
    *take_off.COMMANDS,
    *check.COMMANDS,
    *measure.COMMANDS,
    *finding.COMMANDS,
    *judge.COMMANDS,
    *goods.COMMANDS,
    *hand_over.COMMANDS,
    *photograph.COMMANDS,
    *map(made, (HOLD, LIFT)),
    job.SAID_RECEIVED,
    job.ADDED,
    *operation.COMMANDS,
    *map(made, (WAIT_OVER, RELEASE)),
    *fit.COMMANDS,
    *next.COMMANDS,
    MOVED,
    *joint.COMMANDS,
    *consumable.COMMANDS,
    *map(made, (PUT_IN, TAKE_OUT)),
    *label.COMMANDS,
    *label_paper.COMMANDS,
    *label_queue.COMMANDS,
    *folder.COMMANDS,
    *demo.COMMANDS,
)
