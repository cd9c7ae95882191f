"""Parts and places that a call names, and to which other job a number belongs."""

from __future__ import annotations

from argparse import ArgumentParser

from teardown_app.cli.command import Call, job_argument
from teardown_app.workflows.act import Act
from teardown_app.workflows.called import parts_meant


def parts_argument(parser: ArgumentParser, count: str = "+") -> None:
    """The arguments JOB and PART …"""
    job_argument(parser)
    parser.add_argument(
        "parts",
        metavar="PART",
        nargs=count,
        help="number on the part's label, or the place the part belongs to; several are one act",
    )


def places_argument(parser: ArgumentParser, count: str = "+") -> None:
    """The arguments JOB and POSITION …"""
    job_argument(parser)
    parser.add_argument("positions", metavar="POSITION", nargs=count, help="place of the tool, such as 10.20")


def parts_of(call: Call, act: Act) -> list[str]:
    """The parts that the call names."""
    return parts_meant(act, call.args.parts, lambda number: elsewhere(call, act, number))


def elsewhere(call: Call, act: Act, number: str) -> str:
    """The other job and place that a number belongs to, in words; empty when no job here knows it."""
    return call.workshop.belongs_elsewhere(number, act.job.number)
