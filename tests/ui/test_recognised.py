"""Labels that no reader can read: recognised by comparison, offered where that is weak, never made up."""

from __future__ import annotations

import json
from pathlib import Path

import numpy as np
import pytest
from attrs import evolve
from PIL import Image

from teardown_app.cli.main import main
from teardown_app.domain.parts.parts import number_of
from teardown_app.domain.tags.tag import issue
from teardown_app.intake import known_codes, still_codes
from teardown_app.intake.comparison.compare import compare
from teardown_app.intake.comparison.known_tags import KnownTags
from teardown_app.intake.read_codes import Code
from teardown_app.ui import label_reader, under_the_mark
from teardown_app.ui import looking as looking_room
from teardown_app.ui.black_box import BlackBox
from teardown_app.ui.camera import Frame
from teardown_app.ui.label_reader import AT_ONCE, LabelReader
from teardown_app.ui.looking import Looking
from teardown_app.ui.under_the_mark import COMPARE_EVERY_S, IN_VAIN_EVERY_S
from teardown_app.ui.watching import odds
from tests.patience import WHOLE_RUN_S, until
from tests.scanbench import frame, stained
from tests.scanbench.aimed import frames, scene
from tests.ui.hands import Hand, at, taken_off

SEED = 21
HALF_COVERED = 0.5


def photo(number: str, share: float = 0.3, place: int = 0) -> np.ndarray:
    """A label of which a share is under stains, finders included, in the middle of the picture."""
    grey, (drawn,) = frame(900_000 + place, stained(share, place + 1, SEED)[place], seed=SEED, numbers=[number])
    off = np.array(grey.shape[::-1]) / 2 - drawn.corners.mean(0)
    return np.roll(grey, (round(off[1]), round(off[0])), axis=(0, 1))


def likely_photo(number: str, known: KnownTags) -> np.ndarray:
    """One that is recognised too weakly to be taken."""
    for place in range(200):
        grey = photo(number, HALF_COVERED, place)
        found = compare(grey, known)
        if found is not None and not found.chance.sure:
            assert found.number == number
            return grey
    raise AssertionError("of 200 photographs half covered none is weak")


def shown(hand: Hand, grey: np.ndarray) -> None:
    """Puts a picture where the tablet finds it, and lets it be read."""
    desk = hand.desk
    folder = desk.workshop.home.path / "scans"
    folder.mkdir(exist_ok=True)
    Image.fromarray(grey).save(folder / f"{len(list(folder.iterdir()))}.png")
    desk.watching.frames._looked -= 10
    desk.tick()
    while desk.slow.says:
        desk.tick()


@pytest.fixture
def tagged(hand: Hand) -> str:
    """The number of a part that came off; the tablet knows a roll of numbers besides."""
    at(hand, "BRD-25")
    return number_of(hand.desk.job, taken_off(hand.desk, "10.10"))


def test_a_label_under_a_stain_is_taken_and_it_is_said_how_sure(hand: Hand, tagged: str) -> None:
    """A third is covered: the part opens, with the chance that the number is wrong."""
    shown(hand, photo(tagged))
    assert hand.desk.screen.name == "part"
    assert f"{tagged} recognised (wrong: < 1 in 1,000,000,000)" in hand.view.scan.says


def test_a_weak_one_is_offered_and_taken_when_the_person_has_compared(hand: Hand, tagged: str) -> None:
    """Half is covered and little is left: the printed number is asked for, yes opens the part."""
    grey = likely_photo(tagged, KnownTags(hand.desk.workshop.known_numbers()))
    screen = hand.desk.screen.name
    shown(hand, grey)
    live = hand.view.live
    assert hand.desk.screen.name == screen and live is not None and tagged in live.says
    assert "wrong: 1 in " in hand.view.scan.says
    hand.desk.touch(live.steps[0])
    assert hand.desk.screen.name == "part"


def test_a_number_that_nobody_knows_is_not_made_up(hand: Hand, tagged: str) -> None:
    """The same stain on a label of another shop's tablet: nothing is taken and nothing offered."""
    screen = hand.desk.screen.name
    shown(hand, photo(issue("P", "ZZ9A", 5, 1)[0][0]))
    assert hand.desk.screen.name == screen and "No number of ours" in hand.view.scan.says


def aimed_photo(number: str, stain: float = 0.3) -> np.ndarray:
    """A stained label under the mark of a camera's picture, alone."""
    there = scene(3, SEED, stain)
    return next(frames(evolve(there, specs=there.specs[:1], middles=there.middles[:1]), [number]))


class Compared:
    """A reader that reads nothing, with a clock by hand, and when it compared."""

    def __init__(self, folder: Path, monkeypatch: pytest.MonkeyPatch, known: list[str]) -> None:
        self.now, self.at = 0.0, []
        reader = LabelReader(BlackBox(folder), frames=lambda: lambda grey: [], clock=lambda: self.now)
        reader.know(known)
        real = reader._compared
        monkeypatch.setattr(reader, "_compared", lambda *it: self.at.append(self.now) or real(*it))
        self._look = reader.for_frames()

    def see(self, grey: np.ndarray) -> set[str]:
        """What stands in a frame a tenth of a second later."""
        self.now += 0.1
        return {code.text for code in self._look(grey)}


