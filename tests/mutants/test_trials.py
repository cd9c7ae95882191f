"""What counts as noticed: a small project whose one file is changed."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.house.sources import PROJECT
from tests.mutants.__main__ import Row, told, verdict
from tests.mutants.changes import Change, Made
from tests.mutants.reached import reached
from tests.mutants.rooms import ASKED, Step
from tests.mutants.trial import Answer, Trials, asked

HALF = "def half(number):\n    return number / 2\n"


@pytest.fixture
def project(tmp_path: Path) -> Path:
    """A small project with a room, its tests, and what the run needs of ours."""
    folder = tmp_path / "project"
    for file in ("tests/mutants/derandomized.py", "tests/mutants/reached.py", "pyproject.toml"):
        (folder / file).parent.mkdir(parents=True, exist_ok=True)
        (folder / file).write_bytes((PROJECT / file).read_bytes())
    (folder / "tests/conftest.py").write_text('"""Nothing is prepared."""\n', encoding="utf-8")
    room = folder / "teardown_app/records"
    room.mkdir(parents=True)
    (room / "half.py").write_text(HALF, encoding="utf-8")
    (folder / "tests/records").mkdir()
    test = "import pytest\nfrom teardown_app.records.half import half\n\ndef test_half():\n    assert half(4) == 2\n"
    (folder / "tests/records/test_half.py").write_text(test, encoding="utf-8")
    return folder


def change(code: str) -> Made:
    """A change of the small project's one file."""
    return Made(Change("teardown_app/records/half.py", 2, 11, "X", 0), code, "return number / 2", "…")


def noticed_by(project: Path, tmp_path: Path, code: str) -> str:
    """Who notices this text in the place of the file's."""
    return Trials(project, tmp_path / "trials").noticed_by(change(code))


def test_a_change_is_noticed_by_the_first_test_that_fails(
    project: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Also by one that cannot even be read; a change that nobody looks at is not noticed."""
    monkeypatch.setitem(ASKED, "records", ("tests/records",))
    by = noticed_by(project, tmp_path, HALF.replace("/", "*"))
    assert by == "tests/records/test_half.py::test_half"
    assert noticed_by(project, tmp_path / "two", "import nothing_of_the_kind\n") == "teardown_app/records/half.py"
    assert noticed_by(project, tmp_path / "three", HALF + "\n\ndef more():\n    return 1\n") == ""
    assert not (tmp_path / "trials" / "changed").exists()
    assert (project / "teardown_app/records/half.py").read_text(encoding="utf-8") == HALF


def test_tests_that_fail_without_a_change_say_nothing(
    project: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Else everything would count as noticed."""
    monkeypatch.setitem(ASKED, "records", ("tests/records",))
    (project / "teardown_app/records/half.py").write_text(HALF.replace("2", "3"), encoding="utf-8")
    with pytest.raises(Exception, match="without any change: tests/records/test_half.py::test_half"):
        noticed_by(project, tmp_path, HALF.replace("2", "4"))


def test_only_tests_that_run_what_is_changed_are_asked_about_it(
    project: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Those called like its file first; where none runs it, as of a table at the top, all of its room are asked."""
    monkeypatch.setattr("tests.mutants.trial.ASKED", {"records": ("tests/records",)})
    monkeypatch.setitem(ASKED, "records", ("tests/records",))
    more = "import pytest\nfrom teardown_app.records.half import half\n\n"
    more += (
        "@pytest.mark.parametrize('n', [2, 8])\ndef test_early(n):\n    assert half(n)\n\ndef test_other():\n    pass\n"
    )
    (project / "tests/records/test_early.py").write_text(more, encoding="utf-8")
    trials, kept = Trials(project, tmp_path / "trials"), tmp_path / "kept.jsonl"
    trials.keep_reached(kept)
    size = kept.stat().st_size
    trials.keep_reached(kept)
    trials.known = reached(kept)
    early, named = "tests/records/test_early.py::test_early", "tests/records/test_half.py::test_half"
    assert kept.stat().st_size == size and set(trials.known.seconds) == {early, early[:-5] + "other", named}
    assert trials.known.quickest("teardown_app/records/half.py", "half") == [named, early]
    assert trials.known.quickest("teardown_app/records/half.py", "double") == []
    assert trials.noticed_by(change(HALF.replace("/ 2", "/ 3"))) == named
    (tmp_path / "trials/plain/tests/records/test_third.py").write_text("def test_3():\n    raise OSError\n")
    assert trials.noticed_by(change(HALF + "\n\ndef more():\n    return 1\n")) == ""


def test_tests_that_somebody_ended_say_nothing(project: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A machine that runs out of memory, or a person, would else be taken for a test that noticed."""
    monkeypatch.setitem(ASKED, "records", ("tests/records",))
    ending = "import os, signal\n\ndef test_half():\n    os.kill(os.getpid(), signal.SIGTERM)\n"
    (project / "tests/records/test_half.py").write_text(ending, encoding="utf-8")
    with pytest.raises(Exception, match="somebody ended the tests"):
        noticed_by(project, tmp_path, HALF.replace("2", "4"))


def test_tests_that_never_end_are_ended(project: Path) -> None:
    """With what they started."""
    (project / "tests/records/test_half.py").write_text(
        "import time\n\ndef test_half():\n    time.sleep(600)\n", encoding="utf-8"
    )
    answer = asked(project, Step("tests/records"), 3.0)
    assert answer.code is None and answer.failed == "" and answer.seconds < 60


def row(by: str, equal: str = "") -> Row:
    """What became of some change."""
    return Row(1, "teardown_app/records/half.py", 2, "a", "b", by, equal)


def test_enough_is_95_of_100_of_those_that_can_be_noticed() -> None:
    """Those listed as equal are left aside; nothing tried is enough."""
    assert verdict([*[row("test")] * 19, row("")])[1]
    assert not verdict([*[row("test")] * 18, row("")])[1]
    said, enough = verdict([row("test"), row("", "it says the same")])
    assert enough and "1 listed as equivalent, 1 of 1 noticed: 100.0%" in said
    assert "NOT NOTICED" in told(row("")) and "test" in told(row("test")) and "the same" in told(row("", "the same"))
    assert Answer(0, "", 0.0).code == 0
