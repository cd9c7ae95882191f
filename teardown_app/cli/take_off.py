"""Commands for what happens as a part comes off: off, label, count."""

from __future__ import annotations

from argparse import ArgumentParser

from teardown_app.cli.called import elsewhere
from teardown_app.cli.command import Answer, Call, Command, cautions, job_argument, recorded
from teardown_app.cli.deed import made
from teardown_app.cli.hardware import COUNTED
from teardown_app.domain.ledger.record import Draft
from teardown_app.domain.parts.caution import at_place
from teardown_app.workflows.act import Act, refuse
from teardown_app.workflows.called import part_meant
from teardown_app.workflows.note import NOTE
from teardown_app.workflows.number import RELABEL, SAME, TAG, put_label, relabel
from teardown_app.workflows.put import PUT
from teardown_app.workflows.take_off import HOWS, OFF, not_written, take_off


def number_argument(parser: ArgumentParser) -> None:
    """The arguments for the number of a part."""
    parser.add_argument("--number", default="", help="number on a label printed ahead")
    parser.add_argument("--new-number", action="store_true", help="issue a new number; its label: label job")


def given_number(call: Call) -> tuple[str, list[Draft]]:
    """The number for the part, and the record that it was issued when it is a new one."""
    if not call.args.new_number:
        return call.args.number, []
    if call.args.number:
        refuse("A label and a new number were both named.", "Take one of them.")
    numbers, draft = call.workshop.new_numbers("P", 1)
    return numbers[0], [draft]


def written(call: Call) -> dict[str, str]:
    """What was written down from the part."""
    return {what: getattr(call.args, what) for what in ("serial", "lot") if getattr(call.args, what)}


def _off(parser: ArgumentParser) -> None:
    job_argument(parser)
    parser.add_argument("position", metavar="POSITION", nargs="?", default="", help="place it came out of")
    number_argument(parser)
    parser.add_argument("--loose", action="store_true", help="it had come loose")
    parser.add_argument("--extra", action="store_true", help="it was found and belongs to no place of the bill")
    parser.add_argument("--condition", default="", help="one of the shop's words")
    parser.add_argument("--place", default="", help="where it is put, such as 'TRAY 4/B3'")
    parser.add_argument("--part-number", default="", help="the number written on it, where it differs")
    parser.add_argument("--serial", default="")
    parser.add_argument("--lot", default="")
    parser.add_argument("--note", default="")


def off(call: Call) -> Answer:
    """Records that a part came off."""
    args, act = call.args, call.act(call.job())
    number, issued = given_number(call)
    how = HOWS[2] if args.extra else HOWS[1] if args.loose else HOWS[0]
    drafts = take_off(
        act,
        args.position,
        number=number,
        how=how,
        condition=args.condition,
        place=args.place,
        part_number=args.part_number,
        written=written(call),
        note=args.note,
        elsewhere=lambda one: elsewhere(call, act, one),
        conditions=call.workshop.words["conditions"],
    )
    records = call.record([*issued, *drafts])
    part = records[-1].thing()
    asked = [f"Still to write down: {what}." for what in not_written(act, args.position, written(call))]
    said = OFF.done.format(name=act.name(part), how=how)
    care = cautions(at_place(act.job, args.position))
    return recorded(records, said, *care, *asked, part=part, number=drafts[0].body.get("number", ""))


def _tag(parser: ArgumentParser) -> None:
    job_argument(parser)
    parser.add_argument("part", metavar="PART", help="the place it came out of, or its present number")
    number_argument(parser)


def _one(call: Call, act: Act) -> str:
    return part_meant(act, call.args.part, lambda number: elsewhere(call, act, number))


def tag(call: Call) -> Answer:
    """Puts a label on a part that has none."""
    act = call.act(call.job())
    part = _one(call, act)
    number, issued = given_number(call)
    drafts = put_label(act, part, number=number, elsewhere=lambda one: elsewhere(call, act, one))
    return recorded(
        call.record([*issued, *drafts]), TAG.done.format(name=act.name(part)), number=drafts[0].body["number"]
    )


def _relabel(parser: ArgumentParser) -> None:
    _tag(parser)
    parser.add_argument("--why", required=True, help="what became of the old label")


def relabel_(call: Call) -> Answer:
    """Replaces a lost label."""
    act = call.act(call.job())
    part = _one(call, act)
    number, issued = given_number(call)
    drafts = relabel(act, part, number=number, why=call.args.why, elsewhere=lambda one: elsewhere(call, act, one))
    return recorded(
        call.record([*issued, *drafts]), RELABEL.done.format(name=act.name(part)), number=drafts[0].body["number"]
    )


COMMANDS = (
    Command(
        ("part", "off"),
        "Record that a part came off: its place, label, condition and where it is put.",
        "teardown-app part off PO-7781 10.20 --number P7K3M0000Y --condition good --by MK",
        off,
        _off,
    ),
    Command(
        ("part", "tag"),
        "Put a label on a part that has none.",
        "teardown-app part tag PO-7781 10.20 --new-number --by MK",
        tag,
        _tag,
    ),
    Command(
        ("part", "relabel"),
        "Replace a lost or unreadable label; the old number still stands for the part.",
        "teardown-app part relabel PO-7781 10.20 --new-number --why 'label came off in the rinse' --by MK",
        relabel_,
        _relabel,
    ),
    *map(made, (SAME, NOTE, PUT)),
    COUNTED,
)
