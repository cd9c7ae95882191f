"""What adds up answers once: what was taken back and recorded again, one by one. Kept current equals all at once."""

from __future__ import annotations

from decimal import Decimal

from teardown_app.domain.lacks.lack import TO_ACCEPT
from teardown_app.domain.ledger.record import Record
from tests.open_points.story import line
from tests.open_points.watched import Watched


def washers() -> Watched:
    """Two places for washers, and a part."""
    two = Decimal(2)
    return Watched(line("10", "hardware", quantity=two), line("20", "hardware", quantity=two), line("30"))


def waiting(story: Watched) -> set[str]:
    """Names of the takings back that are to be accepted."""
    return {one.key.rpartition("|")[2] for one in story.live.open_points() if one.kind == TO_ACCEPT}


def taken_back(story: Watched, *those: Record) -> dict[str, Record]:
    """Each record is taken back: its name -> the taking back."""
    return {one.ref: story.take_back(one) for one in those}


def test_two_screws_added_answer_for_one_of_two_that_were_taken_back() -> None:
    """Two pieces would have stayed in the tool: one *added 2* stood for both."""
    story = washers()
    backs = taken_back(story, *(story.say("hardware.moved", "@10", added=2) for _ in range(2)))
    assert waiting(story) == {one.ref for one in backs.values()}
    story.say("hardware.moved", "@10", added=2)
    assert waiting(story) == {backs[max(backs)].ref}, "the first by name takes them"
    story.say("hardware.moved", "@10", added=2)
    assert waiting(story) == set()


def test_pieces_come_out_of_several_records_or_none_do() -> None:
    """Three that were taken back: one more is not enough, and takes nothing of the two."""
    story = washers()
    (back,) = taken_back(story, story.say("hardware.moved", "@10", added=3)).values()
    story.say("hardware.moved", "@10", added=2)
    assert waiting(story) == {back.ref}
    one = story.say("hardware.moved", "@10", added=1)
    assert waiting(story) == set()
    again = story.take_back(one)
    assert waiting(story) == {back.ref, again.ref}


def test_what_was_added_at_another_place_answers_for_nothing() -> None:
    """Its bag is another one."""
    story = washers()
    (back,) = taken_back(story, story.say("hardware.moved", "@10", added=2)).values()
    story.say("hardware.moved", "@20", added=2)
    assert waiting(story) == {back.ref}


def test_one_finding_answers_for_one_of_two() -> None:
    """Two scores were noted, both taken back, one noted again."""
    story = washers()
    part = story.off("30")
    said = {"word": "scored", "cause": "wear", "covered": False}
    backs = taken_back(story, *(story.say("finding.noted", part, **said) for _ in range(2)))
    story.say("finding.noted", part, **{**said, "word": "cracked"})
    assert waiting(story) == {one.ref for one in backs.values()}
    story.say("finding.noted", part, **said)
    assert waiting(story) == {backs[max(backs)].ref}


def test_one_part_that_comes_off_answers_for_one_of_two() -> None:
    """Two were taken off one place by mistake; one is taken off there again."""
    story = washers()
    backs = taken_back(story, *(story.say("part.taken_off", story.first.thing(), out_of="30") for _ in range(2)))
    story.off("30")
    assert waiting(story) == {backs[max(backs)].ref}


def test_one_part_with_a_label_answers_for_one_of_two() -> None:
    """Brought in with the same label; what was said of it is said alike."""
    story = washers()
    said = {"number": "P7K3M0001A", "origin": "stock", "part_number": "PN-30"}
    backs = taken_back(story, *(story.say("part.brought_in", story.first.thing(), **said) for _ in range(2)))
    story.say("part.brought_in", story.first.thing(), **{**said, "origin": "new"})
    assert waiting(story) == {one.ref for one in backs.values()}
    story.say("part.brought_in", story.first.thing(), **said)
    assert waiting(story) == {backs[max(backs)].ref}


def test_one_line_added_answers_for_one_of_two() -> None:
    """Two places for a bracket were added and taken back, one is added again."""
    story = washers()
    said = {"parent": "", "part_number": "PN-7", "description": "bracket", "number": ""}
    lines = [story.say("line.added", f"@+{n}", **said) for n in (1, 2)]
    backs = taken_back(story, *lines)
    story.say("line.added", "@+3", **said)
    assert waiting(story) == {backs[max(backs)].ref}


def test_a_taking_out_is_recorded_again_of_the_same_part() -> None:
    """The place alone would have let the next pump's taking out answer for this one's."""
    story = washers()
    one, other = story.off("30"), story.off("30")
    story.fit(one, "30")
    (back,) = taken_back(story, story.say("part.taken_out", one, "@30")).values()
    story.say("part.taken_out", other, "@30")
    assert back.ref in waiting(story)
    story.say("part.taken_out", one, "@30")
    assert back.ref not in waiting(story)


def test_spots_are_worked_out_by_themselves() -> None:
    """What is asked of one spot looks at no other one (counted in questions for takings back)."""
    story = washers()
    for _ in range(20):
        story.take_back(story.say("hardware.moved", "@20", added=1))
    back = story.take_back(story.say("hardware.moved", "@10", added=1))
    asked: list[Record] = []
    takings_back = story.job.takings_back

    def counted(record: Record) -> list[Record]:
        asked.append(record)
        return takings_back(record)

    story.job.takings_back = counted  # type: ignore[method-assign]
    story.job.memory.clear()
    story.live.update(back, {"@10"})
    assert asked and not any("@20" in one.ent for one in asked)
