"""One change tried: made in a copy of the project, where tests are asked one after the other until one notices."""

from __future__ import annotations

import os
import re
import shutil
import signal
import subprocess
import sys
import time
from pathlib import Path
from typing import NamedTuple

from tests.house.words import kept_files
from tests.mutants.changes import Made
from tests.mutants.rooms import Step, asked_about

NOTHING_FAILED, NO_TEST = 0, 5
"""Exit codes of pytest that say that nothing noticed."""

LIMIT_S = 600.0
"""So many seconds has a call of pytest; a change that makes it take longer, where it does not without, is noticed: an
endless loop. Common practice, no source."""

DOCTESTS = "--doctest-modules"
OPTIONS = ("-x", "-q", "--tb=no", "-p", "no:cacheprovider", "-p", "tests.mutants.derandomized")


class Answer(NamedTuple):
    """What pytest said: its exit code (None: out of time), the first test that failed, how long it took."""

    code: int | None
    failed: str
    seconds: float


class Unfit(Exception):
    """A test fails, or takes too long, without any change too: then nothing can be said of changes."""


class Trials:
    """A copy of the project without a change, beside it one more for each change."""

    def __init__(self, project: Path, folder: Path, limit: float = LIMIT_S) -> None:
        self._plain, self._folder, self._limit = folder / "plain", folder, limit
        folder.chmod(0o755)  # a test reads as somebody who may do little; the code itself he has to reach
        for file in kept_files(project):
            (self._plain / file).parent.mkdir(parents=True, exist_ok=True)
            shutil.copy2(project / file, self._plain / file)
        subprocess.run([sys.executable, "-m", "compileall", "-q", "teardown_app", "tests"], cwd=self._plain, check=True)

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

    def _said(self, copy: Path, step: Step) -> str:
        """What these tests say of a change; empty when they say nothing. What they say must be of the change alone."""
        answer = asked(copy, step, self._limit)
        if answer.code in (NOTHING_FAILED, NO_TEST):
            return ""
        same = step._replace(target=answer.failed.partition("[")[0] or step.target)
        plain = asked(self._plain, same, self._limit)
        if plain.code != NOTHING_FAILED and not (plain.code == NO_TEST and DOCTESTS in step.options):
            raise Unfit(f"{same.target}, without any change: {plain.failed or plain.code or 'out of time'}")
        return (
            answer.failed or f"{step.target}: {'out of time' if answer.code is None else f'ended with {answer.code}'}"
        )


def asked(folder: Path, step: Step, limit: float) -> Answer:
    """Runs tests in a copy of the project; what they started is ended with them."""
    began = time.monotonic()
    words = [sys.executable, "-m", "pytest", *OPTIONS, *step.options, step.target]
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
    failed = re.search(r"^(?:FAILED|ERROR) (.+?)(?: - .*)?$", said, re.MULTILINE)
    return Answer(code, failed[1] if failed else "", time.monotonic() - began)


def ended(run: subprocess.Popen[str]) -> None:
    """Ends a run of tests and all that it started: they are a group of their own."""
    try:
        os.killpg(run.pid, signal.SIGKILL)
    except ProcessLookupError:
        return
