"""The command that releases parts."""

from __future__ import annotations

from argparse import ArgumentParser

from teardown_app.cli.called import parts_argument, parts_of
from teardown_app.cli.command import Answer, Call, Command, recorded
from teardown_app.workflows.act import refuse
from teardown_app.workflows.release import release, release_ready


def _release(parser: ArgumentParser) -> None:
    parts_argument(parser, "*")
    parser.add_argument("--ready", action="store_true", help="all parts that lack nothing but their release")
    parser.add_argument("--beneath", default="", metavar="POSITION", help="with --ready: of this assembly only")


def release_(call: Call) -> Answer:
    """Releases parts."""
    args, act = call.args, call.act(call.job())
    if args.ready == bool(args.parts) or (args.beneath and not args.ready):
        refuse(
            "It is not clear what to release.",
            "Name parts, or release all ready: --ready [--beneath POSITION].",
        )
    drafts = release_ready(act, args.beneath) if args.ready else release(act, parts_of(call, act))
    parts = [part for draft in drafts for part in draft.ent]
    lines = [f"{act.name(part)} is released." for part in parts]
    return recorded(call.record(drafts), *lines, parts=parts)


COMMANDS = (
    Command(
        ("part", "release"),
        "Release parts, or all that are ready. Needs the right to release.",
        "teardown-app part release PO-7781 --ready --beneath 10 --by OF",
        release_,
        _release,
    ),
)
