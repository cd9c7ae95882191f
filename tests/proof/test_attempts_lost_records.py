"""Attempts to keep a job open for ever with records that never were, and honest holes in what a lost tablet wrote.

Each story says what a shop would have suffered."""

from __future__ import annotations

from typing import Any

import pytest

from tests.open_points.story import line
from tests.open_points.tablets import JOB, SHOP, Tablet
from tests.proof.implementations import App, Twin
from tests.proof.tale import Tale

NOT_HERE = "record not here"


def pump(points: Twin | App) -> tuple[Tale, str, Tablet]:
    """A tool of one part, which is in, and a second tablet; nothing is open."""
    tale = Tale(points, line("10"))
    return tale, tale.fit_ready("10"), tale.second()


def put(tale: Tale, part: str, on: Tablet, times: int = 1) -> None:
    """The part is put somewhere, so many times."""
    for n in range(times):
        tale.say("thing.put", part, by="RR", on=on, place=f"RACK {n}")


def retire(tale: Tale, tablet: str, last: int, *without: int, by: str = "OO", of: str = JOB) -> None:
    """Nothing more is to come of a tablet, and some of what it wrote is lost."""
    body: dict[str, Any] = {"tablet": tablet, "journal": of, "last": last, "reference": "A-1"}
    body |= {"without": list(without)} if without else {}
    tale.first.write(by, "tablet.retired", (f"tablet:{tablet}",), body, journal=SHOP)


def lose(tale: Tale, tablet: Tablet, *numbers: int) -> None:
    """These records of a tablet are nowhere any more."""
    tale.withheld |= {tablet.own(JOB)[number - 1].ref for number in numbers}


def test_a_record_lost_in_the_middle_is_given_up_by_the_office(points: Twin | App) -> None:
    """One bad block on a tablet's disk would have kept the tool in the shop for ever."""
    tale, part, other = pump(points)
    put(tale, part, other, 3)
    tale.carry()
    lose(tale, other, 2)
    assert tale.stands(NOT_HERE) == ["job|t2~0:2"]
    retire(tale, "t2~0", 3)
    assert tale.stands(NOT_HERE) == ["job|t2~0:2"], "its last record says nothing of those before"
    retire(tale, "t2~0", 3, 2, by="RR")
    assert tale.stands(NOT_HERE) == ["job|t2~0:2"]
    retire(tale, "t2~0", 3, 2)
    assert tale.open_now() == []
    tale.close()
    assert tale.is_closed()


def test_each_hole_is_one_point(points: Twin | App) -> None:
    """A list of two hundred thousand lines would have been the tablet's last word."""
    tale, part, other = pump(points)
    put(tale, part, other, 9)
    tale.carry()
    lose(tale, other, 2, 3, 4, 6, 9)
    put(tale, part, tale.first)
    assert tale.stands(NOT_HERE) == ["job|t2~0:2", "job|t2~0:6", "job|t2~0:9"]
    retire(tale, "t2~0", 8, 3, 6)
    assert tale.stands(NOT_HERE) == ["job|t2~0:2", "job|t2~0:4"]
    retire(tale, "t2~0", 8, 2, 3, 4, 6)
    assert tale.stands(NOT_HERE) == []


def test_a_version_that_never_was_is_given_up_by_the_office(points: Twin | App) -> None:
    """Anybody could have kept any job open for ever, by having seen what nobody wrote."""
    tale, part, other = pump(points)
    now = tale.first.own(JOB)[-1].seq
    seen = {**other.vector(JOB), tale.first.dev: (3, "0badc0de")}
    other.write("RR", "photo.taken", (part,), {"photos": []}, seen=seen)
    assert tale.stands(NOT_HERE) == ["job|t1~0:3"]
    retire(tale, "t1~0", 2)
    assert tale.stands(NOT_HERE) == ["job|t1~0:3"], "what came after is here"
    retire(tale, "t1~0", now, 3)
    assert tale.stands(NOT_HERE) == []
    put(tale, part, tale.first)
    assert tale.stands(NOT_HERE) == ["job|t1~0:3"], "it went on after its last record"
    retire(tale, "t1~0", 1_000_000, 3)
    tale.carry()
    assert tale.open_now() == []
    tale.close()
    assert tale.is_closed(), "a tablet that goes on is given a last number that it does not reach"


def test_a_record_that_turns_up_after_all_is_waited_for_with_the_others(points: Twin | App) -> None:
    """What the tablet had found would have been left out, for somebody had given it up."""
    tale, part, other = pump(points)
    put(tale, part, other, 5)
    tale.carry()
    lose(tale, other, 2, 4, 5)
    retire(tale, "t2~0", 3, 2)
    assert tale.stands(NOT_HERE) == []
    tale.withheld.discard(other.own(JOB)[4].ref)
    assert tale.stands(NOT_HERE) == ["job|t2~0:2", "job|t2~0:4"]


@pytest.mark.parametrize("without", [4, 0, -1, "2", True])
def test_what_comes_after_the_last_is_not_lost_before_it(points: Twin | App, without: object) -> None:
    """A record that nobody understands would have silenced a tablet."""
    tale, part, other = pump(points)
    put(tale, part, other, 3)
    tale.carry()
    lose(tale, other, 2)
    retire(tale, "t2~0", 3, 2, without)  # type: ignore[arg-type]
    assert tale.stands(NOT_HERE) == ["job|t2~0:2"]


def test_a_hole_in_the_shop_is_given_up_too(points: Twin | App) -> None:
    """A job would have waited for a label that a lost tablet had printed."""
    tale, part, other = pump(points)
    for name in ("RACK 1", "RACK 2", "RACK 3"):
        other.write("OO", "place.given", (f"place:{name}",), {"name": name}, journal=SHOP)
    put(tale, part, other)
    tale.carry()
    put(tale, part, tale.first)
    tale.withheld.add(other.own(SHOP)[1].ref)
    assert tale.stands(NOT_HERE) == ["job|_shop/t2~0:2"]
    retire(tale, "t2~0", 3, 2, of=SHOP)
    assert tale.stands(NOT_HERE) == []
