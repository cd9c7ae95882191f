"""Two tablets under one name, both started from one backup: honest work on both, and what somebody would slip through.

Each story says what a shop would have suffered."""

from __future__ import annotations

from tests.open_points.meeting import Meeting
from tests.open_points.story import line
from tests.open_points.tablets import JOB, Tablet
from tests.proof.implementations import App, Twin
from tests.proof.tale import Tale

VERSIONS = "two versions of a record"


class Restored(Tale):
    """A tool of two parts, taken apart. The tablet's backup was started on a second one, and each fits one part. Then
    both come to the office, whose tablet takes the two branches in; AA may do everything."""

    def __init__(self, points: Twin | App) -> None:
        super().__init__(points, line("10"), line("20"))
        self.pump, self.valve = self.off("10"), self.off("20")
        self.twin = self.first.copied()
        self.fit(self.ready(self.pump), "10")
        self.fit(self.ready(self.valve, on=self.twin), "20", on=self.twin)
        self.office = self.comes("t3~0", self.first, self.twin)
        self.tablets = [self.first, self.twin, self.office]

    def comes(self, dev: str, *others: Tablet) -> Meeting:
        """A tablet that takes over what others have."""
        tablet = Meeting(dev, self.first.clock)
        for other in others:
            tablet.sync(other)
        return tablet


def concede_versions(tale: Tale, on: Tablet) -> None:
    """All numbers that stand for two records are conceded on a tablet."""
    for rest in tale.stands(VERSIONS):
        said = {"key": f"{VERSIONS}|{rest}", "why": "one backup was started twice", "reference": "K-7", "lines": []}
        tale.say("point.conceded", "job", on=on, covers=[], **said)


def test_who_has_both_branches_concedes_them_and_the_job_is_closed(points: Twin | App) -> None:
    """A day's honest work would have stood open for ever, and the crate with it."""
    tale = Restored(points)
    assert len(tale.stands(VERSIONS)) == 3, "word, release, fitted: recorded on both under the same numbers"
    concede_versions(tale, tale.office)
    assert tale.open_now() == []
    tale.close(by="AA", on=tale.office)
    assert tale.is_closed()


def test_who_has_one_branch_concedes_nothing(points: Twin | App) -> None:
    """Somebody would have agreed to what he had never seen."""
    tale = Restored(points)
    half = tale.comes("t4~0", tale.first)
    tale.tablets.append(half)
    waiting = tale.stands(VERSIONS)
    concede_versions(tale, half)
    assert tale.stands(VERSIONS) == waiting
    concede_versions(tale, tale.first)
    assert tale.stands(VERSIONS) == waiting


def test_a_branch_that_goes_on_unseen_opens_the_job_again(points: Twin | App) -> None:
    """The reject found on the second tablet in the evening would have left with the crate."""
    tale = Restored(points)
    concede_versions(tale, tale.office)
    tale.close(by="AA", on=tale.office)
    assert tale.is_closed()
    tale.say("finding.noted", tale.valve, on=tale.twin, word="cracked", cause="fatigue", covered=False)
    assert not tale.is_closed()
    assert "job" in tale.subjects("sign again")


def test_a_release_by_whoever_has_both_branches_has_seen_both(points: Twin | App) -> None:
    """The inspector would have released what the other tablet had rejected; or nobody could have released it again."""
    tale = Tale(points, line("10"))
    part = tale.ready(tale.off("10"))
    twin = tale.first.copied()
    tale.say("thing.put", part, place="RACK 1")
    tale.fit(part, "10")
    tale.say("disposition.given", part, on=twin, as_="rework")
    office = Meeting("t3~0", tale.first.clock)
    tale.tablets += [twin, office]
    assert tale.stands("not released") == [part]
    office.sync(tale.first)
    tale.say("part.released", part, on=office, covers={part: []}, lines={part: ["10"]})
    assert tale.stands("not released") == [part], "who released it had not seen that it is to be reworked"
    office.sync(twin)
    tale.say("part.released", part, on=office, covers={part: []}, lines={part: ["10"]})
    assert tale.stands("not released") == []


def test_who_wrote_on_one_branch_and_then_saw_the_other_had_seen_both(points: Twin | App) -> None:
    """The tablet that the fault is on would have been of no more use, to its honest owner either."""
    tale = Restored(points)
    own = Meeting(tale.first.dev, tale.first.clock, tale.first.files, tale.first.told)
    own.sync(tale.office)
    tale.tablets[0] = own
    concede_versions(tale, own)
    assert tale.stands(VERSIONS) == []


def test_two_parts_that_got_one_name_are_told_apart_again(points: Twin | App) -> None:
    """Each copy named its first part alike: pump and valve would have been one part in two places for ever."""
    tale = Tale(points, line("10"), line("20"))
    twin = tale.first.copied()
    pump, valve = tale.off("10"), tale.off("20", on=twin)
    assert pump == valve
    office = Meeting("t3~0", tale.first.clock)
    office.sync(tale.first)
    office.sync(twin)
    tale.tablets += [twin, office]
    assert f"{pump}|out_of" in tale.stands("two different entries")
    wrong = twin.own(JOB)[-1]
    tale.say("record.voided", *wrong.ent, on=office, record=wrong.ref, why="one name for two parts", reference="K-7")
    for key, part in (("10", pump), ("20", tale.off("20", on=office))):
        tale.fit(tale.ready(part, on=office), key, on=office)
    concede_versions(tale, office)
    assert tale.open_now() == []
