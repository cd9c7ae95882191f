"""Commands that renew consumables, or keep those that may stay."""

from __future__ import annotations

from argparse import ArgumentParser

from teardown_app.cli.called import places_argument
from teardown_app.cli.command import Answer, Call, Command, recorded
from teardown_app.domain.nouns.naming import named
from teardown_app.workflows.called import places_meant
from teardown_app.workflows.consumable import keep, renew


def _renew(parser: ArgumentParser) -> None:
    places_argument(parser)
    parser.add_argument("--lot", default="", help="the maker's lot")
    parser.add_argument("--expiry", default="", metavar="DAY", help="last day it may be used, as 2027-03-31")
    parser.add_argument("--part-number", default="", metavar="NUMBER", help="where it is not the bill's own")
    parser.add_argument("--old", default="", help="what became of the old one")


def renew_(call: Call) -> Answer:
    """Renews consumables."""
    args, act = call.args, call.act(call.job())
    drafts = renew(act, args.positions, lot=args.lot, expiry=args.expiry, part_number=args.part_number, old=args.old)
    records = call.record(drafts)
    places = places_meant(act, args.positions)
    lot = f", lot {args.lot}" if args.lot else ""
    lines = [f"{named(act.job, one.key)} is renewed{lot}." for one in places]
    return recorded(records, *lines, positions=[one.key for one in places])


def keep_(call: Call) -> Answer:
    """Keeps consumables."""
    act = call.act(call.job())
    records = call.record(keep(act, call.args.positions))
    places = places_meant(act, call.args.positions)
    lines = [f"{named(act.job, one.key)} is kept, its condition is good." for one in places]
    return recorded(records, *lines, positions=[one.key for one in places])


COMMANDS = (
    Command(
        ("consumable", "renew"),
        "Record that consumables were renewed: lot, expiry, what became of the old ones.",
        "teardown-app consumable renew PO-7781 10.40 --lot L-2231 --expiry 2031-06-30 --old scrapped --by AS",
        renew_,
        _renew,
    ),
    Command(
        ("consumable", "keep"),
        "Keep consumables that the bill renews on condition, because they are good.",
        "teardown-app consumable keep PO-7781 10.60 --by AS",
        keep_,
        places_argument,
    ),
)
