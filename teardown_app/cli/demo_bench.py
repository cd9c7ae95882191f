"""A tablet for the demo: runs commands one after the other on one workshop and says what happens."""

from __future__ import annotations

import shlex
from argparse import ArgumentParser, Namespace
from collections.abc import Callable
from datetime import datetime
from pathlib import Path

from teardown_app.cli.command import Answer, Call
from teardown_app.domain.job.job import Job
from teardown_app.domain.parts.going_back import GONE
from teardown_app.domain.parts.parts import disposition_of, number_of, open_holds, own_place, parts
from teardown_app.records.clock import TrialClock
from teardown_app.records.home import Home
from teardown_app.workflows.act import Refused
from teardown_app.workshop import OpenJob, Workshop

MORNING = datetime.fromisoformat("2026-03-09T07:00:00+01:00")
SHOWN = 6
WORK_S = 75
"""Seconds that pass with each command of the demo."""

Say = Callable[[str], None]


class DemoBench:
    """One tablet under a clock that is handed in; its records say `trial`."""

    def __init__(self, home: Path, assets: Path, parser: ArgumentParser, say: Say) -> None:
        self.clock = TrialClock(MORNING)
        self.workshop = Workshop(Home(home, self.clock).open(), assets)
        self.job_number = ""
        self.numbers: list[str] = []
        self.extra = ""
        self._count = 0
        self.refused: list[str] = []
        self._parser, self._say = parser, say

    @property
    def opened(self) -> OpenJob:
        """The demo's job with its points."""
        return self.workshop.job(self.job_number)

    @property
    def job(self) -> Job:
        """The demo's job."""
        return self.opened.job

    def parts(self) -> list[str]:
        """All parts of the job."""
        return parts(self.job)

    def disposition(self, part: str) -> str:
        """What is to become of a part."""
        return disposition_of(self.job, part)

    def going_back(self) -> list[str]:
        """Parts that go back into the tool and that nothing holds up."""
        return [part for part in self.parts() if self.disposition(part) not in GONE and not open_holds(self.job, part)]

    def called(self, part: str) -> str:
        """What people call a part: its number, or the place it came out of."""
        return number_of(self.job, part) or own_place(self.job, part)

    def seen_enough(self) -> bool:
        """True from the fifth time in a chapter: what comes after is counted, not shown."""
        self._count += 1
        return self._count > SHOWN

    def chapter(self, text: str) -> None:
        """A heading; what was not shown of the chapter before is counted."""
        if self._count > SHOWN:
            self._say(f"             … and {self._count - SHOWN} more like these")
        self._count = 0
        self._say(f"\n== {text}")

    def do(self, by: str, *words: str, quiet: bool = False) -> Answer:
        """Runs a command as a person; `JOB` stands for the demo's job."""
        line = [self.job_number if word == "JOB" else word for word in words]
        args = self._parser.parse_args([*line, *(["--by", by] if by else [])])
        self.clock.pass_time(WORK_S)
        answer: Answer = args.command.run(self._call(args))
        if not quiet:
            when = self.clock.wall.strftime("%a %H:%M")
            self._say(f"{when} {by or '--'}  {shlex.join(words)}")
            for text in answer.lines[:2]:
                if not text.startswith("  recorded"):
                    self._say(f"             {text}")
        return answer

    def try_to(self, by: str, *words: str, quiet: bool = True) -> bool:
        """Runs a command that may be refused; false when it was."""
        try:
            self.do(by, *words, quiet=quiet)
        except Refused:
            return False
        return True

    def is_refused(self, by: str, *words: str) -> None:
        """Runs a command that has to be refused, and shows why."""
        try:
            self.do(by, *words, quiet=True)
        except Refused as refusal:
            self.refused.append(str(refusal))
            self._say(f"{self.clock.wall.strftime('%a %H:%M')} {by}  {shlex.join(words)}")
            self._say(f"             REFUSED: {refusal}")
            return
        raise AssertionError(f"not refused: {shlex.join(words)}")

    def wait(self, hours: float) -> None:
        """Lets time pass."""
        self.clock.pass_time(hours * 3600)
        self._say(f"             ({hours:g} h later)")

    def _call(self, args: Namespace) -> Call:
        return Call(args, self.workshop.home.path, self.workshop.assets, True, self.workshop)
