"""Which tests run which function: a pytest plugin that keeps it, and what was kept. Of a change within a function only
tests that run it can say anything, and the quickest of them say it soonest.

What a test has another process do is not seen, nor what it finds kept from a test before it: a change may be told as
not noticed though such a test would have noticed it, never the other way round. A test is a function of a test file;
of one with many cases the seconds are those of all of them together.
"""

from __future__ import annotations

import json
import os
import sys
import threading
from collections import defaultdict
from pathlib import Path
from types import CodeType, FrameType
from typing import Any, NamedTuple

import pytest

KEPT_AT = "MUTANTS_REACHED"
"""Name in the environment of the file to which is written which test runs what."""

ASKED_FROM = "MUTANTS_ASKED"
"""Name in the environment of a file with the tests that are asked, one a line, in their order."""

CALLED = 6
"""So many letters of a file's name say which tests are called like it: `hardware.py`, `test_hardware.py`."""


class Reached(NamedTuple):
    """Seconds of each test, and the tests that run each function (file of the package, name with its class)."""

    seconds: dict[str, float]
    by: dict[tuple[str, str], frozenset[str]]

    def quickest(self, file: str, name: str) -> list[str]:
        """Tests that run a function of a file; without a name those that run any function of it. First those that are
        called like the file, of these and of the others the quickest first."""
        found = {test for (at, known), tests in self.by.items() if at == file and name in ("", known) for test in tests}
        called = Path(file).stem[:CALLED]
        return sorted(found, key=lambda test: (called not in test, self.seconds[test], test))

    def knows(self, target: str) -> bool:
        """True for a folder or file of tests of which it was kept what they run."""
        return any(test.startswith((target + "/", target + "::")) for test in self.seconds)


def reached(path: Path) -> Reached:
    """What a run with this plugin kept: one line of JSON for each test, or several where it has many cases."""
    seconds: dict[str, float] = defaultdict(float)
    by: dict[tuple[str, str], set[str]] = defaultdict(set)
    for line in path.read_text(encoding="utf-8").splitlines():
        test, took, runs = json.loads(line)
        seconds[test] += took
        for file, name in runs:
            by[file, name].add(test)
    return Reached(dict(seconds), {what: frozenset(tests) for what, tests in by.items()})


def plain(name: str) -> str:
    """Name of a test without its case, of a function without what is within it."""
    return name.partition("[")[0].partition(".<locals>")[0]


class Watch:
    """Notes each function of the package that is called while one test runs, once."""

    def __init__(self, package: str) -> None:
        self._package = package
        self.seen: set[CodeType] = set()

    def __call__(self, frame: FrameType, event: str, arg: Any) -> None:
        self.seen.add(frame.f_code)

    def names(self) -> set[tuple[str, str]]:
        """Files below the project and functions in them, of what was seen."""
        seen = self.seen.copy()  # threads that outlive the test still add to it
        mine = (code for code in seen if code.co_filename.startswith(self._package + os.sep))
        above = os.path.dirname(self._package)
        return {(os.path.relpath(code.co_filename, above), plain(code.co_qualname)) for code in mine}


class Keeper:
    """Writes down after each test what it ran."""

    def __init__(self, path: Path, package: str) -> None:
        self._path, self._package = path, package

    @pytest.hookimpl(wrapper=True)
    def pytest_runtest_protocol(self, item: pytest.Item) -> Any:
        """With what is prepared for it and cleared up after it, also in its other threads."""
        watch = Watch(self._package)
        began = _now()
        threading.settrace(watch)
        sys.settrace(watch)
        try:
            return (yield)
        finally:
            sys.settrace(None)
            threading.settrace(None)
            with self._path.open("a", encoding="utf-8") as file:
                file.write(json.dumps([plain(item.nodeid), _now() - began, sorted(watch.names())]) + "\n")


def _now() -> float:
    return os.times().elapsed


def pytest_configure(config: pytest.Config) -> None:
    """Keeps only where it is said to what file."""
    if os.environ.get(KEPT_AT):
        config.pluginmanager.register(Keeper(Path(os.environ[KEPT_AT]), os.path.join(os.getcwd(), "teardown_app")))


@pytest.hookimpl(trylast=True)
def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Of the tests only those asked, in the order asked."""
    if not os.environ.get(ASKED_FROM):
        return
    asked = Path(os.environ[ASKED_FROM]).read_text(encoding="utf-8").splitlines()
    order = {test: place for place, test in enumerate(asked, start=1)}
    mine = {item: 0 if isinstance(item, pytest.DoctestItem) else order.get(plain(item.nodeid)) for item in items}
    config.hook.pytest_deselected(items=[item for item in items if mine[item] is None])
    items[:] = sorted((item for item in items if mine[item] is not None), key=lambda item: mine[item] or 0)
