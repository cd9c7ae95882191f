"""Counts what a person has to do for each part, and writes it to `docs/ease.md`: `python -m tests.ui.ease`.

A gesture is one touch, one scan, or one entry typed on a pad.
"""

from __future__ import annotations

import tempfile
from collections.abc import Callable
from pathlib import Path

from PIL import Image

from teardown_app.domain.parts.filling import holder
from teardown_app.domain.parts.parts import number_of, own_place, parts
from teardown_app.domain.parts.routing import remaining
from teardown_app.labels.label import Label
from teardown_app.labels.picture import png
from teardown_app.ui.view import Step
from tests.patience import WHOLE_RUN_S
from tests.ui.hands import Hand, answer_all, answer_tag, clear_points, make_good, take_apart
from tests.ui.shop import PIN, filled_desk

PAGE = Path(__file__).parents[2] / "docs" / "ease.md"


def _hand(job: str, code: str = "MK") -> Hand:
    hand = Hand(filled_desk(Path(tempfile.mkdtemp()) / "home"))
    hand.sign_on(code)
    hand.row(job)
    hand.touch("Work on")
    return hand


def breakdown() -> int:
    """One part: its condition, its label, a photograph that was just taken."""
    hand = _hand("pump")
    while not (hand.view.main and hand.view.main.says.startswith(("Tag", "Scan a label"))):
        assert hand.view.main
        hand.touch(hand.view.main.says)
        answer_all(hand)
    folder = hand.desk.workshop.home.path / "pictures"
    folder.mkdir()
    Image.new("RGB", (640, 480), "grey").save(folder / "taken.jpg")
    before = hand.gestures
    hand.touch("Photograph")
    hand.touch("Keep it")
    hand.touch("Good")
    hand.scan(answer_tag(hand.desk))
    kinds = [one.typ for one in hand.desk.job.records.values()]
    assert kinds.count("photo.taken") == 1 and kinds.count("part.taken_off") >= 1
    return hand.gestures - before


def _at_one_operation(hand: Hand) -> list[str]:
    """Twenty parts, or as many as there are, that stand at the same operation."""
    groups: dict[str, list[str]] = {}
    for part in parts(hand.desk.job):
        left = remaining(hand.desk.job, part)
        if left:
            groups.setdefault(left[0].says, []).append(part)
    return max(groups.values(), key=len)[:20]


def _at_the_baths() -> tuple[Hand, list[str]]:
    """The cleaning room of the rinser-dryer taken apart, and a basket for it."""
    hand = _hand("BRD-25")
    take_apart(hand)
    hand.touch("Cleaning")
    return hand, _at_one_operation(hand)


def cleaning_scans() -> tuple[int, int]:
    """A basket through one operation, each part scanned: gestures and parts."""
    hand, chosen = _at_the_baths()
    before = hand.gestures
    for part in chosen:
        hand.scan(number_of(hand.desk.job, part))
    return _done(hand, before), len(chosen)


