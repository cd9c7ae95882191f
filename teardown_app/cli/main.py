"""Reads the command line, runs one command, prints its answer, and turns trouble into words."""

from __future__ import annotations

import os
import sys
from argparse import SUPPRESS, ArgumentParser, Namespace, RawDescriptionHelpFormatter
from collections.abc import Sequence
from contextlib import suppress
from pathlib import Path
from typing import Any

from teardown_app import __version__
from teardown_app.cli.command import Answer, Call, Command, closing, recorded
from teardown_app.cli.said import complain, harmless_streams
from teardown_app.cli.table import COMMANDS, TOPICS
from teardown_app.domain.ledger.harmless import harmless, harmless_json
from teardown_app.records.trouble import RecordsError
from teardown_app.workflows.act import Refused
from teardown_app.workshop import assets_folder, default_home

FAILED = 2


def main(argv: Sequence[str] | None = None) -> int:
    """Runs the command that the arguments name; the exit code. What was recorded decides it, not what came after."""
    with harmless_streams():
        return _done(parser().parse_args(argv))


def _done(args: Namespace) -> int:
    command: Command = args.command
    call = Call(args, home_of(args), assets_folder(), command.writes)
    answer = answer_of(command, call)
    if answer is None:
        return FAILED
    return answer.code if shown(answer, as_json=args.json) or call.recorded else FAILED


def answer_of(command: Command, call: Call) -> Answer | None:
    """What a command answers; None where it was not done, and then the reason was said."""
    answer = None
    try:
        with closing(call):
            answer = command.run(call)
        say_troubles(call)
    except (RecordsError, ValueError, OSError) as trouble:
        complain(worded(trouble))
        return answer or recorded_all_the_same(call)
    except Refused as refusal:
        complain(worded(refusal))
        return None
    return answer


def recorded_all_the_same(call: Call) -> Answer | None:
    """The answer of a command that recorded before something failed; None where it recorded nothing."""
    if not call.recorded:
        return None
    return recorded(call.recorded, "Recorded; do not do it again. What failed afterwards is said on standard error.")


def shown(answer: Answer, *, as_json: bool) -> bool:
    """Prints an answer; false where nobody takes it, and then that is said."""
    try:
        show(answer, as_json=as_json)
        sys.stdout.flush()
    except BrokenPipeError:  # whoever read has seen enough
        _read_by_nobody()
    except (OSError, ValueError) as fault:
        complain(f"The answer could not be written: {fault}.")
        _read_by_nobody()
        return False
    return True


def _read_by_nobody() -> None:
    """What is still in standard output goes nowhere, so that the end of the program does not stumble over it."""
    with suppress(OSError, ValueError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def worded(trouble: Exception) -> str:
    """A refusal for the terminal: with the command that helps, where one does."""
    if not isinstance(trouble, Refused) or not trouble.see:
        return str(trouble)
    return f"{trouble.wrong} {trouble.instead.rstrip('.')}: {trouble.see}."


def show(answer: Answer, *, as_json: bool) -> None:
    """Prints an answer for a program or for a person."""
    if as_json:
        print(harmless_json(answer.data))
    else:
        for line in answer.lines:
            print(harmless(line))


def say_troubles(call: Call) -> None:
    """What a person should know of the data folder."""
    for trouble in call.troubles():
        complain(str(trouble))


def home_of(args: Any) -> Path:
    """The data folder: `--home`, else `TEARDOWN_HOME`, else the system's place for such data."""
    named = getattr(args, "home", "")
    return Path(named) if named else default_home()


def parser() -> ArgumentParser:
    """All commands, each with its help and example."""
    top = ArgumentParser(
        prog="teardown-app",
        description="Teardown, refurbishment and proved reassembly of process tools.",
        epilog="Every command has its own help with an example: teardown-app part tag --help",
    )
    top.add_argument("--version", action="version", version=__version__)
    _common(top, default=None)
    topics = top.add_subparsers(metavar="TOPIC", required=True)
    nested: dict[str, Any] = {}
    for command in COMMANDS:
        if len(command.words) == 1:
            _add(topics, command)
            continue
        topic = command.words[0]
        if topic not in nested:
            one = topics.add_parser(topic, help=TOPICS[topic], description=TOPICS[topic])
            nested[topic] = one.add_subparsers(metavar="COMMAND", required=True)
        _add(nested[topic], command)
    return top


def _common(one: ArgumentParser, default: Any = SUPPRESS) -> None:
    one.add_argument("--home", default=default, metavar="FOLDER", help="data folder (or TEARDOWN_HOME)")
    one.add_argument(
        "--json", action="store_true", default=False if default is None else default, help="answer as JSON"
    )


def _add(topics: Any, command: Command) -> None:
    one = topics.add_parser(
        command.words[-1],
        help=command.says,
        description=command.says,
        epilog=f"example:\n  {command.example}",
        formatter_class=RawDescriptionHelpFormatter,
    )
    command.arguments(one)
    if command.by:
        one.add_argument("--by", metavar="CODE", help="code of the person who does this")
        pin = "file with that person's PIN, where one is asked; else it is asked for here"
        one.add_argument("--pin-file", type=Path, metavar="FILE", help=pin)
    _common(one)
    one.set_defaults(command=command)
