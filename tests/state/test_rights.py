"""A record has effect only by somebody with its right, and is taken back only by somebody with the rights for that."""

from __future__ import annotations

from typing import Any

import pytest

from teardown_app.domain.job.faulty import MAKERS
from teardown_app.domain.job.replay import replay
from teardown_app.domain.ledger.effect import MISFIT, NO_RIGHT, VOIDED
from teardown_app.domain.ledger.facts import Facts
from teardown_app.domain.ledger.kinds import KINDS
from teardown_app.domain.ledger.record import Record
from tests.open_points.acts import opening
from tests.open_points.story import EVERYTHING, Story, line
from tests.open_points.tablets import JOB, SHOP
from tests.state.rights import CASES, HEAVIER, IN_A_JOB, OF_THE_SHOP, WORDS, TakenBack

EMPTY: dict[Any, Any] = {str: "x", int: 1, bool: True, list: [], dict: {}}


def example(typ: str, **more: Any) -> tuple[tuple[str, ...], dict[str, Any]]:
    """What a record of a kind may be about, and the least that it has to say."""
    kind = KINDS[typ]
    needed = {name: EMPTY[field.type] for name, field in kind.fields.items() if field.needed}
    about = {"job": "job", "place": "@10", "thing": f"{JOB}:t1~0:2:1"}[KINDS[typ].sorts[0]]
    ent = (about, "@10") if typ in ("part.fitted", "part.taken_out") else (about,)
    body = {**needed, **WORDS.get(typ, {}), **more}
    if typ == "part.released":
        body["covers"] = {ent[0]: []}
    return ent, opening() if typ == "job.opened" else body


def written(story: Story, typ: str, by: str, **more: Any) -> Record:
    """A record of a kind by somebody."""
    ent, body = example(typ, **more)
    if typ in MAKERS:
        ent = (story.first.thing(),)
    return story.first.write(by, typ, ent, body, journal=SHOP if KINDS[typ].shop else JOB)


def effect(story: Story, record: Record) -> str:
    """Why a record has no effect; empty when it has."""
    job = replay(story.records(SHOP), JOB, story.records(JOB), story.bills)
    facts: Facts = job.shop if record.job == SHOP else job
    return facts.effect(record)


def bench() -> Story:
    """A job with a part off its place."""
    story = Story(line("10"))
    story.off("10")
    return story


NEEDS = [
    *((typ, {}, right) for typ, right in {**IN_A_JOB, **OF_THE_SHOP}.items() if typ != "record.voided"),
    *((typ, dict([more]), right) for (typ, more), right in HEAVIER.items()),
]


def test_the_table_names_every_kind() -> None:
    """A new kind needs its row, from the document."""
    assert {kind.typ for kind in KINDS.values() if not kind.shop} == set(IN_A_JOB)
    assert {kind.typ for kind in KINDS.values() if kind.shop} == set(OF_THE_SHOP)


@pytest.mark.parametrize(("typ", "more", "right"), NEEDS)
def test_a_record_has_effect_only_by_somebody_with_the_right_of_its_kind(
    typ: str, more: dict[str, Any], right: str
) -> None:
    """The one right is enough, and all others together are not."""
    story = bench()
    story.person("ONE", [right])
    story.person("REST", [each for each in EVERYTHING if each != right])
    assert effect(story, written(story, typ, "ONE", **more)) == ""
    anybody = typ == "numbers.issued"  # "whoever holds it"
    assert effect(story, written(story, typ, "REST", **more)) == ("" if anybody else NO_RIGHT)


def taken_back(case: TakenBack, rights: list[str], made_by: str) -> tuple[str, str]:
    """Effects of a record and of its taking back, by XX with these rights."""
    story = bench()
    story.person("XX", EVERYTHING)
    target = written(story, case.typ, made_by, **case.more)
    story.person("XX", rights)
    back = story.say("record.voided", *target.ent, by="XX", record=target.ref, why="slip")
    return effect(story, target), effect(story, back)


def name_of(case: TakenBack) -> str:
    """Kind and what it says, for the list of tests."""
    return f"{case.typ} {case.more or ''}"


@pytest.mark.parametrize("made_by", ["AA", "XX"])
@pytest.mark.parametrize("case", CASES, ids=name_of)
def test_a_record_is_taken_back_only_with_the_rights_of_its_acts(case: TakenBack, made_by: str) -> None:
    """With these it goes; with all but one of them it stays. Whoever made it."""
    if case.rights is None:
        assert taken_back(case, EVERYTHING, made_by) == ("", MISFIT)
        return
    assert taken_back(case, list(case.rights), made_by) == (VOIDED, "")
    for lacking in case.rights:
        rest = [each for each in EVERYTHING if each != lacking]
        assert taken_back(case, rest, made_by) == ("", NO_RIGHT)


def test_every_kind_of_a_job_is_taken_back_or_not() -> None:
    """A new kind needs its row, from the document."""
    assert {case.typ for case in CASES} | {"record.voided"} == set(IN_A_JOB)


