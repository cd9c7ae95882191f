"""Attempts from other tablets: shops that nobody joined, rights given to oneself, labels in two jobs.

Each story says what a shop would have suffered."""

from __future__ import annotations

from tests.open_points.acts import opening
from tests.open_points.story import EVERYTHING, line
from tests.open_points.tablets import JOB, OTHER_JOB, SHOP, Tablet
from tests.proof.implementations import App, Twin
from tests.proof.tale import PEOPLE, Tale

RIGHT = "record by someone without the right"
TWICE = "label of two parts"
NUMBER = "P7K3M0001A"

# -- foundings -----------------------------------------------------------------------------------------


def stranger(tale: Tale, dev: str = "t9~0", code: str = "GG") -> Tablet:
    """A tablet on which somebody registered himself with all rights, and that was then given the job."""
    tablet = Tablet(dev, tale.first.clock)
    body = {"code": code, "rights": EVERYTHING}
    tablet.write(code, "person.given", (f"person:{code}",), body, journal=SHOP)
    tablet.sync(tale.first, (JOB,))
    tale.tablets.append(tablet)
    return tablet


def test_a_first_person_of_his_own_shop_accepts_nothing_here(points: Twin | App) -> None:
    """Anybody with a tablet out of the box would have been office, inspector and customer."""
    tale = Tale(points, line("10"), line("20"))
    part = tale.fit(tale.off("20"), "20")
    before = set(tale.open_now())
    other = stranger(tale)
    tale.ready(part, on=other)
    tale.word("10", "not on this tool", by="GG", on=other, reference="A-1")
    key = "missing|10|"
    body = {"key": key, "why": "so", "reference": "A-1", "covers": [], "lines": []}
    tale.say("point.conceded", "@10", by="GG", on=other, **body)
    assert set(tale.open_now()) - before == {f"{RIGHT}|job|t9~0"}
    assert before <= set(tale.open_now())


def test_a_stranger_gives_no_rights_to_people_of_this_shop(points: Twin | App) -> None:
    """A helper would have been made inspector over lunch, on somebody's own tablet."""
    tale = Tale(points, line("10"))
    part = tale.fit(tale.off("10"), "10")
    tale.say("disposition.given", part, as_="use as is")
    other = stranger(tale)
    given = {"code": "RR", "rights": EVERYTHING}
    other.write("GG", "person.given", ("person:RR",), given, journal=SHOP)
    tale.first.sync(other)
    tale.release(part, by="RR")
    assert tale.stands("not released") == [part]
    assert len(tale.stands(RIGHT)) == 1


def test_registering_oneself_twice_gives_nothing(points: Twin | App) -> None:
    """On the shop's own tablet, where others are registered, nobody founds a second shop."""
    tale = Tale(points, line("10"))
    tale.first.write("RR", "person.given", ("person:RR",), {"code": "RR", "rights": EVERYTHING}, journal=SHOP)
    tale.concede("missing|10|", by="RR")
    assert tale.stands("missing") == ["10"]


def test_a_tablet_that_was_put_back_is_still_of_this_shop(points: Twin | App) -> None:
    """Its records would have been a stranger's, and a day's work lost."""
    tale = Tale(points, line("10"))
    stranger(tale)
    tale.second()
    again = Tablet("t2~1", tale.first.clock)
    for other in tale.tablets:
        again.sync(other)
    tale.tablets.append(again)
    tale.fit(tale.ready(tale.off("10", on=again), on=again), "10", on=again)
    assert RIGHT not in [key.partition("|")[0] for key in tale.open_now()]


def test_two_tablets_started_the_same_morning_are_joined_by_the_office(points: Twin | App) -> None:
    """Twelve records of honest work would have been for nothing; joining reaches back."""
    tale = Tale(points, line("10"))
    other = stranger(tale)
    for code, rights in PEOPLE.items():
        other.write("GG", "person.given", (f"person:{code}",), {"code": code, "rights": rights}, journal=SHOP)
    part = tale.say("part.taken_off", other.thing(), by="RR", on=other, out_of="10").ent[0]
    assert tale.stands(RIGHT) == ["job|t9~0"]
    founding = other.own(SHOP)[0].ref
    for by, still in (("RR", ["job|t9~0"]), ("OO", [])):
        body = {"founding": founding, "why": "one shop"}
        tale.first.write(by, "founding.joined", (f"founding:{founding}",), body, journal=SHOP)
        assert tale.stands(RIGHT) == still
    assert tale.stands("tagged but unaccounted for") == [part]