def cleaning_picture() -> tuple[int, int]:
    """The same with one picture of all labels."""
    hand, chosen = _at_the_baths()
    before = hand.gestures
    folder = hand.desk.workshop.home.path / "scans"
    folder.mkdir()
    sheet = Image.new("L", (5 * 420, 4 * 420), 255)
    for n, part in enumerate(chosen):
        path = folder.parent / "one.png"
        path.write_bytes(png(Label(number_of(hand.desk.job, part)), dpi=203, dots=8))
        with Image.open(path) as one:
            sheet.paste(one.convert("L"), (n % 5 * 420 + 20, n // 5 * 420 + 20))
    sheet.save(folder / "basket.png")
    hand.gestures += 1  # the picture is taken
    for _ in range(3):
        hand.desk.tick()
        if hand.desk.slow._under_way:
            hand.desk.slow._under_way[0].result(WHOLE_RUN_S)
    assert hand.view.card.far == f"{len(chosen)} of {len(chosen)}", hand.view.scan.says
    return _done(hand, before), len(chosen)


def _done(hand: Hand, before: int) -> int:
    step = next(one for one in (hand.view.main, *hand.view.quiet) if one and one.says.startswith("Done"))
    hand.touch(step.says)
    answer_all(hand)
    assert "done on" in hand.view.scan.says, hand.view.scan.says
    return hand.gestures - before


def assembly() -> int:
    """A released part goes in."""
    hand = _hand("pump")
    take_apart(hand)
    make_good(hand)
    hand.touch("Open points")
    hand.desk.open("release ready")
    answer_all(hand)
    hand.touch("Assembly")
    for part in parts(hand.desk.job):
        before = hand.gestures
        hand.scan(number_of(hand.desk.job, part))
        if hand.view.card.far == "YES":
            assert holder(hand.desk.job, own_place(hand.desk.job, part)) == part
            return hand.gestures - before
    raise AssertionError(hand.view.card.word)


def search() -> int:
    """Any part from any screen, by a piece of its name that only it has."""
    hand = _hand("pump")
    take_apart(hand)
    part = parts(hand.desk.job)[0]
    hand.touch("Office")
    before = hand.gestures
    hand.desk.touch(Step("Search", "search"))
    hand.gestures += 1
    hand.enter(number_of(hand.desk.job, part))
    assert hand.desk.screen.state["part"] == part
    return hand.gestures - before


def person() -> int:
    """Another person who signed on this shift."""
    hand = _hand("pump", "TB")
    hand.sign_on("AS")
    before = hand.gestures
    hand.who()
    hand.enter("TB")
    assert hand.desk.session.current == "TB"
    return hand.gestures - before


def release() -> int:
    """All ready parts of an assembly; the PIN is one of them."""
    hand = _hand("pump")
    take_apart(hand)
    make_good(hand)
    hand.touch("Assembly")
    before = hand.gestures
    step = next(one for one in (hand.view.main, *hand.view.quiet) if one and one.says.startswith("Release"))
    hand.touch(step.says)
    hand.enter(PIN)
    assert [one.typ for one in hand.desk.job.records.values()][-1] == "part.released"
    return hand.gestures - before


def whole_job() -> int:
    """A pump from the first part off to the closed job, by one person who follows the screens' own next steps."""
    hand = _hand("pump")
    take_apart(hand)
    make_good(hand)
    clear_points(hand)
    hand.touch("Close and sign")
    answer_all(hand)
    assert hand.desk.opened.live.closed
    return hand.gestures


WHOLE_JOB = 486
"""A tenth more than the 442 gestures that were counted while closing and signing were still two acts."""

COUNTED: tuple[tuple[str, str, int, Callable[[], int | tuple[int, int]]], ...] = (
    ("Breakdown", "one part: photograph, condition, label", 4, breakdown),
    (
        "Cleaning, single scans",
        "a basket through one operation, begun, two values written down",
        25,
        cleaning_scans,
    ),
    ("Cleaning, one picture", "the same basket with one picture of its labels", 5, cleaning_picture),
    ("Assembly", "a released part goes in", 1, assembly),
    ("Search", "any part from any screen by number", 2, search),
    ("Person", "somebody else of this shift", 2, person),
    ("A whole job", "a pump, one person, from the first part off to the closed job", WHOLE_JOB, whole_job),
    ("Release", "all ready parts of an assembly, the PIN included", 3, release),
)


def counted() -> list[tuple[str, str, int, int, int]]:
    """Name, what, most, counted, parts."""
    rows = []
    for name, what, most, count in COUNTED:
        found = count()
        number, many = found if isinstance(found, tuple) else (found, 1)
        rows.append((name, what, most, number, many))
    return rows


def page(rows: list[tuple[str, str, int, int, int]]) -> str:
    """The page as Markdown."""
    lines = [
        "# What a person has to do",
        "",
        "Counted by the tests at the desk of the sample jobs (`python -m tests.ui.ease` writes this page). "
        "A gesture is one",
        "touch, one scan, or one entry typed on a pad.",
        "",
        "| what | | gestures | at most |",
        "|---|---|---|---|",
    ]
    lines += [
        f"| {name} | {what}{f' ({many} parts)' if many > 1 else ''} | {number} | {most} |"
        for name, what, most, number, many in rows
    ]
    return "\n".join(lines) + "\n"


if __name__ == "__main__":
    PAGE.write_text(page(counted()), encoding="utf-8")
