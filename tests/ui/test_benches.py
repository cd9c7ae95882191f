"""The benches at the desk, without a window: whole jobs, scans, counts, photographs, search, news."""

from __future__ import annotations

from functools import partial

import pytest
from PIL import Image

from teardown_app.domain.ledger.record import Record
from teardown_app.domain.parts.filling import place_of
from teardown_app.domain.parts.parts import number_of, parts
from teardown_app.domain.places.place import in_the_way
from teardown_app.domain.points.point import OPEN
from teardown_app.ui.tree import TALLIES, Tally
from teardown_app.ui.view import Step
from tests.ui.hands import Hand, answer_all, answer_tag, at, clear_points, make_good, take_apart


def test_a_rinser_dryer_is_worked_through_by_the_screens_own_next_steps(hand: Hand) -> None:
    """Every place of the sample; at the end nothing is open and the job is closed."""
    at(hand, "BRD-25")
    take_apart(hand)
    assert len(parts(hand.desk.job)) == 49
    make_good(hand)
    clear_points(hand)
    hand.touch("Close")
    answer_all(hand)
    assert hand.desk.opened.live.closed and not [one for one in hand.desk.points() if one.state == OPEN]


def test_a_label_that_is_taken_a_foreign_code_and_another_jobs_part_record_nothing(hand: Hand) -> None:
    """Each is said, and what is shown is the part, or nothing new."""
    at(hand, "pump")
    first = next(one for one in iter(lambda: hand.view.main, None) if one)
    while not first.says.startswith(("Tag", "Scan a label")):
        hand.touch(first.says)
        answer_all(hand)
        first = hand.view.main or first
    number = answer_tag(hand.desk)
    hand.scan(number)
    count = len(hand.desk.job.records)
    hand.scan(number)
    assert hand.desk.screen.name == "part"
    hand.scan("4006381333931")
    assert "no number of ours" in hand.view.scan.says and hand.view.scan.mark == "reject"
    hand.touch("Jobs")
    hand.row("BRD-25")
    hand.touch("Work on")
    hand.scan(number)
    assert "belongs to job" in hand.view.scan.says
    assert len(hand.desk.job.records) == count


def test_search_finds_by_number_position_and_words_in_two_gestures(hand: Hand) -> None:
    """One to open the search, one to say what; a position and a number go straight there."""
    at(hand, "pump")
    take_apart(hand)
    part = parts(hand.desk.job)[3]
    number, key = number_of(hand.desk.job, part), hand.desk.job.value(part, "out_of")
    for words in (number, number.lower(), key):
        hand.desk.touch(Step("Search", "search"))
        hand.enter(words)
        assert hand.desk.screen.name == "part" and hand.desk.screen.state["part"] == part
    hand.desk.touch(Step("Search", "search"))
    hand.enter("valve")
    assert hand.desk.screen.name == "found" and all("VALVE" in row.text.upper() for row in hand.view.rows)


def test_back_from_another_jobs_part_leads_back_to_the_job(hand: Hand) -> None:
    """The next touch is in the job that the bench shows."""
    at(hand, "pump")
    take_apart(hand)
    pump, number = hand.desk.job_number, number_of(hand.desk.job, parts(hand.desk.job)[0])
    hand.touch("Jobs")
    hand.row("BRD-25")
    hand.touch("Work on")
    dryer = hand.desk.job_number
    hand.scan(number)
    assert (hand.desk.job_number, hand.desk.screen.name) == (pump, "part")
    hand.touch("Back")
    assert (hand.desk.job_number, hand.desk.screen.name) == (dryer, "teardown")


@pytest.mark.parametrize("text", ["", "   ", "²", "9" * 5000, "-1", "1e3", "abc"])
def test_nonsense_is_no_count(hand: Hand, text: str) -> None:
    """It is refused in words, and the field asks again."""
    at(hand, "BRD-25")
    hand.touch("Count")
    hand.enter(text)
    field = hand.view.field
    assert field and field.name == "found" and hand.view.scan.mark == "reject"
    assert len(hand.desk.job.records) == 1


