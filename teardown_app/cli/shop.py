"""Commands about people, places and carriers."""

from __future__ import annotations

from argparse import ArgumentParser

from teardown_app.cli.command import Answer, Call, Command, looks, recorded
from teardown_app.cli.deed import made
from teardown_app.domain.ledger.kinds.kind import RIGHTS
from teardown_app.workflows.shop import CARRIER, CLOCK, LEAVE, PERSON, PLACE, confirm_clock, give_rights, revoke
from teardown_app.workflows.tablets import JOIN, RETIRE


def _person(parser: ArgumentParser) -> None:
    parser.add_argument("code", metavar="CODE", help="code of the person: 2 to 6 letters or digits, no name")
    parser.add_argument("--right", action="append", default=[], choices=RIGHTS, help="a right; may be repeated")
    parser.add_argument("--until", default="", metavar="DAY", help="last day, as 2027-03-14")
    parser.add_argument(
        "--qualification", action="append", default=[], metavar="NAME=DAY", help="held until that day; may be repeated"
    )
    parser.add_argument("--badge", default="", metavar="NUMBER", help="number on the badge (W…)")


def person(call: Call) -> Answer:
    """Registers a person or changes their rights."""
    args = call.args
    held = dict(one.partition("=")[::2] for one in args.qualification)
    drafts = give_rights(
        call.shop_act(),
        args.code.upper(),
        rights=args.right,
        until=args.until,
        qualifications=held,
        badge=args.badge,
    )
    rights = drafts[0].body["rights"]
    return recorded(
        call.record(drafts), PERSON.done.format(code=args.code.upper(), rights=", ".join(rights) or "nothing")
    )


def leave(call: Call) -> Answer:
    """Takes all rights from a person."""
    code = call.args.code.upper()
    return recorded(call.record(revoke(call.shop_act(), code)), LEAVE.done.format(code=code))


def people(call: Call) -> Answer:
    """All people and their rights."""
    rows = [{"code": code, **person.body} for code, person in sorted(call.workshop.shop.people().items())]
    lines = [f"{row['code']:<8} {'left' if row.get('revoked') else ', '.join(row['rights'])}" for row in rows]
    return Answer(rows, lines or ["Nobody is registered. The first person: shop person CODE --by CODE"])


def _code(parser: ArgumentParser) -> None:
    parser.add_argument("code", metavar="CODE")


def clock(call: Call) -> Answer:
    """Confirms that the clock is right."""
    drafts = confirm_clock(call.shop_act())
    call.workshop.home.clock.confirm()
    return recorded(call.record(drafts), CLOCK.done.format(clock=call.workshop.now().wall[:16]))


COMMANDS = (
    Command(
        ("shop", "person"),
        "Register a person by code, or change their rights. The first person gets all rights.",
        "teardown-app shop person MK --right record --right release --by OF",
        person,
        _person,
    ),
    Command(
        ("shop", "leave"),
        "Take all rights from a person; what they recorded stands.",
        "teardown-app shop leave MK --by OF",
        leave,
        _code,
    ),
    looks(
        ("shop", "people"),
        "List the people and their rights.",
        "teardown-app shop people",
        people,
    ),
    *map(made, (PLACE, CARRIER, JOIN, RETIRE)),
    Command(
        ("shop", "clock"),
        "Confirm that the tablet's clock is right after it had jumped. Needs the right to release.",
        "teardown-app shop clock --by OF",
        clock,
    ),
)
