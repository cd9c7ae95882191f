"""Photographs: what they show, marks on a copy, written out with a list, nothing kept of what is refused."""

from __future__ import annotations

from pathlib import Path, PureWindowsPath

import pytest
from PIL import Image

from teardown_app.records.photographs import MARK_COLOUR
from tests.workflows.reassembly.bench import Bench
from tests.workflows.reassembly.pump import PUMP


def kept(bench: Bench) -> list[Path]:
    """Pictures in the data folder."""
    return [file for file in (bench.home / "out/attachments").rglob("*") if file.suffix in (".jpg", ".png")]


def test_neither_place_nor_camera_of_a_photograph_is_kept(bench: Bench, picture: Path) -> None:
    gps = Image.open(picture).getexif().get_ifd(0x8825)
    assert gps[1] == "N" and b"SECRET" in picture.read_bytes(), "the camera wrote them"
    bench.do(f"part photo PO-7781 '{picture}' --position 10.30 --full-size --ring 0.4,0.5,0.1 --by MK")
    assert len(kept(bench)) == 2
    for file in kept(bench):
        image = Image.open(file)
        assert not image.getexif() and not image.getexif().get_ifd(0x8825)
        assert not {"exif", "comment", "icc_profile", "xmp"} & set(image.info)
        assert b"SECRET" not in file.read_bytes() and b"Exif" not in file.read_bytes()


def test_marks_are_on_the_copy_alone(bench: Bench, picture: Path, tmp_path: Path) -> None:
    marks = "--ring 0.25,0.5,0.1 --ring 0.75,0.5,0.1 --arrow 0.1,0.1,0.5,0.5"
    digests = bench.ask(f"part photo PO-7781 '{picture}' {marks} --by MK")["photos"]
    rows = bench.ask(f"job photos PO-7781 --out '{tmp_path / 'out'}'")
    plain, copy = (Image.open(row["file"]).convert("RGB") for row in rows)
    assert len(digests) == 2 and plain.size == copy.size == (2000, 1000)
    for x, y in ((302, 500), (1302, 500), (600, 300)):  # left edges of the rings, middle of the arrow
        assert near(copy.getpixel((x, y))) and not near(plain.getpixel((x, y)))


def near(colour: object) -> bool:
    """True for the colour of marks, as far as JPEG keeps it."""
    assert isinstance(colour, tuple)
    return all(abs(a - b) < 40 for a, b in zip(colour, MARK_COLOUR, strict=True))


def test_what_photographs_show_is_listed(bench: Bench, picture: Path, tmp_path: Path) -> None:
    (bowl,) = bench.off("10.20")
    out = tmp_path / "out"
    bench.do(f"part photo PO-7781 '{picture}' --part 10.20 --position 10.30 --area flange --note 'dry' --by MK")
    bench.do(f"part photo PO-7781 '{picture}' --when shipped --by MK")
    rows = bench.ask(f"job photos PO-7781 --out '{out}'")
    assert rows[0]["shows"] == [f"{bench.tag(bowl)} bowl 10.20", "ring 10.30"] and rows[1]["shows"] == ["the tool"]
    (listed,) = out.glob("*.txt")
    text = listed.read_text(encoding="utf-8")
    assert "bowl 10.20, ring 10.30; flange; as found; dry; 2026-03-14" in text and "the tool; shipped" in text
    for name in (file.name for file in out.iterdir()):
        assert not set(name) & set('<>:"/\\|?*') and not PureWindowsPath(name).is_reserved()


def test_other_pictures_in_the_folder_stay(bench: Bench, picture: Path, tmp_path: Path) -> None:
    number = bench.job(PUMP, order="PO-9")
    out = tmp_path / "out"
    bench.do(f"part photo PO-7781 '{picture}' --by MK")
    bench.do(f"part photo PO-9 '{picture}' --by MK")
    rows = bench.ask(f"job photos PO-7781 --out '{out}'") + bench.ask(f"job photos PO-9 --out '{out}'")
    assert len({row["file"] for row in rows}) == 2 and number in Path(rows[1]["file"]).name


def test_a_photograph_that_is_not_here_yet_does_not_stop_the_others(
    bench: Bench, picture: Path, tmp_path: Path
) -> None:
    bench.do(f"part photo PO-7781 '{picture}' --full-size --by MK")
    bench.do(f"part photo PO-7781 '{picture}' --by MK")
    max(kept(bench), key=lambda file: file.stat().st_size).unlink()
    first, then = bench.ask(f"job photos PO-7781 --out '{tmp_path / 'out'}'")
    assert first["missing"] and not first["file"] and then["file"]
    assert "NOT HERE" in bench.do(f"job photos PO-7781 --out '{tmp_path / 'out'}'")


def test_a_photograph_taken_back_is_not_written_out(bench: Bench, picture: Path, tmp_path: Path) -> None:
    (ref,) = bench.ask(f"part photo PO-7781 '{picture}' --by MK")["recorded"]
    bench.write("record.voided", "job", record=ref, why="wrong tool")
    assert bench.ask(f"job photos PO-7781 --out '{tmp_path / 'out'}'") == []


@pytest.mark.parametrize(
    ("rest", "wrong"),
    [
        ("--part 10.20", "No part of bowl 10.20"),
        ("--position 99", "99 is no place of this tool"),
        ("--ring 0.5,0.5,2", "3 numbers between 0 and 1"),
        ("--arrow nan,0,1,1", "4 numbers between 0 and 1"),
        ("gone.jpg", "There is no file gone.jpg"),
    ],
)
def test_what_is_refused_leaves_no_picture(bench: Bench, picture: Path, rest: str, wrong: str) -> None:
    files, option = ("", rest) if rest.startswith("-") else (rest, "")
    assert wrong in bench.refused(f"part photo PO-7781 '{picture}' {files} {option} --by MK")
    assert kept(bench) == []


def test_photographs_do_not_stand_in_a_jobs_way(bench: Bench, picture: Path) -> None:
    before = bench.ask_points()
    bench.do(f"part photo PO-7781 '{picture}' --position 10.20 --by MK")
    assert bench.ask_points() == before