def test_what_a_stranger_recorded_is_recorded_again(points: Twin | App) -> None:
    """Where nobody joins him, the work is not done twice: somebody here says what he did."""
    tale = Tale(points, line("10"))
    other = stranger(tale)
    tale.off("10", on=other)
    tale.carry()
    assert tale.stands(RIGHT) == ["job|t9~0"]
    tale.off("10")
    assert tale.stands(RIGHT) == []


# -- a label in two jobs -------------------------------------------------------------------------------


class TwoJobs(Tale):
    """The same number is on a part here and on one of another job."""

    def __init__(self, points: Twin | App, trial: bool = False) -> None:
        super().__init__(points, line("10"))
        self.part = self.off("10", number=NUMBER)
        self.first.write("AA", "job.opened", ("job",), opening(number=OTHER_JOB), journal=OTHER_JOB, trial=trial)
        self.theirs = self.first.thing(journal=OTHER_JOB)
        self.first.write("AA", "part.taken_off", (self.theirs,), {"number": NUMBER}, journal=OTHER_JOB, trial=trial)

    def twice(self) -> list[str]:
        """Which labels are in use in two jobs, as this job sees it."""
        others = {OTHER_JOB: self.first.own(OTHER_JOB)}
        found = self.program(self.records(SHOP), JOB, self.records(JOB), self.bills, others)
        return [each.key for each in found if each.kind == TWICE and each.state == "open"]

    def hand(self, typ: str, part: str, **body: str) -> None:
        """Goods go from the other job."""
        self.first.write("AA", typ, (part,), body, journal=OTHER_JOB)


def test_a_label_in_two_jobs_is_not_signed_away(points: Twin | App) -> None:
    """The pump of one customer would have been shipped to the other."""
    tale = TwoJobs(points)
    key = f"{TWICE}|{NUMBER}|{OTHER_JOB}"
    assert tale.twice() == [key]
    body = {"key": key, "why": "so", "reference": "A-1", "covers": [], "lines": []}
    tale.say("point.conceded", "job", **body)
    assert tale.twice() == [key]


def test_a_part_handed_over_is_taken_over_too(points: Twin | App) -> None:
    """Half a hand-over would have hidden which of two pumps is which."""
    tale = TwoJobs(points)
    tale.hand("goods.handed_over", tale.theirs, to=JOB, consent="K-1")
    assert len(tale.twice()) == 1
    body = {"of": OTHER_JOB, "goods": f"{OTHER_JOB}:t1~0:7:1", "consent": "K-1", "number": NUMBER}
    taken = tale.say("goods.taken_over", tale.first.thing(), part_number="PN-10", **body)
    tale.say("part.renumbered", tale.part, number="P7K3M0002C", why="a second one")
    assert len(tale.twice()) == 1, "it is another part that was handed over"
    tale.say("part.noted", taken.ent[0], number="P7K3M0003E")
    assert tale.twice() == []


def test_a_part_that_went_to_the_other_job_may_keep_its_label(points: Twin | App) -> None:
    """Nobody peels a label off because a pump moves one bench on."""
    tale = TwoJobs(points)
    tale.hand("goods.handed_over", tale.theirs, to=JOB, consent="K-1")
    tale.say("part.renumbered", tale.part, number="P7K3M0002C", why="a second one")
    body = {"of": OTHER_JOB, "goods": tale.theirs, "consent": "K-1", "number": NUMBER}
    tale.say("goods.taken_over", tale.first.thing(), part_number="PN-10", **body)
    assert tale.twice() == []


def test_a_new_label_on_one_is_enough_and_trials_are_apart(points: Twin | App) -> None:
    """Two pumps with two labels are two pumps; who tries the app stops no work."""
    tale = TwoJobs(points)
    tale.say("part.renumbered", tale.part, by="RR", number="P7K3M0002C", why="two of them")
    assert tale.twice() == []
    assert TwoJobs(points, trial=True).twice() == []
