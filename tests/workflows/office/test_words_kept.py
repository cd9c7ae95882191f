"""What a person said in words stands in the record, and what nobody said does not: command by command, in one job."""

from __future__ import annotations

from typing import Any

from tests.workflows.reassembly.bench import ORDER, Bench
from tests.workflows.reassembly.pump import PUMP

SAID: list[tuple[str, str, dict[str, Any]]] = [
    # command, kind of record, fields that it has to hold
    ("shop place 'RACK 3' --by OF", "place.given", {"name": "RACK 3"}),
    ("job received {o} 40 --as 'not on this tool' --why 'seen on the plate' --by OF", "configuration.received",
     {"as": "not on this tool", "why": "seen on the plate"}),
    ("part off {o} 10.20 --new-number --condition worn --place 'RACK 3' --serial S7 --lot L1 --note 'stuck' --by MK",
     "part.taken_off", {"out_of": "10.20", "condition": "worn", "place": "RACK 3", "note": "stuck",
                        "written": {"serial": "S7", "lot": "L1"}}),
    ("part bring-in {o} P-1030 --origin new --for 10.30 --new-number --place 'RACK 3' --set-mark I --note oily --by MK",
     "part.brought_in", {"meant_for": "10.30", "origin": "new", "place": "RACK 3", "set_mark": "I", "note": "oily"}),
    ("part put {o} 'RACK 3' 10.20 --note 'upside down' --by MK", "thing.put",
     {"place": "RACK 3", "note": "upside down"}),
    ("part find {o} 10.20 --word scratch --cause wear --ask --note 'on the rim' --by MK", "finding.noted",
     {"word": "scratch", "cause": "wear", "covered": False, "note": "on the rim"}),
    ("finding answer {o} 10.20 --as approved --reference 'mail 7' --by OF", "approval.given",
     {"as": "approved", "reference": "mail 7"}),
    ("part judge {o} 10.20 --as 'use as is' --why 'only scratches' --by OF", "disposition.given",
     {"as": "use as is", "why": "only scratches"}),
    ("part start {o} 10.20 --note 'bath is fresh' --value bath=B1 --by MK", "operation.started",
     {"operation": "degrease", "note": "bath is fresh", "values": {"bath": "B1"}}),
    ("part stop {o} 10.20 --note 'pump failed' --by MK", "operation.stopped", {"note": "pump failed"}),
    ("part start {o} 10.20 --by MK", "operation.started", {"operation": "degrease"}),
    ("part done {o} 10.20 --note 'clean' --value bath=B1 --value time=20 --by MK", "operation.done",
     {"operation": "degrease", "note": "clean", "values": {"bath": "B1", "time": "20"}}),
    ("part skip {o} 10.20 --why 'is bright' --by OF", "operation.skipped", {"operation": "polish", "why": "is bright"}),
    ("check impossible {o} 10.20 dents --why 'no light' --expected 2026-03-20 --by MK", "check.not_possible",
     {"check": "dents", "why": "no light", "expected": "2026-03-20"}),
    ("check read {o} 10.20 dents --answer good --note 'by hand lens' --by MK", "check.read",
     {"check": "dents", "verdict": "accept", "note": "by hand lens"}),
    ("hardware count {o} 10.90 --found 8 --by MK", "hardware.counted", {"found": 8}),
    ("hardware move {o} 10.90 --put-in 8 --by AS", "hardware.moved", {"put_in": 8}),
    ("hardware count {o} 10.91 --found 2 --by MK", "hardware.counted", {"found": 2}),
    ("hardware move {o} 10.91 --lost 1 --search 'sump and drain' --by AS", "hardware.moved",
     {"lost": 1, "search": "sump and drain"}),
    ("joint open {o} 10.90 --why 'looked beneath' --by AS", "joint.opened", {"why": "looked beneath"}),
    ("consumable renew {o} 10.60 --lot L9 --expiry 2027-01-01 --old 'hard' --by AS", "consumable.renewed",
     {"as": "renewed", "lot": "L9", "expiry": "2027-01-01", "old": "hard"}),
    ("temporary in {o} 10.95 --note 'red bracket' --by AS", "temporary.in", {"note": "red bracket"}),
    ("temporary out {o} 10.95 --note 'on RACK 3' --by AS", "temporary.out", {"note": "on RACK 3"}),
    ("temporary in {o} --what hose --note 'at the drain' --by AS", "temporary.in",
     {"what": "hose", "note": "at the drain"}),
    ("temporary out {o} --what hose --note 'in the box' --by AS", "temporary.out", {"note": "in the box"}),
    ("job add-line {o} --parent 10 --part-number X-1 --description CLIP --number P7K3M0001B --why 'not drawn' --by OF",
     "line.added", {"parent": "10", "part_number": "X-1", "description": "CLIP", "why": "not drawn"}),
]  # fmt: skip


