"""A record has effect only by somebody with its right, and is taken back only by somebody with the rights for that."""

from __future__ import annotations

from typing import Any

import pytest

from teardown_app.domain.ledger.effect import NO_RIGHT, VOIDED
from teardown_app.domain.ledger.facts import Facts
from teardown_app.domain.ledger.kinds import KINDS
from teardown_app.domain.ledger.kinds.kind import sorts_of
from teardown_app.domain.ledger.record import Record
from teardown_app.domain.nouns.replay import replay
from tests.open_points.acts import opening
from tests.open_points.story import EVERYTHING, Story, line
from tests.open_points.tablets import JOB, SHOP
from tests.state.rights import HEAVIER, IN_A_JOB, LIGHT, OF_THE_SHOP, WEIGHTY, WORDS, TakenBack

EMPTY: dict[Any, Any] = {str: "x", int: 1, bool: True, list: [], dict: {}}


def example(typ: str, **more: Any) -> tuple[tuple[str, ...], dict[str, Any]]:
    """What a record of a kind may be about, and the least that it has to say."""
    kind = KINDS[typ]
    needed = {name: EMPTY[field.type] for name, field in kind.fields.items() if field.needed}
    about = {"job": "job", "place": "@10", "thing": f"{JOB}:t1~0:2:1"}[sorts_of(typ)[0]]
    ent = (about, "@10") if typ in ("part.fitted", "part.taken_out") else (about,)
    body = {**needed, **WORDS.get(typ, {}), **more}
    if typ == "part.released":
        body["covers"] = {ent[0]: []}
    return ent, opening() if typ == "job.opened" else body


def written(story: Story, typ: str, by: str, **more: Any) -> Record:
    """A record of a kind by somebody."""
    ent, body = example(typ, **more)
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


def taken_back(case: TakenBack, by: str, rights: list[str], made_by: str) -> tuple[str, str]:
    """Effects of a record and of its taking back, by somebody with these rights."""
    story = bench()
    story.person(by, EVERYTHING)
    target = written(story, case.typ, made_by, **case.more)
    story.person(by, rights)
    back = story.say("record.voided", "job", by=by, record=target.ref, why="slip")
    return effect(story, target), effect(story, back)


ALL = [*WEIGHTY, *LIGHT]


@pytest.mark.parametrize(
    "case", ALL, ids=lambda case: f"{case.typ} {case.more.get('as', case.more.get('verdict', ''))}"
)
def test_what_somebody_else_recorded_is_taken_back_only_with_its_right(case: TakenBack) -> None:
    """With *record* and that right it goes; with all others it stays."""
    needed = [each for each in ("record", case.of_another) if each]
    assert taken_back(case, "XX", needed, made_by="AA") == (VOIDED, "")
    if case.of_another:
        rest = [each for each in EVERYTHING if each != case.of_another]
        assert taken_back(case, "XX", rest, made_by="AA") == ("", NO_RIGHT)


@pytest.mark.parametrize(
    "case", WEIGHTY, ids=lambda case: f"{case.typ} {case.more.get('as', case.more.get('verdict', ''))}"
)
def test_what_somebody_recorded_himself_he_takes_back_but_for_closing_and_reopening(case: TakenBack) -> None:
    """His own needs *record* alone; an end of the job its right, whoever made it."""
    assert taken_back(case, "XX", [each for each in ("record", case.own) if each], made_by="XX") == (VOIDED, "")
    if case.own:
        rest = [each for each in EVERYTHING if each != case.own]
        assert taken_back(case, "XX", rest, made_by="XX") == ("", NO_RIGHT)


def test_nobody_takes_back_without_the_right_to_record() -> None:
    """Also a light one: a correction needs *record*."""
    rest = [each for each in EVERYTHING if each != "record"]
    assert taken_back(TakenBack("thing.put", {}, ""), "XX", rest, made_by="AA") == ("", NO_RIGHT)


def chain(typ: str, length: int, rights: list[str], **more: Any) -> list[str]:
    """Effects of a record by AA and of corrections, each of the one before; the last by XX with these rights."""
    story = bench()
    story.person("XX", rights)
    records = [written(story, typ, "AA", **more)]
    for n in range(length):
        by = "XX" if n == length - 1 else "AA"
        records.append(story.say("record.voided", "job", by=by, record=records[-1].ref, why="slip"))
    return [effect(story, each) for each in records]


BROUGHT_BACK = [
    # "brings its target back and needs the right of that one's own kind"
    ("hold.lifted", {}, 2, "release"),
    ("disposition.given", {"as": "scrap"}, 2, "scrap"),
    ("job.closed", {}, 2, "sign"),
    ("approval.given", {}, 2, "office"),
    # "and where that is a correction itself, the rights to take its target back"
    ("hold.placed", {}, 3, "release"),
    ("disposition.given", {"as": "scrap"}, 3, "scrap"),
    ("job.closed", {}, 3, "office"),
    # and so on: what comes back in the end is the lifting
    ("hold.lifted", {}, 4, "release"),
]


@pytest.mark.parametrize(("typ", "more", "length", "right"), BROUGHT_BACK)
def test_taking_a_correction_back_needs_the_right_of_what_comes_back(
    typ: str, more: dict[str, Any], length: int, right: str
) -> None:
    """With *record* and that right the last correction counts; with all others it does not."""
    counts = chain(typ, length, ["record", right], **more)
    assert counts[-2:] == [VOIDED, ""]
    rest = chain(typ, length, [each for each in EVERYTHING if each != right], **more)
    assert rest[-2:] == ["", NO_RIGHT]


def test_what_is_not_understood_anybody_who_records_takes_back() -> None:
    """As the document says: "bodies that are not understood need none of these"."""
    story = bench()
    story.person("XX", ["record"])
    part = example("hold.placed")[0][0]
    garbled = story.say("hold.placed", part, why=7)
    back = story.say("record.voided", part, by="XX", record=garbled.ref, why="slip")
    assert (effect(story, garbled), effect(story, back)) == (VOIDED, "")