def test_the_camera_compares_now_and_then_and_between_them_the_label_is_still_there(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What lies under the mark and was not read; taken away, it is gone at once."""
    number = issue("P", "7K3M", 40, 1)[0][0]
    compared = Compared(tmp_path, monkeypatch, [number, *issue("P", "7K3M", 100, 90)[0]])
    grey = aimed_photo(number)
    assert all(number in compared.see(grey) for _ in range(20))
    at = sorted(set(compared.at))
    assert 5 <= len(at) <= 10 and all(b - a >= COMPARE_EVERY_S - 1e-9 for a, b in zip(at, at[1:], strict=False))
    assert compared.see(np.zeros_like(grey)) == set()


def test_a_label_of_an_unknown_number_is_told_as_not_read_and_compared_seldom(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """In every frame something is there without a text."""
    compared = Compared(tmp_path, monkeypatch, list(issue("P", "7K3M", 100, 90)[0]))
    grey = aimed_photo(issue("P", "ZZ9A", 5, 1)[0][0])
    assert all(compared.see(grey) == {""} for _ in range(12))
    assert 2 <= len(compared.at) <= 1 + 1.2 / IN_VAIN_EVERY_S


def test_a_label_that_was_read_on_the_mark_ends_the_looking(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Nothing is compared, whatever lies beside it."""
    there = scene(4, SEED, 0.0)
    numbers = list(issue("P", "7K3M", 100, len(there.specs))[0])
    reader = LabelReader(BlackBox(tmp_path))
    monkeypatch.setattr(reader, "_compared", lambda *_: pytest.fail("compared"))
    assert numbers[0] in {code.text for code in reader.for_frames()(next(frames(there, numbers)))}


def test_a_frame_and_a_file_are_compared_in_the_time_they_have(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Each hands its own deadline on to the comparison; all other tests here have no end to it."""
    handed: list[float] = []
    for room in (known_codes, still_codes):
        monkeypatch.setattr(room, "recognised", lambda *_, deadline_s, **__: handed.append(deadline_s) or [])
    monkeypatch.setattr(under_the_mark, "FRAME_DEADLINE_S", 1.25)
    monkeypatch.setattr(label_reader, "FILE_DEADLINE_S", 2.5)
    number = issue("P", "7K3M", 40, 1)[0][0]
    reader, grey = LabelReader(BlackBox(tmp_path), frames=lambda: lambda grey: []), aimed_photo(number)
    reader.know([number])
    reader.for_frames()(grey)
    assert set(handed) == {1.25}
    Image.fromarray(grey).save(tmp_path / "grey.png")
    reader.in_file(tmp_path / "grey.png")
    assert len(handed) > 1 and all(2 < one <= 2.5 for one in handed[1:])


def test_many_numbers_are_worked_up_frame_by_frame(tmp_path: Path) -> None:
    """The first frames do not wait for thousands of symbols, and what is told twice is learned once."""
    reader = LabelReader(BlackBox(tmp_path), frames=lambda: lambda grey: [])
    numbers = issue("P", "7K3M", 0, 3 * AT_ONCE)[0]
    for _ in range(50):
        reader.know(numbers)
    look, grey = reader.for_frames(), np.zeros((48, 64), np.uint8)
    for looks in range(1, 5):
        look(grey)
        assert len(reader._known) == min(looks, 3) * AT_ONCE


def test_the_command_says_the_chance(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """`read` on a stained label of a roll: the number, how it was found, and the chance itself."""
    home = ["--home", str(tmp_path / "home")]
    for words in (
        ["shop", "person", "AB", "--by", "AB"],
        ["label", "roll", "40", "--by", "AB", "--out", str(tmp_path / "roll.pdf")],
    ):
        assert main([*words, *home]) == 0
    capsys.readouterr()
    main(["label", "roll", "1", "--by", "AB", "--out", str(tmp_path / "one.pdf"), "--json", *home])
    number = json.loads(capsys.readouterr().out)["numbers"][0]
    Image.fromarray(photo(number)).save(tmp_path / "dirty.png")
    assert main(["read", str(tmp_path / "dirty.png"), "--json", *home]) == 0
    ((code,),) = [row["codes"] for row in json.loads(capsys.readouterr().out)]
    assert code["text"] == number and code["sure"] and 0 < code["chance"] < 1e-9


def test_odds_are_said_in_whole_numbers() -> None:
    """Weak ones as they are, below our bound only that."""
    assert odds(1e-3) == "1 in 1,000" and odds(1e-12) == "< 1 in 1,000,000,000"


class FlickeringBench:
    """A camera over one tray: twenty frames, then nothing new."""

    def __init__(self) -> None:
        self.frames = iter(range(1, 21))

    def wait_newer(self, _number: int, _wait_s: float) -> Frame | None:
        """The next frame."""
        number = next(self.frames, 0)
        return Frame(number, np.zeros((72, 128, 3), np.uint8), (128, 72), b"", (1, 1)) if number else None


def test_a_tray_keeps_its_best_picture_while_readers_take_turns(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Five labels are read once, then three or four: one picture is written, and it stays."""
    monkeypatch.setattr(looking_room, "monotonic", lambda: 0.0)
    numbers, counts = issue("P", "7K3M", 0, 6)[0], iter([5, *[3, 4] * 20])
    codes = [
        Code(one, True, "zxing", ((9 * n, 1), (9 * n + 5, 1), (9 * n + 5, 6), (9 * n, 6)))
        for n, one in enumerate(numbers)
    ]
    reader = LabelReader(BlackBox(tmp_path), frames=lambda: lambda grey: codes[: next(counts)])
    looking = Looking(FlickeringBench(), reader, tmp_path / "trays")
    looking.start()
    until(lambda: looking.newest is not None and looking.newest.number == 20)
    seen = looking.take()
    looking.stop()
    looking.thread.join(WHOLE_RUN_S)
    (picture,) = (tmp_path / "trays").iterdir()
    assert {one.file for one in seen} <= {"", str(picture)}
