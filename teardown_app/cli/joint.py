"""Commands that record the torque of joints, and that a joint was opened."""

from __future__ import annotations

from argparse import ArgumentParser

from teardown_app.cli.called import places_argument
from teardown_app.cli.command import Answer, Call, Command, recorded
from teardown_app.domain.ledger.record import Draft
from teardown_app.domain.measure.torque import Torque
from teardown_app.domain.nouns.joint import passes_left
from teardown_app.domain.nouns.naming import named
from teardown_app.workflows.act import Act
from teardown_app.workflows.called import place_meant, places_meant
from teardown_app.workflows.torque import NEXT, how, open_joint, tighten


def _torque(parser: ArgumentParser) -> None:
    places_argument(parser)
    parser.add_argument("--pass", default=NEXT, dest="pass_", metavar="PERCENT", help="the pass; else the next due")
    parser.add_argument("--screws", type=int, metavar="N", help="how many; else all that are left of the pass")
    parser.add_argument("--torque", default="", help="as on the wrench: '6 N m', '4.4 lbf ft'")
    parser.add_argument("--instrument", default="", metavar="NUMBER", help="number of the torque wrench")
    parser.add_argument("--note", default="")
    parser.add_argument("--early", default="", metavar="WHY", help="why it is tightened again before it rested")


def torque(call: Call) -> Answer:
    """Records one pass of torque."""
    args, act = call.args, call.act(call.job())
    drafts = tighten(
        act,
        args.positions,
        pass_=args.pass_,
        screws=args.screws,
        torque=args.torque,
        instrument=args.instrument.upper(),
        note=args.note,
        early=args.early,
    )
    records = call.record(drafts)
    rows = [_row(act, draft) for draft in drafts]
    return recorded(records, *(_line(act, row) for row in rows), joints=rows)


def _row(act: Act, draft: Draft) -> dict[str, object]:
    position = place_meant(act, draft.ent[0])
    body = draft.body
    typed = Torque(**body["torque"]) if "torque" in body else None
    return {
        "position": position.key,
        "pass": body["pass"],
        "screws": body["screws"],
        "torque_nm": str(round(typed.newton_metres, 3)) if typed else "",
        "bill": how(position, body["pass"]),
        "left": passes_left(act.job, position),
    }


def _line(act: Act, row: dict[str, object]) -> str:
    name = named(act.job, str(row["position"]))
    read = f" with {row['torque_nm']} N m" if row["torque_nm"] else ""
    left = row["left"]
    after = f"Left: {', '.join(f'{one} %' for one in left)}." if isinstance(left, list) and left else "All done."
    return f"{name}: {row['pass']} % on {row['screws']} screws{read} (bill: {row['bill']}). {after}"


def _open(parser: ArgumentParser) -> None:
    places_argument(parser)
    parser.add_argument("--why", default="", help="the reason")


def open_(call: Call) -> Answer:
    """Opens joints."""
    args, act = call.args, call.act(call.job())
    records = call.record(open_joint(act, args.positions, why=args.why))
    places = places_meant(act, args.positions)
    lines = [f"{named(act.job, one.key)} is open: its torque is due again." for one in places]
    return recorded(records, *lines, positions=[one.key for one in places])


COMMANDS = (
    Command(
        ("joint", "torque"),
        "Record one pass of torque on joints; says pattern and lubricant.",
        "teardown-app joint torque PO-7781 10.90 --torque '1.8 N m' --by AS",
        torque,
        _torque,
    ),
    Command(
        ("joint", "open"),
        "Say that joints were opened; their torque is due again.",
        "teardown-app joint open PO-7781 10.90 --why 'seal pinched' --by AS",
        open_,
        _open,
    ),
)
