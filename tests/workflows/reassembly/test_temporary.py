"""What is in only for a time: brackets of the bill and hoses added on the job, out for running."""

from __future__ import annotations

from tests.workflows.reassembly.bench import Bench

KIND = "temporary in or out wrongly"


def test_a_shipping_bracket_comes_out_for_running_and_goes_in_for_shipping(bench: Bench) -> None:
    assert bench.points(KIND) == ["10.95", "10.95"]
    bench.do("temporary out PO-7781 10.95 --by AS")
    assert bench.points(KIND) == ["10.95"]
    assert "bracket, shipping 10.95 is out already" in bench.refused("temporary out PO-7781 10.95 --by AS")
    bench.do("temporary in PO-7781 10.95 --by AS")
    assert bench.points(KIND) == []


def test_what_is_added_on_the_job_has_to_come_out(bench: Bench) -> None:
    before = len(bench.points(KIND))
    bench.do("temporary in PO-7781 --what 'drain bypass hose' --by AS")
    assert len(bench.points(KIND)) == before + 2
    assert not bench.points("record kept that does not fit")
    assert "drain bypass hose is in already" in bench.refused("temporary in PO-7781 --what 'drain bypass hose' --by AS")
    bench.do("temporary out PO-7781 --what 'drain  bypass hose' --by AS")
    assert len(bench.points(KIND)) == before
    assert "is out already" in bench.refused("temporary out PO-7781 --what 'drain bypass hose' --by AS")
    bench.do("temporary in PO-7781 --what 'drain bypass hose' --by AS")
    assert len(bench.points(KIND)) == before + 2


def test_places_and_added_things_in_one_act(bench: Bench) -> None:
    bench.do("temporary in PO-7781 10.95 --what 'gauge, tank' --what 'mask, window' --by AS")
    said = bench.do("temporary out PO-7781 10.95 --what 'gauge, tank' --what 'mask, window' --by AS")
    assert "mask, window is out" in said
    assert bench.points(KIND) == ["10.95"]


def test_what_was_never_in_does_not_come_out(bench: Bench) -> None:
    assert "Nothing was added" in bench.refused("temporary out PO-7781 --what hose --by AS")
    bench.do("temporary in PO-7781 --what 'gauge, tank' --by AS")
    said = bench.refused("temporary out PO-7781 10.95 --what hose --by AS")
    assert "hose was never put in" in said and "In are: gauge, tank" in said


def test_only_temporary_places_and_named_things(bench: Bench) -> None:
    assert "bowl 10.20 is for a part" in bench.refused("temporary in PO-7781 10.20 --by AS")
    assert "needs a name" in bench.refused("temporary in PO-7781 --what ' ' --by AS")
    assert "Nothing is named" in bench.refused("temporary in PO-7781 --by AS")


def test_what_is_in_for_a_time_is_neither_held_nor_found_bad(bench: Bench) -> None:
    bench.do("temporary in PO-7781 --what 'mask, window' --by AS")
    assert "neither the number of a part nor a place" in bench.refused(
        "part hold PO-7781 'mask, window' --why x --by AS"
    )
    find = "part find PO-7781 'mask, window' --word cracked --cause age --by AS"
    assert "neither the number of a part nor a place" in bench.refused(find)
