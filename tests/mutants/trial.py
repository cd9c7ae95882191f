"""One change tried: made in a copy of the project, where tests are asked one after the other until one notices."""

from __future__ import annotations

import os
import re
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

from tests.house.words import kept_files
from tests.mutants.changes import Made
from tests.mutants.rooms import asked_about

NOTHING_FAILED, NO_TEST = 0, 5
"""Exit codes of pytest that say that nothing noticed."""

AT_LEAST_S, TIMES = 60.0, 5
"""Tests have so many seconds, or so many times what they take without a change; longer is noticed, as an endless loop.
Common practice, no source."""

OPTIONS = ("-x", "-q", "--tb=no", "-p", "no:cacheprovider", "-p", "tests.mutants.derandomized")


class Answer(NamedTuple):
    """What pytest said: its exit code (None: out of time), the first test that failed, how long it took."""

    code: int | None
    failed: str
    seconds: float


class Unfit(Exception):
    """Tests fail, or there are none, without any change: then nothing can be said of changes."""


Ask = Callable[[Path, tuple[str, ...], float | None], Answer]


class Trials:
    """A copy of the project without a change, beside it one more for each change."""

    def __init__(self, project: Path, folder: Path) -> None:
        self._plain, self._folder = folder / "plain", folder
        for file in kept_files(project):
            (self._plain / file).parent.mkdir(parents=True, exist_ok=True)
            shutil.copy2(project / file, self._plain / file)
        subprocess.run([sys.executable, "-m", "compileall", "-q", "teardown_app", "tests"], cwd=self._plain, check=True)
        self._limits: dict[tuple[str, ...], float] = {}

    def noticed_by(self, made: Made) -> str:
        """The first test that notices a change; empty where none does."""
        copy = self._folder / "changed"
        shutil.copytree(self._plain, copy, symlinks=True)
        try:
            (copy / made.change.file).write_text(made.code, encoding="utf-8")
            for compiled in (copy / made.change.file).parent.glob(f"__pycache__/{Path(made.change.file).stem}.*"):
                compiled.unlink()
            steps = asked_about(made.change.file)
            return next((said for step in steps if (said := self._said(copy, step))), "")
        finally:
            shutil.rmtree(copy, ignore_errors=True)

    def _said(self, copy: Path, step: tuple[str, ...]) -> str:
        answer = asked(copy, step, self._limit(step))
        if answer.code is None:  # the machine may have been busy: once more, with twice the time
            answer = asked(copy, step, 2 * self._limit(step))
        if answer.code in (NOTHING_FAILED, NO_TEST):
            return ""
        return answer.failed or (
            f"{step[0]}: out of time" if answer.code is None else f"pytest ended with {answer.code}"
        )

    def _limit(self, step: tuple[str, ...]) -> float:
        """Seconds that these tests have; asked first without a change. Examples of one file are quick anyway."""
        if step[0].startswith("--"):
            return AT_LEAST_S
        if step not in self._limits:
            answer = asked(self._plain, step, None)
            if answer.code != NOTHING_FAILED:
                raise Unfit(f"{' '.join(step)} without any change: {answer.failed or answer.code}")
            self._limits[step] = max(AT_LEAST_S, TIMES * answer.seconds)
        return self._limits[step]


def asked(folder: Path, step: tuple[str, ...], limit: float | None) -> Answer:
    """Runs tests in a copy of the project; what they started is ended with them."""
    began = time.monotonic()
    words = [sys.executable, "-m", "pytest", *OPTIONS, *step]
    surroundings = {**os.environ, "PYTHONPATH": str(folder)}
    with subprocess.Popen(
        words,
        cwd=folder,
        env=surroundings,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        start_new_session=True,
    ) as run:
        try:
            said, _ = run.communicate(timeout=limit)
            code: int | None = run.returncode
        except subprocess.TimeoutExpired:
            code, said = None, ""
        finally:
            ended(run)
    failed = re.search(r"^(?:FAILED|ERROR) (\S+)", said, re.MULTILINE)
    return Answer(code, failed[1] if failed else "", time.monotonic() - began)


def ended(run: subprocess.Popen[str]) -> None:
    """Ends a run of tests and all that it started: they are a group of their own."""
    try:
        os.killpg(run.pid, signal.SIGKILL)
    except ProcessLookupError:
        return
