"""A tablet that went on twice from one copy: each number that stands for two records is kept as a point of its own."""

from __future__ import annotations

from teardown_app.domain.lacks.lack import TO_ACCEPT, TWO_VERSIONS
from tests.open_points.story import line
from tests.open_points.tablets import JOB, SHOP, Tablet
from tests.open_points.watched import Watched

AGREED = {"why": "agreed", "reference": "K-7", "covers": []}


def forked() -> tuple[Watched, Tablet]:
    """A part off its place, and a tablet that went on twice from one copy."""
    story = Watched(line("10"), line("20"))
    story.off("10")
    twin = story.first.copied()
    story.tablets.append(twin)
    return story, twin


def test_each_number_of_a_fork_is_a_point_of_its_own() -> None:
    """Branches grow beside each other; one version taken back, the other conceded; then a third one comes."""
    story, twin = forked()
    third = story.first.copied()
    story.tablets.append(third)
    for _ in range(2):
        story.say("photo.taken", "job", photos=["0" * 64])
        story.say("photo.taken", "job", on=twin, photos=["1" * 64])
    keys = [f"{TWO_VERSIONS}|job|t1~0:{number}" for number in (3, 4)]
    for key in keys:
        story.say("point.conceded", "job", key=key, **AGREED)
    assert conceded(story) == []
    story.take_back(twin.own(JOB)[2], on=twin, reference="NC-1")
    assert conceded(story) == keys[:1]
    story.say("thing.put", story.first.own(JOB)[1].ent[0], on=third, place="RACK 1")
    assert conceded(story) == []


def test_one_version_is_conceded_once_the_taking_back_of_the_other_is_accepted() -> None:
    """Whoever knows one branch has not seen the other: what was found out there waits, and the release accepts it."""
    story, twin = forked()
    part = story.first.own(JOB)[1].ent[0]
    story.say("photo.taken", "job", photos=["0" * 64])
    other = story.say("part.noted", part, on=twin, part_number="PN-X")
    back = story.take_back(other, on=twin)
    key = f"{TWO_VERSIONS}|job|t1~0:3"
    story.say("point.conceded", "job", key=key, **AGREED)
    assert story.keys(TO_ACCEPT) == [part]
    assert key not in conceded(story)
    story.release(part, on=twin)
    assert key in conceded(story)
    story.say("point.conceded", part, on=twin, key=f"{TO_ACCEPT}|{part}|{back.ref}", lines=["10"], **AGREED)
    assert key in conceded(story)


def test_a_version_taken_back_after_the_concession_waits_for_the_release_too() -> None:
    """Else a fork that was looked at and conceded would stay open for good, and the job could not be shipped."""
    story, twin = forked()
    part = story.first.own(JOB)[1].ent[0]
    story.say("photo.taken", "job", photos=["0" * 64])
    other = story.say("part.noted", part, on=twin, part_number="PN-X")
    key = f"{TWO_VERSIONS}|job|t1~0:3"
    story.say("point.conceded", "job", key=key, **AGREED)
    story.take_back(other, on=twin)
    assert key not in conceded(story)
    story.release(part, on=twin)
    assert key in conceded(story)


def test_two_versions_of_the_shop_are_a_point_once_somebody_here_had_seen_them() -> None:
    """Before that they are none of this job's business."""
    story, twin = forked()
    for tablet, code in ((story.first, "BB"), (twin, "CC")):
        body = {"code": code, "rights": ["record"]}
        story.heard(tablet.write("AA", "person.given", (f"person:{code}",), body, journal=SHOP))
        assert story.keys(TWO_VERSIONS) == []
    story.say("photo.taken", "job", photos=["0" * 64])
    shops = f"{TWO_VERSIONS}|job|{SHOP}/t1~0:2"
    assert [one.key for one in story.live.open_points() if one.kind == TWO_VERSIONS] == [shops]
    story.say("point.conceded", "job", key=shops, **AGREED)
    story.off("20")
    assert story.keys(TWO_VERSIONS) == ["job"]


def conceded(story: Watched) -> list[str]:
    """Keys of the points that are conceded, as they are kept."""
    return [one.key for one in story.live.points() if one.state == "conceded"]
