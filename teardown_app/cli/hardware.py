"""Commands that move counted hardware."""

from __future__ import annotations

from argparse import ArgumentParser

from teardown_app.cli.called import places_argument
from teardown_app.cli.command import Answer, Call, Command, recorded
from teardown_app.workflows.act import refuse
from teardown_app.workflows.called import places_meant
from teardown_app.workflows.hardware import ALL, MOVES, balance, move


def _move(parser: ArgumentParser) -> None:
    places_argument(parser)
    for word in MOVES:
        option = f"--{word.replace(' ', '-')}"
        if word == "put in":
            says = "how many went into the place; all that are missing without N"
            parser.add_argument(option, nargs="?", const=ALL, metavar="N", help=says)
        else:
            parser.add_argument(option, metavar="N", help=HELP[word])
    parser.add_argument("--why", default="", help="the reason; needed for scrapped, lost and left over")


HELP = {
    "added": "how many were taken new",
    "taken out": "how many came out of the place again, back to the bag",
    "scrapped": "how many were thrown away",
    "lost": "how many are lost",
    "left over": "how many remain when the place is full",
}


def move_(call: Call) -> Answer:
    """Moves hardware."""
    args, act = call.args, call.act(call.job())
    given = {word: getattr(args, word.replace(" ", "_")) for word in MOVES}
    moves = {word: _number(text) for word, text in given.items() if text is not None}
    records = call.record(move(act, args.positions, moves, why=args.why))
    lines = [balance(act, position) for position in places_meant(act, args.positions)]
    return recorded(records, *lines, balance=lines)


def _number(text: str) -> int | str:
    if text == ALL:
        return ALL
    try:
        return int(text)
    except ValueError:
        refuse(f"{text!r} is no count.", "Write a whole number; the places come before --put-in.")


COMMANDS = (
    Command(
        ("hardware", "move"),
        "Say what became of counted hardware; the balance is said after.",
        "teardown-app hardware move PO-7781 10.90 --added 1 --put-in --by AS",
        move_,
        _move,
    ),
)