def test_screws_are_counted_into_a_labelled_bag(hand: Hand) -> None:
    """The bag's label is scanned where the screws are in hand."""
    at(hand, "BRD-25")
    numbers, draft = hand.desk.workshop.new_numbers("H", 1)
    hand.desk.workshop.record([draft], "MK")
    hand.scan(numbers[0])
    hand.enter("1")
    counted = [one for one in hand.desk.job.records.values() if one.typ == "hardware.counted"]
    assert [(one.body["found"], one.body["bag"]) for one in counted] == [(1, numbers[0])]


def test_a_photograph_is_kept_of_all_it_shows_with_its_marks(hand: Hand) -> None:
    """Two things, a ring and an arrow: the picture, and a copy that differs where the marks are."""
    from io import BytesIO

    from PIL import Image

    at(hand, "BRD-25")
    folder = hand.desk.workshop.home.path / "pictures"
    folder.mkdir()
    Image.new("RGB", (800, 600), (90, 90, 90)).save(folder / "a.jpg")
    hand.touch("Photograph")
    hand.desk.mark_photo(0.25, 0.25, -1.0, -1.0)
    hand.desk.mark_photo(0.75, 0.75, 0.5, 0.9)
    hand.touch("Keep it")
    (record,) = [one for one in hand.desk.job.records.values() if one.typ == "photo.taken"]
    home = hand.desk.workshop.home
    plain, marked = (Image.open(BytesIO(home.attachment(one))) for one in record.body["photos"])
    assert plain.size == marked.size == (800, 600)
    far, near = (10, 590), (200 + 36, 150)
    assert abs(plain.getpixel(far)[0] - marked.getpixel(far)[0]) < 12
    strip = [marked.getpixel((x, 150)) for x in range(160, 280)]
    assert any(abs(pixel[0] - 90) > 40 or abs(pixel[1] - 90) > 40 for pixel in strip), near
    assert hand.desk.screen.name == "teardown"
    hand.take_back()
    assert hand.desk.job.value(record.ent[0], "photo") is None


def test_what_others_did_is_new_until_it_was_looked_at(hand: Hand) -> None:
    """TB takes something off; AS sees it once, then it is no news."""
    at(hand, "BRD-25", "TB")
    hand.touch("Count")
    hand.enter("1")
    hand.touch("Jobs")
    hand.sign_on("AS")
    hand.row("BRD-25")
    assert any("counted" in fact.says or "records of others" in fact.says for fact in hand.view.card.facts)
    hand.touch("What is new")
    assert any("TB counted 1" in fact.says for fact in hand.view.card.facts)
    hand.touch("Work on")
    hand.touch("Jobs")
    assert any(fact.says == "nothing" for fact in hand.view.card.facts)


def test_screws_of_several_places_are_counted_in_one_bag(hand: Hand) -> None:
    """One record for all of them; what is proposed is what belongs there together."""
    at(hand, "BRD-25")
    hand.row("10.24")
    hand.touch("In one bag with others")
    field = hand.view.field
    assert field
    other = next(one for one in field.choices if one.startswith("10.90 "))
    hand.enter(other)
    hand.enter("that is all")
    field = hand.view.field
    job = hand.desk.job
    wanted = (job.positions["10.24"].count or 0) + (job.positions["10.90"].count or 0)
    assert field and field.choices == (f"{wanted}, all of them",)
    hand.enter(field.choices[0])
    counted = [one for one in job.records.values() if one.typ == "hardware.counted"]
    assert [(set(one.ent), one.body["found"]) for one in counted] == [({"@10.24", "@10.90"}, wanted)]


