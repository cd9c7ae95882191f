"""Commands about findings and what the customer says to them."""

from __future__ import annotations

from argparse import ArgumentParser

from teardown_app.cli.called import parts_argument, parts_of
from teardown_app.cli.command import Answer, Call, Command, job_argument, looks, recorded
from teardown_app.cli.deed import made
from teardown_app.domain.parts.life import all_parts
from teardown_app.domain.parts.parts import approval_of, findings_of, number_of, word_of
from teardown_app.workflows.approval import ANSWER
from teardown_app.workflows.finding import FIND, note_finding


def _find(parser: ArgumentParser) -> None:
    parts_argument(parser)
    parser.add_argument("--word", required=True, help="one of the shop's words; your own with --note")
    parser.add_argument("--cause", required=True, help="freight, wear, earlier repair, ours, cannot tell")
    parser.add_argument("--note", default="", help="what is to be seen, and where")
    agreed = parser.add_mutually_exclusive_group()
    agreed.add_argument("--covered", action="store_true", help="the order covers what it needs")
    agreed.add_argument("--ask", action="store_true", help="the customer has to be asked")


def find(call: Call) -> Answer:
    """Notes a finding on parts."""
    args, act = call.args, call.act(call.job())
    parts = parts_of(call, act)
    covered = True if args.covered else False if args.ask else None
    drafts = note_finding(
        act, parts, word=args.word, cause=args.cause, words=call.workshop.words, note=args.note, covered=covered
    )
    asks = "" if drafts[0].body["covered"] else "; the customer has to be asked: finding answer"
    lines = [FIND.done.format(name=act.name(part), word=args.word, asks=asks) for part in parts]
    return recorded(call.record(drafts), *lines)


def list_(call: Call) -> Answer:
    """All findings of a job."""
    job = call.job().job
    rows = []
    for part in all_parts(job):
        for entry in findings_of(job, part):
            said = approval_of(job, entry.value)
            rows.append(
                {
                    "tag": number_of(job, part),
                    "name": call.look(job).name(part),
                    "word": word_of(job, entry.value),
                    "cause": entry.record.body["cause"],
                    "note": entry.record.body.get("note", ""),
                    "answer": said.word if said else "not asked",
                    "reference": said.reference if said else "",
                }
            )
    lines = [f"{row['name']}: {row['word']} ({row['cause']}): {row['answer']} {row['reference']}" for row in rows]
    return Answer(rows, lines or ["Nothing was found yet."])


COMMANDS = (
    Command(
        ("part", "find"),
        "Note a finding on parts: the shop's word, its cause, whether the order covers it.",
        "teardown-app part find PO-7781 10.20 --word bent --cause freight --note 'dent at the flange' --by MK",
        find,
        _find,
    ),
    made(ANSWER),
    looks(
        ("finding", "list"),
        "All findings of a job with the answers to them.",
        "teardown-app finding list PO-7781",
        list_,
        job_argument,
    ),
)
