"""Release: one, several or all that are ready, with everything that a part lacks said at once."""

from __future__ import annotations

from tests.workflows.reassembly.bench import Bench


def test_everything_that_a_part_lacks_is_said_at_once(bench: Bench) -> None:
    (part,) = bench.off("10.20")
    bench.write("hold.placed", part, why="lot report")
    bench.write("finding.noted", part, word="pitting", cause="wear", covered=False)
    said = bench.refused("part release PO-7781 10.20 --by OF")
    for lack in ("no disposition", "lot report", "pitting", "Dents: due", "Degrease; Electropolish; Dry"):
        assert lack in said
    assert f"{bench.tag(part)} bowl 10.20" in said


def test_all_ready_parts_are_released_in_one_record(bench: Bench) -> None:
    parts = bench.off("10.35", "20/1.10", "20/1.20")
    bench.off("10.20")
    bench.judged(*parts)
    before = bench.records()
    answer = bench.ask("part release PO-7781 --ready --by OF")
    assert sorted(answer["parts"]) == sorted(parts)
    assert bench.records() == before + 1
    assert "No part is ready" in bench.refused("part release PO-7781 --ready --by OF")


def test_ready_parts_of_one_assembly_only(bench: Bench) -> None:
    parts = bench.off("10.35", "20/1.10")
    bench.judged(*parts)
    assert bench.ask("part release PO-7781 --ready --beneath 20/1 --by OF")["parts"] == [parts[1]]


def test_several_parts_are_released_or_none(bench: Bench) -> None:
    good, bad = bench.off("10.35", "20/1.10")
    bench.judged(good)
    said = bench.refused("part release PO-7781 10.35 20/1.10 --by OF")
    assert bench.tag(bad) in said and bench.tag(good) not in said
    bench.judged(bad)
    bench.do("part release PO-7781 10.35 20/1.10 --by OF")


def test_release_needs_the_right_and_says_when_it_is_there_already(bench: Bench) -> None:
    bench.judged(*bench.off("10.35"))
    assert "no right to release" in bench.refused("part release PO-7781 10.35 --by AS")
    bench.do("part release PO-7781 10.35 --by OF")
    assert "is released already" in bench.refused("part release PO-7781 10.35 --by OF")


def test_either_parts_or_all_ready(bench: Bench) -> None:
    bench.off("10.35")
    for what in ("", "10.35 --ready", "10.35 --beneath 10"):
        assert "not clear what to release" in bench.refused(f"part release PO-7781 {what} --by OF")


def test_a_release_lapses_when_something_changes_and_is_given_again(bench: Bench) -> None:
    (part,) = bench.off("10.35")
    bench.judged(part)
    bench.do("part release PO-7781 10.35 --by OF")
    bench.do("part fit PO-7781 10.35 --by AS")
    assert bench.points("not released") == []
    bench.judged(part, word="rework")
    assert bench.points("not released") == ["10.35"]
    bench.do("part release PO-7781 --ready --by OF")
    assert bench.points("not released") == []


def test_a_declined_finding_that_is_conceded_is_released(bench: Bench) -> None:
    (part,) = bench.off("10.35")
    bench.judged(part)
    finding = bench.write("finding.noted", part, word="pitting", cause="wear", covered=False)
    bench.write("approval.given", finding, reference="mail 1", **{"as": "declined"})
    assert "declined what the finding pitting needs" in bench.refused("part release PO-7781 10.35 --by OF")
    key = f"declined by the customer|{part}|{finding}"
    bench.do(f"job concede PO-7781 '{key}' --why 'stays as it is' --reference 'mail 1' --by OF")
    bench.do("part release PO-7781 10.35 --by OF")
