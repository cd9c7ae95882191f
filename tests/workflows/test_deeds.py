"""The rows of acts are whole, and the example of each works and says what its row promises."""

from __future__ import annotations

import re
from collections.abc import Callable
from inspect import Parameter, signature
from string import Formatter

import pytest

from teardown_app.cli.table import COMMANDS
from teardown_app.domain.job.job import JOB
from teardown_app.domain.ledger.kinds import KINDS
from teardown_app.domain.ledger.record import SHOP
from teardown_app.domain.parts.parts import number_of, parts
from teardown_app.domain.tags.tag import with_check
from teardown_app.workflows.deed import ABOUT, HANDED_IN, SORTS, Deed, one_of
from teardown_app.workflows.deeds import DEEDS
from tests.workflows import declared
from tests.workflows.reassembly.bench import ORDER, Bench
from tests.workflows.reassembly.conftest import bench
from tests.workflows.reassembly.pump import PUMP

__all__ = ["bench"]

MADE = [deed for deed in DEEDS if deed.do]
NAMES = [deed.name for deed in MADE]
OF_THE_COMMAND = {"job", "things", "by", "home", "json", "command"}
"""Names of arguments that every command has."""

OF_THE_GLASS = {"shop pin"}
"""Acts that no command does."""

ON_THE_GLASS = {"part note": {"written"}}
"""What a workflow takes beyond its row: a maker's code that was scanned."""


def test_no_two_rows_have_one_name() -> None:
    assert len({deed.name for deed in DEEDS}) == len(DEEDS)


def test_every_command_that_records_has_its_row_and_every_row_its_command() -> None:
    assert {" ".join(one.words) for one in COMMANDS if one.by} == {deed.name for deed in DEEDS} - OF_THE_GLASS


def test_every_kind_of_record_is_written_by_some_act() -> None:
    assert {typ for deed in DEEDS for typ in deed.writes} == set(KINDS)


@pytest.mark.parametrize("deed", DEEDS, ids=lambda deed: deed.name)
def test_a_row_names_known_kinds_sorts_and_fields(deed: Deed) -> None:
    names = [field.name for field in deed.fields]
    assert deed.writes and set(deed.writes) <= set(KINDS)
    assert deed.about in ABOUT and {field.sort for field in deed.fields} <= set(SORTS)
    assert len(set(names)) == len(names) and not set(names) & OF_THE_COMMAND
    assert bool(deed.do) == bool(deed.says) == bool(deed.example)


@pytest.mark.parametrize("deed", MADE, ids=NAMES)
def test_a_workflow_takes_exactly_the_fields_of_its_row(deed: Deed) -> None:
    assert deed.do is not None
    taken = list(signature(deed.do).parameters.values())[1 if deed.about in (JOB, SHOP) else 2 :]
    named = {field.name for field in deed.fields}
    assert {one.name for one in taken} - ON_THE_GLASS.get(deed.name, set()) == named
    needed = {one.name for one in deed.fields if one.needed or one.sort == HANDED_IN or (one.first and not one.many)}
    assert {one.name for one in taken if one.default is Parameter.empty} == needed


@pytest.mark.parametrize("deed", MADE, ids=NAMES)
def test_the_command_of_a_row_is_made_from_it(deed: Deed) -> None:
    command = next(one for one in COMMANDS if one.words == tuple(deed.name.split()))
    assert (command.says, command.example) == (deed.says, f"teardown-app {deed.name} {deed.example}")
    assert command.by and command.writes


def test_what_a_field_offers_are_words_and_its_help_names_them(bench: Bench) -> None:
    bench.do("shop place 'RACK 3-2' --by OF")
    with bench.open() as workshop:
        act = workshop.act("OF", workshop.find_job(ORDER).job)
        offered = {(deed.name, field.name): list(field.offers(act)) for deed in MADE for field in deed.fields}
    assert all(isinstance(word, str) for words in offered.values() for word in words)
    assert offered["part put", "place"] == ["RACK 3-2"]
    listed = [(deed.name, field) for deed in MADE for field in deed.fields if field.says.startswith("one of: ")]
    assert listed and all(field.says == one_of(offered[name, field.name]) for name, field in listed)


Stage = Callable[[Bench], object]


def off(*keys: str) -> Stage:
    """Parts are off, with labels."""
    return lambda bench: bench.off(*keys)


def done(*commands: str) -> Stage:
    """The office ran these commands."""
    return lambda bench: [bench.do(f"{command} --by OF") for command in commands]


def released(*keys: str) -> Stage:
    """Parts with the route *wash* are off, through it, read and released."""

    def stage(bench: Bench) -> None:
        for part in bench.off(*keys):
            bench.judged(part)
            bench.read(part)
        done(*[f"part skip PO-7781 {' '.join(keys)} --why x"] * 3, f"part release PO-7781 {' '.join(keys)}")(bench)

    return stage


def second_job(bench: Bench) -> None:
    """Another customer's pump."""
    bench.job(PUMP, order="PO-9")