def test_a_taking_back_is_not_taken_back() -> None:
    """ "There is no taking back of a taking back: the record is made anew." """
    story = bench()
    hold = written(story, "hold.placed", "AA")
    back = story.say("record.voided", hold.ent[0], record=hold.ref, why="slip")
    again = story.say("record.voided", hold.ent[0], record=back.ref, why="slip")
    assert [effect(story, each) for each in (hold, back, again)] == [VOIDED, "", MISFIT]


def test_a_concession_that_accepts_is_made_by_the_second_right_too() -> None:
    """ "concede; of *to be accepted* also its second right"."""
    story = bench()
    for right in ("concede", "release", "office", "record"):
        story.person(right, [right])
    found = {
        by: effect(story, written(story, "point.conceded", by, key="to be accepted|10|J:t1~0:3:aa"))
        for by in ("concede", "release", "office", "record")
    }
    assert found == {"concede": "", "release": "", "office": "", "record": NO_RIGHT}


@pytest.mark.parametrize(
    ("rights", "more", "goes"),
    [
        (["record", "release"], {"reference": "NC-4"}, True),
        (["record", "release"], {"reference": " "}, False),
        (["record", "release"], {}, False),
        (["record"], {"reference": "NC-4"}, False),
    ],
)
@pytest.mark.parametrize("verdict", ["reject", "inconclusive"])
def test_a_reject_of_a_protective_check_goes_by_release_with_a_reference(
    verdict: str, rights: list[str], more: dict[str, str], goes: bool
) -> None:
    """ "by somebody with release and with a reference, else the taking back does not fit"."""
    story = bench()
    story.person("XX", rights)
    read = written(story, "check.read", "AA", check="Over_Temperature switch", verdict=verdict)
    back = story.say("record.voided", *read.ent, by="XX", record=read.ref, why="wrong part", **more)
    assert (effect(story, read), effect(story, back)) == ((VOIDED, "") if goes else ("", MISFIT))


def test_an_origin_that_was_borrowed_is_noted_back_by_the_office() -> None:
    """ "with `origin` where it was *borrowed*": as its author had seen."""
    story = bench()
    story.person("XX", ["record"])
    part = story.say("part.brought_in", story.first.thing(), origin="borrowed", part_number="PN-10").ent[0]
    noted = story.say("part.noted", part, origin="new")
    back = story.say("record.voided", part, by="XX", record=noted.ref, why="slip")
    assert (effect(story, noted), effect(story, back)) == ("", NO_RIGHT)
    story.person("XX", ["record", "office"])
    assert effect(story, story.say("record.voided", part, by="XX", record=noted.ref, why="slip")) == ""


def test_taking_back_what_had_no_right_and_asked_needs_release_too() -> None:
    """ "if it asked, the taking back needs also the second right (release)"."""
    story = bench()
    story.person("XX", ["record"])
    story.person("YY", [])
    opened = story.say("joint.opened", "@10", by="YY")
    put = story.say("thing.put", f"{JOB}:t1~0:2:1", by="YY", place="RACK 1")
    backs = [story.say("record.voided", *each.ent, by="XX", record=each.ref, why="slip") for each in (opened, put)]
    assert [effect(story, each) for each in (opened, put, *backs)] == [NO_RIGHT, VOIDED, NO_RIGHT, ""]
    story.person("XX", ["record", "release"])
    story.say("record.voided", *opened.ent, by="XX", record=opened.ref, why="slip")
    assert effect(story, opened) == VOIDED


@pytest.mark.parametrize("origin", ["as received", "repaired", "new", "borrowed"])
def test_a_part_that_came_off_this_tool_is_as_received_or_repaired(origin: str) -> None:
    """Taken off with another origin does not fit, nor a note of one that was taken off, by that very name."""
    story = bench()
    fits = origin in ("as received", "repaired")
    off = story.say("part.taken_off", story.first.thing(), out_of="10", origin=origin)
    noted = story.say("part.noted", f"{JOB}:t1~0:2:1", origin=origin)
    other = story.say("part.brought_in", story.first.thing(), origin="stock", part_number="PN-10").ent[0]
    assert [effect(story, each) for each in (off, noted)] == ["" if fits else MISFIT] * 2
    assert effect(story, story.say("part.noted", other, origin=origin)) == ""


def test_what_is_not_understood_is_taken_back_by_the_right_of_its_act() -> None:
    """As the document says: "A record that does not fit is cleared by taking it back, which needs the right of its
    act"."""
    story = bench()
    story.person("XX", ["record"])
    part = example("hold.placed")[0][0]
    garbled = story.say("hold.placed", part, why=7)
    back = story.say("record.voided", part, by="XX", record=garbled.ref, why="slip")
    assert (effect(story, garbled), effect(story, back)) == (VOIDED, "")
    amended = story.say("job.amended", "job", order="A-2", why=7)
    back = story.say("record.voided", "job", by="XX", record=amended.ref, why="slip")
    assert (effect(story, amended), effect(story, back)) == (MISFIT, NO_RIGHT)
