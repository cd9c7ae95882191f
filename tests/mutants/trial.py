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
from tests.mutants.changes import Made, function_at
from tests.mutants.reached import ASKED_FROM, KEPT_AT, Reached, reached
from tests.mutants.rooms import ASKED, GLASS, Step, asked_about

NOTHING_FAILED, NO_TEST = 0, 5
"""Exit codes of pytest that say that nothing noticed."""

ENDED_BY_SOMEBODY = (-signal.SIGTERM, -signal.SIGKILL)
"""Exit codes of a pytest that was ended from outside: that says nothing of a change."""

LIMIT_S = 600.0
"""So many seconds has a call of pytest; a change that makes it take longer, where it does not without, is noticed: an
endless loop. Common practice, no source."""

LONG_S = 3600.0
"""So many seconds has a folder of tests while it is kept what they run. Common practice, no source."""

DOCTESTS = "--doctest-modules"
OPTIONS = (
    *("-x", "-q", "--tb=no", "-p", "no:cacheprovider"),
    *("-p", "tests.mutants.derandomized", "-p", "tests.mutants.reached"),
)


class Answer(NamedTuple):
    """What pytest said: its exit code (None: out of time), the first test that failed, how long it took."""

    code: int | None
    failed: str
    seconds: float


class Unfit(Exception):
    """A test fails, or takes too long, without any change too: then nothing can be said of changes."""


class Trials:
    """A copy of the project without a change, beside it one more for each change."""

    def __init__(
        self, project: Path, folder: Path, limit: float = LIMIT_S, known: Reached | None = None, near: int = 0
    ) -> None:
        self._plain, self._folder, self._limit = folder / "plain", folder, limit
        self.known, self._near = known, near
        folder.mkdir(parents=True, exist_ok=True)
        folder.chmod(0o755)  # a test reads as somebody who may do little; the code itself he has to reach
        for file in kept_files(project):
            (self._plain / file).parent.mkdir(parents=True, exist_ok=True)
            shutil.copy2(project / file, self._plain / file)
        subprocess.run([sys.executable, "-m", "compileall", "-q", "teardown_app", "tests"], cwd=self._plain, check=True)

    def keep_reached(self, path: Path) -> None:
        """Adds to a file which tests run what, of all that are ever asked and are not in it; in about twice their
        time."""
        kept = self._folder / "reached.jsonl"
        for target in sorted({target for tests in ASKED.values() for target in tests}, key=len):  # folders first
            if path.exists() and reached(path).knows(target):
                continue
            answer = asked(self._plain, Step(target, (f"--ignore={GLASS}",)), LONG_S, str(kept))
            if answer.code != NOTHING_FAILED:
                raise Unfit(f"{target}, without any change: {answer.failed or answer.code or 'out of time'}")
            with path.open("a", encoding="utf-8") as file:
                file.write(kept.read_text(encoding="utf-8"))
            kept.unlink()

    def noticed_by(self, made: Made) -> str:
        """The first test that notices a change; empty where none does."""
        copy = self._folder / "changed"
        shutil.copytree(self._plain, copy, symlinks=True)
        try:
            (copy / made.change.file).write_text(made.code, encoding="utf-8")
            for compiled in (copy / made.change.file).parent.glob(f"__pycache__/{Path(made.change.file).stem}.*"):
                compiled.unlink()
            steps = self._steps(made)
            return next((said for step in steps if (said := self._said(copy, step))), "")
        finally:
            shutil.rmtree(copy, ignore_errors=True)

    def _steps(self, made: Made) -> list[Step]:
        """Where it is known which tests run what is changed: those, then the folders of which that is not known."""
        steps = asked_about(made.change.file)
        if self.known is None:
            return steps
        name = function_at(self._plain / made.change.file, made.change.line)
        tests = self.known.quickest(made.change.file, name)
        if not tests:
            return steps
        tests = tests[: self._near or None]
        listed = self._folder / "asked.txt"
        listed.write_text("\n".join(tests), encoding="utf-8")
        files = dict.fromkeys(test.partition("::")[0] for test in tests)
        near = Step(made.change.file, ("--doctest-modules", *files), str(listed))
        return [near] if self._near else [near, *(step for step in steps[1:] if not self.known.knows(step.target))]

    def _said(self, copy: Path, step: Step) -> str:
        """What these tests say of a change; empty when they say nothing. What they say must be of the change alone."""
        answer = asked(copy, step, self._limit)
        if answer.code in (NOTHING_FAILED, NO_TEST):
            return ""
        if answer.code in ENDED_BY_SOMEBODY:
            raise Unfit(f"{step.target}: somebody ended the tests")
        same = Step(answer.failed.partition("[")[0], step.options[:1]) if answer.failed else step
        plain = asked(self._plain, same, self._limit)
        if plain.code != NOTHING_FAILED and not (plain.code == NO_TEST and DOCTESTS in step.options):
            raise Unfit(f"{same.target}, without any change: {plain.failed or plain.code or 'out of time'}")
        return (
            answer.failed or f"{step.target}: {'out of time' if answer.code is None else f'ended with {answer.code}'}"
        )


def asked(folder: Path, step: Step, limit: float, kept: str = "") -> Answer:
    """Runs tests in a copy of the project; what they started is ended with them. `kept`: the file to which is written
    what they run."""
    began = time.monotonic()
    words = [sys.executable, "-m", "pytest", *OPTIONS, *step.options, step.target]
    surroundings = {**os.environ, "PYTHONPATH": str(folder), ASKED_FROM: step.listed, KEPT_AT: kept}
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
