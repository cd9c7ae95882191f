"""What every test is given: no network, an empty data folder, no clock from the environment."""

from __future__ import annotations

import os
import socket
from pathlib import Path

import pytest


def test_no_test_reaches_beyond_this_machine() -> None:
    """An address set aside for documents (RFC 5737) is refused before anything is sent."""
    with socket.socket() as line, pytest.raises(AssertionError, match="network cable is cut"):
        line.connect(("192.0.2.1", 80))


def test_a_test_may_talk_to_itself() -> None:
    """The machine's own address is tried: it is the system that answers, that nobody listens there."""
    with socket.socket() as line, pytest.raises(OSError, match=r"."):
        line.connect(("127.0.0.1", 1))


def test_the_data_folder_is_the_test_s_own(tmp_path: Path) -> None:
    """Whoever names no folder works in an empty one that goes with the test."""
    assert Path(os.environ["TEARDOWN_HOME"]).parent == tmp_path
    assert not Path(os.environ["TEARDOWN_HOME"]).exists()
    assert "TEARDOWN_CLOCK" not in os.environ