def last(bench: Bench, typ: str, order: str = ORDER) -> dict[str, Any]:
    """Body of the last record of a kind."""
    with bench.open() as workshop:
        number = workshop.find_job(order).job.number
        journals = (*workshop.home.records(number), *workshop.home.records("_shop"))
        return [record.body for record in journals if record.typ == typ][-1]


def test_what_was_said_is_in_the_record(bench: Bench) -> None:
    """Each command with all that can be said in words."""
    for command, typ, fields in SAID:
        bench.do(command.format(o=ORDER))
        body = last(bench, typ)
        assert {name: body.get(name) for name in fields} == fields, command


SILENT = [
    ("part off {o} 10.30 --new-number --by MK", "part.taken_off", {"out_of", "number", "how"}),
    ("part put {o} 'RACK 3' 10.30 --by MK", "thing.put", {"place"}),
    ("part find {o} 10.30 --word scratch --cause wear --ask --by MK", "finding.noted", {"word", "cause", "covered"}),
    ("part judge {o} 10.30 --as rework --by OF", "disposition.given", {"as"}),
    ("part start {o} 10.30 --by MK", "operation.started", {"route", "operation", "pass"}),
    ("part stop {o} 10.30 --by MK", "operation.stopped", {"route", "operation", "pass"}),
    ("hardware count {o} 10.91 --found 2 --by MK", "hardware.counted", {"found"}),
    ("hardware move {o} 10.91 --put-in 2 --by AS", "hardware.moved", {"put_in"}),
    ("temporary in {o} 10.95 --by AS", "temporary.in", set()),
    ("temporary out {o} 10.95 --by AS", "temporary.out", set()),
]


def test_what_nobody_said_is_not_in_the_record(bench: Bench) -> None:
    """No empty words: another program reads them as said."""
    bench.do("shop place 'RACK 3' --by OF")
    for command, typ, fields in SILENT:
        bench.do(command.format(o=ORDER))
        assert set(last(bench, typ)) == fields, command


def test_the_note_of_a_fitting_and_of_a_closing_is_kept(bench: Bench) -> None:
    """Both come at the end: a part that needs nothing goes in; then nothing is asked for any more."""
    (pin,) = bench.off("10.35")
    bench.judged(pin)
    keys = [row["position"] for row in bench.ask("job places PO-7781") if "." not in row["position"]]
    bench.do("part release PO-7781 10.35 --by OF")
    bench.do("part fit PO-7781 10.35 --note 'tight' --by AS")
    assert last(bench, "part.fitted") == {"note": "tight"}
    bench.do("part out PO-7781 10.35 --why 'wrong way round' --by AS")
    assert last(bench, "part.taken_out") == {"why": "wrong way round"}
    bench.job(PUMP, order="PO-9")
    said = "--as 'out of scope' --why 'agreed by mail' --reference 'mail 4'"
    bench.do(f"job received PO-9 {' '.join(keys)} {said} --by OF")
    bench.do("temporary out PO-9 10.95 --by AS")
    bench.do("temporary in PO-9 10.95 --by AS")
    bench.do("job close PO-9 --note 'customer takes it as it is' --by OF")
    assert last(bench, "job.closed", "PO-9")["note"] == "customer takes it as it is"
