"""The glossary is in order and names its sources; decisions are numbered, complete and say what they cost."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.house.sources import PROJECT

GLOSSARY = (PROJECT / "docs" / "glossary.md").read_text(encoding="utf-8")
TRADE, INSIDE = re.split(r"(?m)^## ", GLOSSARY)[1:]
ENTRY = re.compile(r"- \*\*(?P<word>[^*]+)\*\*: (?P<says>.+)")
STANDARDS = "ISO|IEC|JCGM|ASME|ASTM|SEMI|EN |CFR|ILAC|UN GHS"
SOURCE = re.compile(rf"\((?:common practice|[^()]*(?:{STANDARDS})[^()]*)\)$")
DECISIONS = sorted((PROJECT / "docs" / "decisions").glob("[0-9]*.md"))


def entries(section: str) -> list[re.Match[str]]:
    """The entries of one list of the glossary, every line of which must be one."""
    lines = [line for line in section.splitlines()[1:] if line]
    matches = [ENTRY.fullmatch(line) for line in lines]
    odd = [line for line, match in zip(lines, matches, strict=True) if match is None]
    assert not odd, odd
    return [match for match in matches if match]


def sorting(word: str) -> str:
    """A word as it sorts: small letters and digits only."""
    return re.sub(r"[^a-z0-9]+", " ", word.lower()).strip()


@pytest.mark.parametrize("section", [TRADE, INSIDE], ids=["trade", "inside"])
def test_the_glossary_is_in_order(section: str) -> None:
    """Each word stands once, where the alphabet puts it."""
    words = [sorting(entry["word"]) for entry in entries(section)]
    assert words == sorted(set(words))


def test_each_trade_word_names_its_standard_or_common_practice() -> None:
    """Nothing in the trade's list stands without a source."""
    assert [entry["word"] for entry in entries(TRADE) if not SOURCE.search(entry["says"])] == []


def test_no_word_of_the_inside_is_told_as_a_trade_word() -> None:
    """The two lists have no word in common."""
    assert {entry["word"] for entry in entries(TRADE)} & {entry["word"] for entry in entries(INSIDE)} == set()


def test_decisions_are_numbered_without_gaps() -> None:
    """Number in the file's name and in its heading agree, from 1 on."""
    named = [int(path.name[:4]) for path in DECISIONS]
    headed = [int(path.read_text(encoding="utf-8").split()[1].rstrip(".")) for path in DECISIONS]
    assert named == headed == list(range(1, len(DECISIONS) + 1))


@pytest.mark.parametrize("path", DECISIONS, ids=lambda path: path.stem)
def test_a_decision_says_what_it_costs(path: Path) -> None:
    """Context, decision and consequences are there, with at least one bad one, on one page."""
    text = path.read_text(encoding="utf-8")
    assert all(f"**{part}.**" in text for part in ("Context", "Decision", "Consequences"))
    assert "\n- Bad: " in text
    assert len(text.splitlines()) <= 60


def test_the_list_of_decisions_is_whole() -> None:
    """Every decision stands in the list, under its own title."""
    listed = (PROJECT / "docs" / "decisions" / "README.md").read_text(encoding="utf-8")
    for path in DECISIONS:
        title = path.read_text(encoding="utf-8").splitlines()[0].removeprefix("# ")
        assert f"- [{title}]({path.name})" in listed


def test_documents_point_only_at_files_that_are_there() -> None:
    """No link between documents of the project leads nowhere."""
    folders = (PROJECT / "docs", PROJECT / "sample_bills")
    documents = [*PROJECT.glob("*.md"), *(path for folder in folders for path in folder.rglob("*.md"))]
    links = [
        (path, link)
        for path in documents
        for link in re.findall(r"\]\(([^)#:\s]+)(?:#[^)]*)?\)", path.read_text(encoding="utf-8"))
    ]
    assert [f"{path.name}: {link}" for path, link in links if not (path.parent / link).exists()] == []


PAGES = [PROJECT / "README.md", PROJECT / "DEVELOPERS.md", *sorted((PROJECT / "docs").glob("*.md"))]


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.stem)
def test_a_file_that_a_page_names_is_there(page: Path) -> None:
    """What is named as a path of this project exists, with `*` for any."""
    named = re.findall(
        r"`((?:tests|teardown_app|docs|sample_bills|assets)/[\w./*-]+)`", page.read_text(encoding="utf-8")
    )
    assert [path for path in named if not list(PROJECT.glob(path))] == []


def test_the_page_of_promises_names_every_proof() -> None:
    """Each file of properties and of attempts stands in it."""
    page = (PROJECT / "docs" / "proof.md").read_text(encoding="utf-8")
    proofs = [path.name for path in sorted((PROJECT / "tests" / "proof").glob("test_*.py"))]
    assert proofs and [name for name in proofs if name not in page] == []
