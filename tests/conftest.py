"""What holds for every test: nothing of the person's own data, no network, no clock of the environment, nothing
drawn by lot that is not drawn alike each time. A run ends with how many seconds the tests of each folder took."""

from __future__ import annotations

import random
import socket
from collections import Counter
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, settings

ANYWHERE = settings(deadline=None, print_blob=True, suppress_health_check=[HealthCheck.too_slow])
settings.register_profile("house", ANYWHERE, derandomize=True)
settings.register_profile("anew", ANYWHERE)
settings.load_profile("house")

LOOPBACK = {"127.0.0.1", "::1", "localhost"}


@pytest.fixture(autouse=True)
def own_data_folder(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """A test that names no data folder gets an empty one, never the person's own."""
    monkeypatch.setenv("TEARDOWN_HOME", str(tmp_path / "teardown-home"))
    monkeypatch.delenv("TEARDOWN_CLOCK", raising=False)


@pytest.fixture(autouse=True)
def letters_drawn_alike(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    """Names and letters of tablets are drawn by lot; a test draws the same ones each time."""
    monkeypatch.setattr("secrets.choice", random.Random(request.node.nodeid).choice)


@pytest.fixture(autouse=True)
def network_cable_cut(monkeypatch: pytest.MonkeyPatch) -> None:
    """Nothing here may need a network: whoever tries to reach beyond this machine fails."""
    connect = socket.socket.connect

    def refuse(self: socket.socket, address: Any) -> None:
        if isinstance(address, tuple) and address[0] not in LOOPBACK:
            raise AssertionError(f"a test reached for {address[0]}: the network cable is cut")
        connect(self, address)

    monkeypatch.setattr(socket.socket, "connect", refuse)


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Seconds by folder, the longest first: of all processes together where several share the work."""
    spent: Counter[str] = Counter()
    for reports in terminalreporter.stats.values():
        for report in reports:
            if isinstance(report, pytest.TestReport):
                spent[report.nodeid.partition("::")[0].rpartition("/")[0]] += report.duration
    if len(spent) > 1:
        terminalreporter.section("seconds by folder")
        for folder, seconds in spent.most_common():
            terminalreporter.write_line(f"{seconds:8.1f}  {folder}")
