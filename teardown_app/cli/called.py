"""Parts and places that a call names, and to which other job a number belongs."""

from __future__ import annotations

from argparse import ArgumentParser

from teardown_app.cli.command import Call, job_argument
from teardown_app.workflows.act import Act
from teardown_app.workflows.called import parts_meant

PARTS_HELP = "number on the part's label, or the place the part belongs to; several are one act"


def parts_argument(parser: ArgumentParser) -> None:
    """The arguments JOB and PART …"""
    job_argument(parser)
    parser.add_argument("things", metavar="PART", nargs="+", help=PARTS_HELP)


def parts_of(call: Call, act: Act) -> list[str]:
    """The parts that the call names."""
    return parts_meant(act, call.args.things, lambda number: elsewhere(call, act, number))


def elsewhere(call: Call, act: Act, number: str) -> str:
    """The other job and place that a number belongs to, in words; empty when no job here knows it."""
    return call.workshop.belongs_elsewhere(number, act.job.number)