BOWL = off("10.20")
BOWL_AND_RING = off("10.20", "10.30")
CLEAN = "part done PO-7781 10.20 --value bath=B2 --value time=9"
NOTHING_ASKED = done(
    "job received PO-7781 10 20/1 20/2 30 40 50 --as 'out of scope' --why x --reference 'mail 1'",
    "temporary out PO-7781 10.95",
    "temporary in PO-7781 10.95",
)
CLOSED = (
    off("10.50"),
    done(
        "part judge PO-7781 10.50 --as 'use as is'",
        "part skip PO-7781 10.50 --why x",
        "part release PO-7781 10.50",
        "job received PO-7781 10.20 --as 'left fitted' --why x",
        "consumable renew PO-7781 10.40 --lot L1",
        "part fit PO-7781 10.50",
        "hardware move PO-7781 10.90 --added 8 --put-in",
    ),
)
"""The cover is on and its screws are in."""

LENT = (BOWL, second_job, done("part hand-over PO-7781 10.20 --to PO-9 --for 10.20 --consent x"))
SCREWS = (second_job, done("hardware count PO-7781 10.91 --found 2"))
GAUGE = with_check("M7K3M0001")
STAGES: dict[str, tuple[Stage, ...]] = {
    "consumable keep": (),
    "consumable renew": (done("job received PO-7781 10.20 --as 'left fitted' --why x"),),
    "finding answer": (BOWL, done("part find PO-7781 10.20 --word bent --cause freight --note x --ask")),
    "hardware count": (),
    "hardware give-back": (
        *SCREWS,
        done("hardware hand-over PO-7781 10.91 --to PO-9 --for 10.91 --quantity 1 --consent x"),
    ),
    "hardware hand-over": SCREWS,
    "hardware move": (done("hardware count PO-7781 10.90 --found 7"),),
    "job add-line": (),
    "job amend": (),
    "job close": (NOTHING_ASKED,),
    "job concede": (),
    "job received": (),
    "job reopen": (NOTHING_ASKED, done("job close PO-7781")),
    "job sign": (),
    "job take-back": (BOWL,),
    "joint open": CLOSED,
    "joint torque": CLOSED,
    "part done": (BOWL_AND_RING,),
    "part fit": (released("10.20", "10.30"),),
    "part give-back": LENT,
    "part give-like": LENT,
    "part hand-over": (BOWL, second_job),
    "part hold": (BOWL,),
    "part judge": (BOWL_AND_RING,),
    "part lift": (BOWL, done("part hold PO-7781 10.20 --why x")),
    "part note": (BOWL,),
    "part out": (released("10.30"), done("part fit PO-7781 10.30")),
    "part put": (BOWL, done("shop place 'RACK 3-2'")),
    "part release": (off("10.35"), done("part judge PO-7781 10.35 --as 'use as is'")),
    "part same": (BOWL_AND_RING,),
    "part skip": (BOWL, done(CLEAN)),
    "part start": (BOWL_AND_RING,),
    "part stop": (BOWL, done("part start PO-7781 10.20")),
    "part wait-over": (BOWL, done(CLEAN, "part done PO-7781 10.20", "part done PO-7781 10.20")),
    "shop carrier": (),
    "shop cleared": (
        done(
            "shop person CR --right release",
            f"shop instrument {GAUGE} --reads gauge",
            f"shop found-out {GAUGE} --error 1um --last-good 2026-03-01 --why x",
        ),
    ),
    "shop join": (),
    "shop place": (),
    "shop retire": (),
    "temporary in": (),
    "temporary out": (done("temporary in PO-7781 10.95 --what 'drain bypass hose'"),),
}
"""What has to be there before the example of a row works on the pump."""

OWN_WORDS = {"hardware count", "hardware give-back", "hardware hand-over", "hardware move"}
"""Commands that say something else than their row: how place and bag stand."""


def of_the_pump(bench: Bench, example: str) -> str:
    """The example with the job, labels and last record that are there in place of those it names, and with check
    characters that fit."""
    with bench.open() as workshop:
        job = workshop.find_job(ORDER).job
        tags = [number_of(job, part) for part in parts(job)]
        last = list(job.records.values())[-1].ref
        founding = next(one.ref for one in workshop.home.records("_shop") if one.typ == "person.given")
    for named, there in zip(dict.fromkeys(re.findall(r"P7K3M\w{5}", example)), tags, strict=False):
        example = example.replace(named, there)
    example = re.sub(r"([CM])7K3M\w{5}", lambda found: with_check(found[0][:-1]), example)
    example = re.sub(r"_shop:\S+", founding, example)
    return re.sub(r"J7K3M00018:\S+", last, example).replace("J7K3M00018", ORDER)


@pytest.mark.parametrize("deed", MADE, ids=NAMES)
def test_the_example_of_a_row_works_and_says_what_the_row_promises(bench: Bench, deed: Deed) -> None:
    for stage in STAGES[deed.name]:
        stage(bench)
    command = f"{deed.name} {of_the_pump(bench, deed.example)}"
    before = bench.records()
    said = bench.do(command)
    assert bench.records() > before
    words = [word.rstrip(".") for word, *_ in Formatter().parse(deed.done)]
    assert deed.name in OWN_WORDS or all(word in said for word in words), said


def test_a_command_that_writes_what_its_row_does_not_name_is_seen(
    bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    bench.off("10.20")
    monkeypatch.setitem(declared.WRITES, "part hold", {"hold.lifted"})
    with pytest.raises(AssertionError, match="part hold writes what its row does not name"):
        bench.do("part hold PO-7781 10.20 --why x --by MK")
