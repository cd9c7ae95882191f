"""No path of one machine, nothing astray at the top, no inside words in sentences; each check can fail."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import pytest

from tests.house import words
from tests.house.sources import PROJECT, told


def test_no_file_names_one_machine() -> None:
    """What is kept here runs and reads the same on every machine."""
    faults = words.machine_faults(PROJECT, words.kept_files(PROJECT))
    assert not faults, told(faults)


def test_everything_at_the_top_has_its_place_there() -> None:
    """The top of the project is the same short list for every newcomer."""
    faults = words.top_faults(words.kept_files(PROJECT))
    assert not faults, told(faults)


def test_sentences_for_people_use_the_trade_s_words() -> None:
    """No sentence on a screen, paper or terminal speaks of the program's inside."""
    faults = words.inside_word_faults(PROJECT)
    assert not faults, told(faults)


ELSEWHERE = ["see /" + "tmp/x", 'open("/' + 'home/a")', "/" + "root/b", "get it from pypi." + "org"]


@pytest.mark.parametrize("line", ELSEWHERE)
def test_a_path_of_one_machine_is_named(tmp_path: Path, line: str) -> None:
    """The line that names it is told, in Python files and in documents alike."""
    (tmp_path / "docs").mkdir()
    (tmp_path / "docs" / "a.md").write_text(f"first\n{line}\n", encoding="utf-8")
    assert [fault.line for fault in words.machine_faults(tmp_path, ["docs/a.md"])] == [2]


def test_paths_that_belong_to_the_project_and_pictures_are_let_be(tmp_path: Path) -> None:
    """A folder of the project may be called home, and a picture is no text."""
    (tmp_path / "a.md").write_text("look in docs/home/a.md\n", encoding="utf-8")
    (tmp_path / "b.png").write_bytes(b"\x89PNG\xff/" + b"tmp/")
    assert words.machine_faults(tmp_path, ["a.md", "b.png"]) == []


def test_something_astray_at_the_top_is_named() -> None:
    """Dot files are settings; anything else has to be on the list."""
    faults = words.top_faults(["README.md", ".gitignore", "notes.txt", "scratch/x.py", "docs/a.md"])
    assert [fault.file for fault in faults] == ["notes.txt", "scratch"]


@pytest.mark.skipif(shutil.which("git") is None, reason="git is not installed")
def test_only_files_that_git_keeps_are_looked_at(tmp_path: Path) -> None:
    """What lies about untracked is nobody's fault; without git every file counts."""
    (tmp_path / "kept.md").write_text("a", encoding="utf-8")
    (tmp_path / "lies_about.md").write_text("b", encoding="utf-8")
    (tmp_path / ".venv").mkdir()
    (tmp_path / ".venv" / "made.py").write_text("c", encoding="utf-8")
    assert words.kept_files(tmp_path) == ["kept.md", "lies_about.md"]
    subprocess.run(["git", "init", "-q", str(tmp_path)], check=True)
    subprocess.run(["git", "-C", str(tmp_path), "add", "kept.md"], check=True)
    assert words.kept_files(tmp_path) == ["kept.md"]


def spoken_in(root: Path, text: str) -> list[str]:
    """What is found wrong in a workflow that holds this text."""
    room = root / "teardown_app" / "workflows"
    room.mkdir(parents=True)
    (room / "fit.py").write_text(text, encoding="utf-8")
    return [fault.says for fault in words.inside_word_faults(root)]


@pytest.mark.parametrize(
    "text",
    [
        'x = f"The journal of {a} is torn."',
        'x = "two heads are in conflict"',
        'say("a fork was found")',
        'x = "Record ID 7 is unknown."',
    ],
)
def test_a_word_of_the_inside_in_a_sentence_is_named(tmp_path: Path, text: str) -> None:
    """Plain and formatted sentences are read alike."""
    assert len(spoken_in(tmp_path, text)) == 1


@pytest.mark.parametrize(
    "text",
    [
        'x = "heads"',
        'x = body["facet"]',
        '"""Facets of a fork in the journal."""',
        'x = "journal bearing of the spindle"',
        'x = "hex head screw M6"',
    ],
)
def test_keys_docstrings_and_trade_words_are_let_be(tmp_path: Path, text: str) -> None:
    """A key is no sentence, a docstring speaks to developers, a screw has a head."""
    assert spoken_in(tmp_path, text) == []
