"""The command line as other programs meet it: what it prints, its exit codes, and what it says in trouble."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from PIL import Image

from teardown_app.cli.main import main
from tests.patience import WHOLE_RUN_S

ROOT = Path(__file__).parents[2]
SAMPLES = ROOT / "sample_bills"


@pytest.fixture
def run(tmp_path: Path, capsys: pytest.CaptureFixture[str]):  # type: ignore[no-untyped-def]
    """Runs a command on a folder of its own: (exit code, what it printed, what it said on standard error)."""

    def command(*words: object, home: Path | None = None) -> tuple[int, str, str]:
        code = main([*(str(word) for word in words), "--home", str(home or tmp_path / "data")])
        said = capsys.readouterr()
        return code, said.out, said.err

    return command


@pytest.fixture
def shop(run):  # type: ignore[no-untyped-def]
    """The same, with a first person and a job."""
    assert run("shop", "person", "OF", "--by", "OF")[0] == 0
    assert run("job", "open", SAMPLES / "ddp-12", "--order", "PO-1", "--serial", "7", "--by", "OF")[0] == 0
    return run


def test_a_bill_is_checked_in_the_agreed_form(run) -> None:  # type: ignore[no-untyped-def]
    code, out, _ = run("bill", "check", SAMPLES / "faulty", "--json")
    answer = json.loads(out)
    assert code == 1 and set(answer) == {"positions", "faults", "notes"}
    assert all(set(fault) == {"file", "row", "column", "message"} for fault in answer["faults"])
    code, out, _ = run("bill", "check", SAMPLES / "ddp-12", "--json")
    assert code == 0 and json.loads(out)["faults"] == []


def test_a_bill_that_is_not_there_is_a_fault_and_no_crash(run, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    code, out, _ = run("bill", "check", tmp_path / "nowhere", "--json")
    assert code == 1 and json.loads(out)["positions"] is None and json.loads(out)["faults"]


def test_bill_lines_prints_every_line_with_its_places(run) -> None:  # type: ignore[no-untyped-def]
    code, out, _ = run("bill", "lines", SAMPLES / "ddp-12", "--json")
    rows = json.loads(out)
    assert code == 0 and {"position", "part_number", "positions"} <= set(rows[0])
    assert sum(len(row["positions"]) for row in rows) == 41


def test_open_points_in_the_agreed_form(shop) -> None:  # type: ignore[no-untyped-def]
    code, out, _ = shop("job", "open-points", "PO-1", "--json")
    answer = json.loads(out)
    assert code == 1 and set(answer) == {"job", "complete", "points"} and answer["complete"] is False
    names = {"key", "kind", "gate", "position", "part", "tag", "wrong", "clears", "state"}
    assert all(set(point) == names for point in answer["points"])
    assert shop("job", "open-points", "NO-SUCH", "--json")[0] == 2


def test_errors_go_to_standard_error_with_exit_code_2(shop) -> None:  # type: ignore[no-untyped-def]
    code, out, err = shop("job", "open", SAMPLES / "faulty", "--order", "x", "--serial", "1", "--by", "OF")
    assert (code, out) == (2, "") and "faults" in err and "bill check" in err
    with pytest.raises(SystemExit) as stop:
        shop("part", "tag")
    assert stop.value.code == 2


def test_an_unknown_number_says_what_to_do(shop) -> None:  # type: ignore[no-untyped-def]
    code, _, err = shop("part", "show", "PO-1", "P123")
    assert code == 2 and "P123" in err and "part list" in err


def test_labels_of_a_job_are_read_back_by_the_read_command(shop, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    number = json.loads(shop("part", "off", "PO-1", "10.10", "--new-number", "--by", "OF", "--json")[1])["number"]
    picture = tmp_path / "label.png"
    assert shop("label", "picture", number, "--line", "10.10", "--out", picture)[0] == 0
    Image.new("L", (200, 200), 255).save(tmp_path / "blank.png")
    code, out, _ = shop("read", picture, tmp_path / "blank.png", "--json")
    first, second = json.loads(out)
    assert code == 0 and [(one["text"], one["ours"]) for one in first["codes"]] == [(number, True)]
    assert set(first) == {"file", "codes"} and set(first["codes"][0]) == {"text", "ours", "how"}
    assert second["codes"] == []
    assert shop("label", "job", "PO-1", "--out", tmp_path / "labels.pdf")[0] == 0
    assert (tmp_path / "labels.pdf").read_bytes()[:4] == b"%PDF"


def test_a_torn_picture_is_said_and_the_others_are_read(shop, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    (tmp_path / "torn.png").write_bytes(b"\x89PNG\r\n\x1a\n torn")
    code, out, _ = shop("read", tmp_path / "torn.png", "--json")
    assert code == 2 and json.loads(out)[0]["fault"]


def test_a_backup_starts_as_a_new_tablet_that_knows_everything(shop, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    number = json.loads(shop("part", "off", "PO-1", "10.10", "--new-number", "--by", "OF", "--json")[1])["number"]
    assert shop("backup", tmp_path / "copy")[0] == 0
    assert not (tmp_path / "copy" / "private").exists()
    before = json.loads(shop("job", "open-points", "PO-1", "--json")[1])
    after = json.loads(shop("job", "open-points", "PO-1", "--json", home=tmp_path / "copy")[1])
    assert before == after
    done = json.loads(
        shop("part", "off", "PO-1", "10.20", "--new-number", "--by", "OF", "--json", home=tmp_path / "copy")[1]
    )
    assert done["number"][1:5] != number[1:5], "a new incarnation issues numbers under its own letters"
    assert shop("verify", home=tmp_path / "copy")[0] == 0


def test_a_deleted_or_garbled_index_is_made_anew(shop, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    wanted = shop("job", "list", "--json")[1]
    shutil.rmtree(tmp_path / "data" / "index", ignore_errors=True)
    assert shop("job", "list", "--json")[1] == wanted
    shop("shop", "place", "RACK 1", "--by", "OF")
    shop("search", "RACK")
    index = next((tmp_path / "data" / "index").glob("*.json"), None)
    assert shop("job", "list", "--json")[1] == wanted
    if index is not None:
        index.write_bytes(b"{not json")
    code, out, _ = shop("job", "list", "--json")
    assert code == 0 and out == wanted


def test_the_second_program_that_wants_to_write_is_told_who_has_it(shop, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    code = (
        "import sys, os\nfrom pathlib import Path\n"
        "from teardown_app.workshop import open_workshop, assets_folder\n"
        "open_workshop(Path(sys.argv[1]), assets_folder(), writes=True)\nprint('open', flush=True)\nsys.stdin.read()\n"
    )
    other = subprocess.Popen(
        [sys.executable, "-c", code, str(tmp_path / "data")],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    )
    try:
        assert other.stdout is not None and other.stdout.readline() == "open\n"
        done, _, err = shop("shop", "place", "RACK 2", "--by", "OF")
        assert done == 2 and str(other.pid) in err
        assert shop("job", "list")[0] == 0, "looking needs no lock"
    finally:
        other.communicate("", timeout=WHOLE_RUN_S)
    assert shop("shop", "place", "RACK 2", "--by", "OF")[0] == 0


def test_a_torn_file_is_said_and_nothing_recorded_is_lost(shop, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    file = next((tmp_path / "data" / "out" / "journals").glob("*/j*.001.jsonl"))
    file.write_bytes(file.read_bytes() + b'{"v":1,"dev":"torn')
    before = json.loads(shop("job", "log", "PO-1", "--json")[1])
    code, _, err = shop("part", "off", "PO-1", "10.10", "--new-number", "--by", "OF")
    assert code == 0 and "set" in err
    assert json.loads(shop("job", "log", "PO-1", "--json")[1])[: len(before)] == before
    assert shop("verify")[0] == 0


def test_a_folder_that_cannot_be_used_says_so(run, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    (tmp_path / "file").write_text("x")
    code, _, err = run("shop", "person", "OF", "--by", "OF", home=tmp_path / "file")
    assert code == 2 and str(tmp_path / "file") in err


def test_the_module_is_the_same_as_the_command(tmp_path: Path) -> None:
    env = {**os.environ, "TEARDOWN_HOME": str(tmp_path / "data")}
    words = [sys.executable, "-m", "teardown_app", "shop", "people", "--json"]
    done = subprocess.run(words, env=env, capture_output=True, text=True, cwd=ROOT, check=False)
    assert (done.returncode, json.loads(done.stdout)) == (0, [])


def test_records_under_a_handed_in_clock_say_trial(shop, monkeypatch: pytest.MonkeyPatch) -> None:  # type: ignore[no-untyped-def]
    monkeypatch.setenv("TEARDOWN_CLOCK", "2027-01-02T03:04:05+00:00")
    assert shop("job", "amend", "PO-1", "--due", "2027-02-01", "--why", "x", "--by", "OF")[0] == 0
    rows = json.loads(shop("job", "log", "PO-1", "--json")[1])
    assert [row["trial"] for row in rows] == [False, True]
    assert rows[1]["wall"] == "2027-01-02T03:04:05+00:00"
    monkeypatch.setenv("TEARDOWN_CLOCK", "yesterday")
    code, _, err = shop("job", "amend", "PO-1", "--due", "2027-02-01", "--why", "x", "--by", "OF")
    assert code == 2 and "TEARDOWN_CLOCK" in err and "yesterday" in err


def test_a_clock_that_jumped_is_confirmed_by_somebody_with_the_right(shop, monkeypatch: pytest.MonkeyPatch) -> None:  # type: ignore[no-untyped-def]
    monkeypatch.setenv("TEARDOWN_CLOCK", "2027-01-02T03:00:00+00:00;1000")
    assert shop("shop", "place", "RACK 1", "--by", "OF")[0] == 0
    monkeypatch.setenv("TEARDOWN_CLOCK", "2027-02-02T03:00:00+00:00;1060")
    assert shop("shop", "place", "RACK 2", "--by", "OF")[0] == 0
    assert shop("shop", "clock", "--by", "OF")[0] == 0
    code, _, err = shop("shop", "clock", "--by", "OF")
    assert code == 2 and "right already" in err


def test_a_file_that_a_record_names_and_that_is_gone_is_found(shop, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    shutil.rmtree(tmp_path / "data" / "out" / "attachments")
    code, out, _ = shop("verify")
    assert code == 1 and "job.opened" in out and "is not there" in out
    code, out, _ = shop("backup", tmp_path / "copy")
    assert code == 1 and "is not there" in out


def test_confirmed_records_that_are_gone_are_found(shop, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    assert shop("job", "amend", "PO-1", "--due", "2027-02-01", "--why", "x", "--by", "OF")[0] == 0
    file = next((tmp_path / "data" / "out" / "journals").glob("*/j*.001.jsonl"))
    whole = file.read_bytes()
    file.write_bytes(whole[:-10])
    code, out, _ = shop("verify")
    assert code == 1 and "confirmed records 2 to 2" in out
    file.unlink()
    code, out, _ = shop("verify")
    assert code == 1 and "confirmed records 1 to 2" in out
    file.write_bytes(whole)
    assert shop("verify")[0] == 0


@pytest.mark.parametrize("steady", ["nan", "inf", "-5", "1e300"])
def test_steady_seconds_that_cannot_be_are_refused(shop, monkeypatch: pytest.MonkeyPatch, steady: str) -> None:  # type: ignore[no-untyped-def]
    monkeypatch.setenv("TEARDOWN_CLOCK", f"2026-03-14T09:30:00+01:00;{steady}")
    code, _, err = shop("shop", "place", "RACK 1", "--by", "OF")
    assert code == 2 and "TEARDOWN_CLOCK" in err


def test_a_tool_opened_twice_is_said(shop) -> None:  # type: ignore[no-untyped-def]
    out = shop("job", "open", SAMPLES / "ddp-12", "--order", "PO-1", "--serial", "7", "--by", "OF")[1]
    assert "is open on the same order and serial number" in out


def test_signs_that_steer_a_screen_are_not_printed(shop) -> None:  # type: ignore[no-untyped-def]
    assert shop("job", "amend", "PO-1", "--name", "a\x1b[31m\nb", "--why", "x", "--by", "OF")[0] == 0
    out = shop("job", "show", "PO-1")[1]
    assert "\x1b" not in out and out.count("\n") == 2


def test_a_reader_that_has_seen_enough_is_no_trouble(tmp_path: Path) -> None:
    words = f"{sys.executable} -m teardown_app bill lines '{SAMPLES / 'kbw-60'}' | head -1"
    done = subprocess.run(["sh", "-c", words], capture_output=True, text=True, cwd=ROOT, check=False)
    assert done.stderr == ""