def test_counts_per_assembly_are_those_counted_anew_after_every_record(hand: Hand) -> None:
    """Kept current by what a record can change, they are what looking at every place gives."""
    at(hand, "pump")
    desk, compared = hand.desk, [0]
    kept = {name: desk.tally(name) for name in TALLIES}

    def compare(record: Record, _opened: object) -> None:
        if record.job == desk.job_number:
            compared[0] += 1
            for name in TALLIES:
                anew = Tally(desk.job, partial(TALLIES[name], desk.opened))
                assert kept[name].counts == anew.counts, f"{name} after {record.typ}"

    desk.workshop.listeners.append(compare)
    take_apart(hand)
    hand.take_back()
    take_apart(hand)  # what was taken back comes off once more
    make_good(hand)
    clear_points(hand)
    fitted = [part for part in parts(desk.job) if place_of(desk.job, part)]
    part = next(part for part in fitted if not in_the_way(desk.job, desk.job.positions[place_of(desk.job, part)]))
    hand.touch("Open points")
    hand.scan(number_of(desk.job, part))
    hand.touch("Take it out")
    answer_all(hand)
    assert compared[0] > 120


def test_a_picture_is_offered_once_and_never_again_for_another_part(hand: Hand) -> None:
    """What was kept of one part is not what the next one looks like."""
    at(hand, "BRD-25")
    folder = hand.desk.workshop.home.path / "pictures"
    folder.mkdir()
    Image.new("RGB", (80, 60), (90, 90, 90)).save(folder / "a.jpg")
    hand.touch("Photograph")
    assert hand.view.photo
    hand.touch("Keep it")
    hand.touch("Photograph")
    assert hand.view.photo is None and [row.text for row in hand.view.rows] == ["a.jpg"]


def test_a_photograph_that_is_refused_leaves_no_file(hand: Hand) -> None:
    """Neither record nor picture."""
    at(hand, "BRD-25")
    home = hand.desk.workshop.home.path
    (home / "pictures").mkdir()
    Image.new("RGB", (80, 60), (90, 90, 90)).save(home / "pictures" / "a.jpg")
    before = sorted((home / "out" / "attachments").rglob("*"))
    hand.touch("Photograph")
    hand.desk.screen.state["when"] = "some day"
    hand.touch("Keep it")
    assert "some day is not known" in hand.view.scan.says
    assert sorted((home / "out" / "attachments").rglob("*")) == before


@pytest.mark.parametrize("data", [b"", b"no picture", b"\x89PNG\r\n\x1a\n broken"])
def test_a_picture_of_labels_that_cannot_be_read_is_said(hand: Hand, data: bytes) -> None:
    """The app goes on; nothing is recorded."""
    at(hand, "pump")
    scans = hand.desk.workshop.home.path / "scans"
    scans.mkdir()
    (scans / "a.png").write_bytes(data)
    now = [9.0]
    hand.desk.watching.frames._clock = lambda: now[0]  # type: ignore[attr-defined]
    hand.desk.watching.frames._looked = 0.0  # type: ignore[attr-defined]
    hand.desk.tick()
    hand.desk.slow._under_way[0].exception(30)  # type: ignore[index]
    hand.desk.tick()
    assert hand.view.scan.mark == "reject" and "a.png" in hand.view.scan.says
    assert len(hand.desk.job.records) == 1


def test_what_is_in_for_a_time_is_said_on_every_screen_and_leads_there(hand: Hand) -> None:
    """From *look whether in* to *in for a time* to nothing."""
    at(hand, "BRD-25")
    assert hand.view.red.startswith("3 to look whether it is in: ")
    for screen in ("Jobs", "Cleaning", "Open points", "Office", "Assembly"):
        hand.touch(screen)
        assert "40.80" in hand.view.red
    hand.desk.touch(Step("", "see_red"))
    assert hand.view.card.far == "40.80"
    hand.touch("It is in")
    assert hand.view.red.startswith("1 in for a time: 40.80 BRACKET")
    for _ in range(3):
        hand.desk.touch(Step("", "see_red"))
        hand.touch("It is out")
    assert hand.view.red == ""
