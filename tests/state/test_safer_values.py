"""Two tablets say different things, neither having seen the other: which value holds, and whether somebody is asked."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

import pytest

from teardown_app.domain.job.job import Job
from teardown_app.domain.job.replay import replay
from teardown_app.domain.ledger.entry import settled
from teardown_app.domain.ledger.facets import FACETS, facet_of
from teardown_app.domain.ledger.facts import Facts
from teardown_app.domain.ledger.kinds import KINDS
from teardown_app.domain.ledger.kinds.part import Answer
from tests.open_points.story import Story, line
from tests.open_points.tablets import JOB, SHOP, Tablet
from tests.state.two_tablets import Case, Said
from tests.state.two_tablets_parts import OF_A_PART
from tests.state.two_tablets_places import OF_A_PLACE, OF_THE_JOB
from tests.state.two_tablets_shop import OF_THE_SHOP

CONFLICT = "two different entries"
CASES = [*OF_THE_JOB, *OF_A_PART, *OF_A_PLACE, *OF_THE_SHOP]


class Bench:
    """A pump with two parts off, a finding on one, and a second tablet that knows all that."""

    def __init__(self) -> None:
        lines = [line("10"), line("11"), line("20", "hardware"), line("21", "hardware"), line("30", "consumable")]
        self.story = Story(*lines, line("40", "temporary"))
        self.part, self.other = self.story.off("10"), self.story.off("11")
        said = self.story.say("finding.noted", self.part, word="scored", cause="wear", covered=False)
        self.finding = said.thing()
        self.story.say("job.closed", "job")
        self.second = self.story.second()

    def named(self, text: str) -> str:
        """A text of the table with the names of this bench in it."""
        return text.format(part=self.part, other=self.other, finding=self.finding)

    def write(self, tablet: Tablet, said: Said) -> None:
        """One tablet writes; the other does not hear of it."""
        typ, about, body = said
        journal = SHOP if KINDS[typ].shop else JOB
        tablet.write(
            "AA", typ, tuple(self.named(about).split(" ")) if journal == JOB else (about,), body, journal=journal
        )

    def job(self) -> Job:
        """The job as all records tell it."""
        return replay(self.story.records(SHOP), JOB, self.story.records(JOB), self.story.bills)

    def facts(self, case: Case) -> Facts:
        """What both tablets know once all has been carried: of the job, or of the shop."""
        job = self.job()
        return job.shop if case in OF_THE_SHOP else job


def after(case: Case, exchanged: bool) -> Bench:
    """A bench where each tablet said its own."""
    bench = Bench()
    one, other = (case.other, case.one) if exchanged else (case.one, case.other)
    bench.write(bench.story.first, one)
    bench.write(bench.second, other)
    return bench


def same(value: Any, wanted: Any) -> bool:
    """Equal; of a table only the fields that are wanted, by the names that records give them."""
    if not isinstance(wanted, dict):
        return bool(value == wanted)
    told = value if isinstance(value, dict) else {AS_ON_DISK.get(name, name): worth for name, worth in _fields(value)}
    return all(told.get(name) == worth for name, worth in wanted.items())


AS_ON_DISK = {"word": "as", "places": "with"}


def _fields(value: Any) -> Iterable[tuple[str, Any]]:
    return value._asdict().items() if value is not None else ()


def name_of(case: Case) -> str:
    """Facet and both sides, for the list of tests."""
    return " ".join((case.facet, *(str(each[2].get("as", each[2])) for each in (case.one, case.other))))


@pytest.mark.parametrize("exchanged", [False, True], ids=["", "exchanged"])
@pytest.mark.parametrize("case", CASES, ids=name_of)
def test_the_safer_value_holds_whichever_tablet_said_it(case: Case, exchanged: bool) -> None:
    """And the same again when each tablet says what the other one said."""
    bench = after(case, exchanged)
    facts, thing = bench.facts(case), bench.named(case.thing)
    if facet_of(case.facet).rule == "sum":
        assert facts.total(thing, case.facet) == case.holds
        return
    assert len(facts.heads(thing, case.facet)) == 2
    assert same(facts.value(thing, case.facet), case.holds)
    assert facts.differs(thing, case.facet) == case.differ


@pytest.mark.parametrize("case", CASES, ids=name_of)
def test_a_person_is_asked_where_the_table_says_so_and_only_there(case: Case) -> None:
    """The point *two different entries*, by subject and which."""
    bench = after(case, exchanged=False)
    asked = {point.key for point in bench.story.points() if point.kind == CONFLICT}
    assert asked == {f"{CONFLICT}|{bench.named(one)}" for one in case.which.split()}


SAID_ELSEWHERE = [
    # facet, a point that stands because of it; kinds as in the table of open points
    ("temporary", "temporary in or out wrongly|40|running"),  # "not `out`"
    ("temporary", "temporary in or out wrongly|40|shipping"),  # "its state is not what `ships` says"
    ("fit", "fitted twice|{part}|"),  # "A double fitting is one point; holes at its places ... are silent"
    ("filled", "fitted twice|10|"),
    ("renewal", "consumable not renewed or expired|30|"),  # "no renewal, or two that differ"
]


@pytest.mark.parametrize(("facet", "key"), SAID_ELSEWHERE)
def test_what_holds_while_two_differ_is_an_open_point_of_its_own_kind(facet: str, key: str) -> None:
    """While entries differ, it is not fitted, not filled, not renewed, and neither in nor out."""
    for case in CASES:
        if case.facet == facet and case.differ:
            bench = after(case, exchanged=False)
            assert bench.named(key) in {point.key for point in bench.story.points()}


def test_every_facet_that_merges_by_a_rule_of_its_own_has_its_case() -> None:
    """A facet that is new to the table of merges needs a row here; those whose entries all count need none."""
    merged = {facet for facet, merge in FACETS.items() if merge.rule != "union"}
    assert {case.facet.partition("/")[0] for case in CASES} == merged


def test_every_facet_with_heads_has_a_case_in_which_the_entries_differ() -> None:
    """What only ever agrees shows no safer value."""
    heads = {facet for facet, merge in FACETS.items() if merge.rule in ("heads", "worst")}
    assert {case.facet.partition("/")[0] for case in CASES if case.differ} == heads


SOFTENED = [
    # "a milder disposition replaces a more severe one only by somebody with the right:
    # scrap to leave scrap, else release"
    ("scrap", "repair", ["record", "release"], "scrap"),
    ("scrap", "repair", ["record", "scrap"], "repair"),
    ("repair", "use as is", ["record", "scrap"], "repair"),
    ("repair", "use as is", ["record", "release"], "use as is"),
    ("use as is", "repair", ["record"], "repair"),
    ("repair", "scrap", ["record", "scrap"], "scrap"),
]


@pytest.mark.parametrize(("before", "after", "rights", "holds"), SOFTENED)
def test_a_milder_disposition_takes_the_right(before: str, after: str, rights: list[str], holds: str) -> None:
    """One after the other, the second by somebody who had seen the first; where it does not replace, both stand."""
    bench = Bench()
    bench.story.person("XX", rights)
    bench.story.say("disposition.given", bench.part, as_=before)
    bench.story.say("disposition.given", bench.part, by="XX", as_=after)
    asked = {point.key for point in bench.story.points() if point.kind == CONFLICT}
    assert bench.job().value(bench.part, "disposition") == holds
    assert asked == ({f"{CONFLICT}|{bench.part}|disposition"} if holds != after else set())


def test_of_values_that_agree_the_one_is_shown_that_comes_first_as_their_records_have_them() -> None:
    """Whatever an app makes of a record, all tablets show the same reference."""
    bare, told = (
        Answer("approved", "", {"as": "approved"}),
        Answer("approved", "R", {"as": "approved", "reference": "R"}),
    )
    assert min(repr(one.body) for one in (bare, told)) == repr(told.body)
    assert settled([bare, told], "approval") == settled([told, bare], "approval") == told
