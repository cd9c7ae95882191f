"""Signs that act on a terminal come out of no command: answers, JSON, refusals, the parser's words, lists, labels."""

from __future__ import annotations

import io
import json
import sys
from contextlib import suppress
from pathlib import Path

import pytest
from fpdf import FPDF

from teardown_app.cli.command import Answer
from teardown_app.cli.main import main, show
from teardown_app.cli.said import complain, harmless_streams
from teardown_app.domain.ledger.harmless import harmless_json
from teardown_app.domain.parts.recall import Touched
from teardown_app.labels.lettering import printable
from teardown_app.report.notice import notice
from teardown_app.workshop import assets_folder

ACTS = "red\x1b[31m clear\x1b[2J csi\x9b0m bell\x07 del\x7f turned\u202e7-P isolate\u2067x\u2069 mark\u200f"
SAMPLES = Path(__file__).parents[2] / "sample_bills"


def acts(text: str) -> list[str]:
    return [sign for sign in text if not sign.isprintable() and sign != "\n"]


def test_no_command_lets_them_through(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Given wherever people write: they are in no answer, of the same command or of a later one that shows the text."""
    job = ["--home", str(tmp_path / "data"), "--by", "OF"]
    look = job[:2]
    opened = ["job", "open", str(SAMPLES / "ddp-12"), "--order", "PO-1", "--serial", ACTS, "--name", f"PUMP{ACTS}"]
    calls = [
        ["shop", "person", "OF", *job],
        ["shop", "place", f"RACK {ACTS}", *job],
        [*opened, *job],
        ["part", "off", "PO-1", "10.10", "--new-number", *job],
        ["part", "note", "PO-1", "10.10", f"{ACTS}={ACTS}", *job],
        ["hold", "PO-1", "10.10", "--why", ACTS, *job],
        ["part", "show", "PO-1", "10.10", *look],
        ["job", "log", "PO-1", *look],
        ["job", "log", "PO-1", "--json", *look],
        ["job", "list", *look],
        ["job", "list", "--json", *look],
        ["job", "show", f"PO-1{ACTS}", *look],
        ["search", "RACK", *look],
        ["job", "photos", "PO-1", "--out", str(tmp_path / "photos"), *look],
        ["no such topic" + ACTS],
        ["job", "list", ACTS],
    ]
    seen = ""
    for words in calls:
        with suppress(SystemExit):
            main(words)
        said = capsys.readouterr()
        assert not acts(said.out) and not acts(said.err), f"{words}: {acts(said.out + said.err)}"
        seen += said.out + said.err
    assert seen.count("turned\ufffd7-P") > 5, "the text is shown, with a sign for what was taken out"
    records = b"".join(one.read_bytes() for one in (tmp_path / "data" / "out").rglob("*.jsonl")).decode()
    assert not acts(records)


def test_json_loses_nothing_and_shows_nothing_that_acts(capsys: pytest.CaptureFixture[str]) -> None:
    """A program gets the text as it is; what acts is written as an escape."""
    show(Answer({"text": ACTS, "lone": "\ud800"}), as_json=True)
    out = capsys.readouterr().out
    assert not acts(out) and json.loads(out) == {"text": ACTS, "lone": "\ud800"}
    assert json.loads(harmless_json({ACTS: [ACTS]})) == {ACTS: [ACTS]}


def test_standard_error_is_harmless_too(capsys: pytest.CaptureFixture[str]) -> None:
    with harmless_streams():
        complain(f"{ACTS} and \udcff")
    assert not acts(capsys.readouterr().err)


def test_a_stream_that_takes_only_ascii_gets_escapes(monkeypatch: pytest.MonkeyPatch) -> None:
    """An old terminal: what it cannot take is written as an escape, and the command does not fail of it."""
    raw = io.BytesIO()
    monkeypatch.setattr(sys, "stdout", io.TextIOWrapper(raw, encoding="ascii"))
    with harmless_streams():
        print("seal Ø 12")
    sys.stdout.flush()
    assert raw.getvalue() == b"seal \\xd8 12\n"


def test_labels_and_papers_get_none(monkeypatch: pytest.MonkeyPatch) -> None:
    """A label's line before it is drawn; every cell of a notice."""
    assert not acts(printable(ACTS))
    drawn: list[str] = []
    honest = FPDF.get_string_width
    monkeypatch.setattr(
        FPDF, "get_string_width", lambda pdf, s, *a, **k: (drawn.append(str(s)), honest(pdf, s, *a, **k))[1]
    )
    notice(ACTS, ACTS, [Touched(**dict.fromkeys(Touched._fields, ACTS))], assets_folder())
    assert not acts("".join(drawn))
