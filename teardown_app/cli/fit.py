"""Commands that fit parts and take them out again."""

from __future__ import annotations

from argparse import ArgumentParser

from teardown_app.cli.called import parts_argument, parts_of
from teardown_app.cli.command import Answer, Call, Command, cautions, recorded
from teardown_app.domain.next.closing import due_beneath
from teardown_app.domain.nouns.caution import at_place
from teardown_app.domain.nouns.naming import named
from teardown_app.workflows.fit import fit
from teardown_app.workflows.take_out import take_out


def _fit(parser: ArgumentParser) -> None:
    parts_argument(parser)
    parser.add_argument("--position", default="", help="place it goes into; else the part's own")
    parser.add_argument(
        "--came-with",
        action="append",
        default=[],
        metavar="POSITION",
        help="what beneath a new or exchanged unit came with it: all, or places; may be repeated",
    )
    parser.add_argument("--note", default="")


def fit_(call: Call) -> Answer:
    """Fits parts."""
    args, act = call.args, call.act(call.job())
    drafts = fit(act, parts_of(call, act), key=args.position, came_with=args.came_with, note=args.note)
    records = call.record(drafts)
    rows = [{"part": draft.ent[0], "position": draft.ent[1].removeprefix("@")} for draft in drafts]
    lines = [f"{act.name(row['part'])} is fitted in {named(act.job, row['position'])}." for row in rows]
    places = [act.job.positions[row["position"]] for row in rows]
    due = list(dict.fromkeys(said for position in places for said in due_beneath(act.job, position)))
    closed = [f"  closed over: {said}" for said in due]
    care = cautions(said for position in places for said in at_place(act.job, position.key))
    return recorded(records, *lines, *closed, *care, fitted=rows, due_beneath=due)


def _out(parser: ArgumentParser) -> None:
    parts_argument(parser)
    parser.add_argument("--position", default="", help="where a part is recorded in several places: out of which")
    parser.add_argument("--why", required=True, help="the reason")


def out(call: Call) -> Answer:
    """Takes parts out."""
    args, act = call.args, call.act(call.job())
    drafts = take_out(act, parts_of(call, act), why=args.why, key=args.position)
    records = call.record(drafts)
    rows = [{"part": draft.ent[0], "position": draft.ent[1].removeprefix("@")} for draft in drafts]
    lines = [f"{act.name(row['part'])} is out of {named(act.job, row['position'])}." for row in rows]
    care = cautions(said for row in rows for said in at_place(act.job, row["position"]))
    return recorded(records, *lines, *care, taken_out=rows)


COMMANDS = (
    Command(
        ("part", "fit"),
        "Fit released parts, each into its own place, or one into the place named.",
        "teardown-app part fit PO-7781 10.20 10.30 --by AS",
        fit_,
        _fit,
    ),
    Command(
        ("part", "out"),
        "Take fitted parts out again.",
        "teardown-app part out PO-7781 10.30 --why 'seal was not in' --by AS",
        out,
        _out,
    ),
)
