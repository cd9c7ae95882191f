"""The page of all commands, written from the commands: `python -m tests.state.commands_page`."""

from __future__ import annotations

from pathlib import Path

from teardown_app.cli.command import Command
from teardown_app.cli.main import parser
from teardown_app.cli.table import COMMANDS, TOPICS

PAGE = Path(__file__).parents[2] / "docs" / "commands.md"

HEAD = """# Commands

Every act of the app is a command too, through the same workflow. This page is written from the commands themselves.

All take `--home FOLDER` (else `TEARDOWN_HOME`, else the system's place for such data) and `--json`. Commands that
record take `--by CODE`, the code of the person who does it; what needs more than the right to record asks the PIN of
whoever has one on this tablet, from a file (`--pin-file FILE`) or a prompt. JOB is a job's number, its name or its
order reference; PART is the number on its label or the place it belongs to. Exit codes: 0 done; 1 the answer is no
(faults in a bill, open points, troubles in the folder); 2 not done, with the reason on standard error. What was
recorded decides: where a label file, the index or the output fails afterwards the answer names the records, the code
is 0, and standard error says what failed. For trials `TEARDOWN_CLOCK` hands in the clock
(`2026-03-14T09:30:00+01:00`, or with steady seconds behind a `;`); records made so say `trial`.
"""


def entry(command: Command) -> str:
    """One command: its words, what it does, an example."""
    name = " ".join(command.words)
    return f"### {name}\n\n{command.says}\n\n    {command.example}\n"


def page() -> str:
    """The whole page, topic by topic."""
    text = HEAD
    for topic, says in TOPICS.items():
        commands = [one for one in COMMANDS if len(one.words) > 1 and one.words[0] == topic]
        text += f"\n## {topic}\n\n{says}\n\n" + "\n".join(entry(one) for one in commands)
    others = [one for one in COMMANDS if len(one.words) == 1]
    return text + "\n## Others\n\n" + "\n".join(entry(one) for one in others)


__all__ = ["PAGE", "page", "parser"]

if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
