"""The measured house keeps its bounds; each measure is shown to see what it is for."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.house import measured
from tests.house.sources import PROJECT


@pytest.fixture(scope="module")
def page() -> str:
    """The page, measured once."""
    return measured.page(PROJECT)


def test_the_page_has_the_measures_there_are(page: str) -> None:
    """Its figures are those of the day it was written: with every change they move a little."""
    figures = re.compile(r"\d+")
    written = measured.PAGE.read_text(encoding="utf-8")
    assert figures.sub("N", written) == figures.sub("N", page), "write it anew: python -m tests.house.measured"


def test_no_long_function_is_added() -> None:
    """Those that were long when the bound was set are listed; none comes to them, one that was shortened leaves."""
    listed = set(measured.LISTED.read_text(encoding="utf-8").splitlines())
    found = measured.long_functions(PROJECT)
    assert not found - listed, f"shorten: {sorted(found - listed)}"
    assert not listed - found, f"take off the list: {sorted(listed - found)}"


def test_no_room_of_domain_is_overfull() -> None:
    """A room with more files is two rooms."""
    assert not {name: count for name, count in measured.rooms(PROJECT).items() if count > measured.MOST_FILES}


def test_no_sentence_below_the_doors_names_a_command() -> None:
    """What helps is named by its row; each door words it."""
    assert measured.naming_commands(PROJECT) == []


def test_nothing_is_ticked_that_is_open_and_nothing_proposed_that_is_refused(page: str) -> None:
    """Ticks are read from the open points, what is next from what stands against it; both were asked of many."""
    (wrong, asked), (refused, proposed) = re.findall(r"of those .* \| (\d+) of (\d+) \|", page)
    assert (wrong, refused) == ("0", "0")
    assert int(asked) > 5 * measured.TICKED and int(proposed) > 5 * measured.PROPOSED


def house(root: Path, module: str, text: str) -> Path:
    """A tree of its own with one file of the package."""
    path = root / "teardown_app" / f"{module}.py"
    path.parent.mkdir(parents=True)
    path.write_text(text, encoding="utf-8")
    return root


def test_a_long_function_is_seen(tmp_path: Path) -> None:
    """A function within another does not count for the outer one."""
    body = "\n".join(f"    x = {n} + 1" for n in range(60))
    inner = "\n".join(f"        y = {n} + 1" for n in range(20))
    text = f"def long():\n{body}\n\n\ndef short():\n    def within():\n{inner}\n    return within\n"
    assert measured.long_functions(house(tmp_path, "domain/thing", text)) == {"teardown_app/domain/thing.py: long"}


def test_files_of_a_room_within_a_room_are_seen(tmp_path: Path) -> None:
    assert measured.rooms(house(tmp_path, "domain/ledger/kinds/job", "x = 1\n")) == {"ledger": 1}


def test_words_looked_up_are_seen(tmp_path: Path) -> None:
    """A number in brackets is none, nor a word that is a name."""
    root = house(tmp_path, "workflows/thing", 'a = b["why"] + b.get("how", 1) + b[0] + b[word] + b.get(word)\n')
    assert measured.words_in_brackets(root) == {"workflows": 1}
    assert measured.words_asked_for(root) == {"workflows": 1}


@pytest.mark.parametrize(
    ("text", "seen"),
    [
        ('x = "Take it out first: part out."', True),
        ('x = f"Take {name} out: part out {name}."', True),
        ('x = "Take the part out."', False),
        ('see = "part out"', False),
        ('"""Doors call it part out."""', False),
    ],
)
def test_a_sentence_that_names_a_command_is_seen(tmp_path: Path, text: str, seen: bool) -> None:
    """A name of a row alone is none, nor a docstring, nor the words by chance behind an article."""
    assert bool(measured.naming_commands(house(tmp_path, "workflows/thing", text + "\n"))) == seen
