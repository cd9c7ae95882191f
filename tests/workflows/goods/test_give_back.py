"""What one job owes another: parts and counted hardware, until they or their like came back."""

from __future__ import annotations

import pytest

from tests.workflows.reassembly.bench import ORDER, Bench
from tests.workflows.reassembly.pump import PUMP

OVER = "part hand-over PO-7781 10.20 --to PO-9 --for 10.20 --consent 'mail 3' --by OF"
BACK = "part give-back PO-7781 10.20 --from PO-9 --consent 'mail 9' --by OF"
SCREWS = "hardware hand-over PO-7781 10.91 --to PO-9 --for 20/1.90 --consent 'mail 3' --by OF"


@pytest.fixture
def two(bench: Bench) -> Bench:
    """A second job of the same pump."""
    bench.job(PUMP, order="PO-9")
    return bench


def kinds(bench: Bench, order: str) -> set[str]:
    """Kinds of the open points about the bowl's place."""
    return {one["kind"] for one in bench.ask_points(order) if one["position"] == "10.20" and one["state"] == "open"}


def test_the_part_itself_comes_back_and_both_jobs_say_so(two: Bench) -> None:
    (bowl,) = two.off("10.20")
    two.do(OVER)
    assert "debt" in kinds(two, ORDER) and "tagged but unaccounted for" not in kinds(two, ORDER)
    assert "tagged but unaccounted for" in kinds(two, "PO-9")
    two.do(BACK)
    assert "tagged but unaccounted for" in kinds(two, ORDER), "it has to go into its own tool again"
    assert "tagged but unaccounted for" not in kinds(two, "PO-9") and "missing" in kinds(two, "PO-9")
    assert "not owed" in two.refused(BACK)
    two.write("part.fitted", bowl, "@10.20")
    assert not kinds(two, ORDER) & {"debt", "missing", "tagged but unaccounted for"}


def test_a_part_is_not_given_back_out_of_a_tool_that_still_has_it(two: Bench) -> None:
    two.off("10.20")
    two.do(OVER)
    taken = two.ask("part show PO-9 10.20")["part"]
    two.write("part.fitted", taken, "@10.20", order="PO-9")
    said = two.refused(BACK)
    assert "fitted in bowl 10.20 of job" in said and "give-like" in said
    two.do("part give-like PO-7781 10.20 --from PO-9 --consent 'mail 9' --by OF")
    assert "missing" not in kinds(two, "PO-9"), "the tool keeps it"
    assert "debt" not in kinds(two, ORDER) and "tagged but unaccounted for" in kinds(two, ORDER)
    two.do("part judge PO-7781 10.20 --as spare --why 'stays there' --by OF")
    two.do("part bring-in PO-7781 P-1020 --origin exchanged --for 10.20 --new-number --by OF")


def test_a_part_lent_on_comes_back_step_by_step(two: Bench) -> None:
    two.job(PUMP, order="PO-5")
    two.off("10.20")
    two.do(OVER)
    two.do("part hand-over PO-9 10.20 --to PO-5 --for 10.20 --consent 'mail 4' --by OF")
    assert "is with job" in two.refused(BACK)
    assert "is with job" in two.refused(BACK.replace("give-back", "give-like"))
    assert "went to job" in two.refused(BACK.replace("PO-9", "PO-5"))
    two.do("part give-back PO-9 10.20 --from PO-5 --consent 'mail 5' --by OF")
    two.do(BACK)
    assert two.points("debt") == []


def test_what_does_not_leave_its_job(two: Bench) -> None:
    (bowl,) = two.off("10.20")
    assert "Both are job" in two.refused(OVER.replace("PO-9", "PO-7781"))
    assert "P-1020 does not fit ring 10.30" in two.refused(OVER.replace("--for 10.20", "--for 10.30"))
    two.do("part find PO-7781 10.20 --word crack --cause freight --by MK")
    said = two.refused(OVER)
    assert two.tag(bowl) in said and "bowl 10.20" in said and "crack (not asked yet)" in said
    two.do("finding answer PO-7781 10.20 --as covered --by OF")
    two.judged(bowl, word="scrap")
    assert "dispositioned scrap" in two.refused(OVER)


def test_the_taking_job_has_no_use_for_a_second_one(two: Bench) -> None:
    two.off("10.20")
    two.off("10.20", order="PO-9")
    said = two.refused(OVER)
    assert "still meant to go back into bowl 10.20" in said and "part judge" in said


def test_a_part_does_not_come_home_as_a_stranger(two: Bench) -> None:
    (bowl,) = two.off("10.20")
    two.do(OVER)
    said = two.refused("part hand-over PO-9 10.20 --to PO-7781 --for 10.20 --consent 'mail 4' --by OF")
    assert two.tag(bowl) in said and "part give-back" in said


def test_screws_go_over_and_come_back(two: Bench) -> None:
    two.do("hardware count PO-7781 10.91 --found 3 --by MK")
    assert two.ask(f"{SCREWS} --quantity 2")["owed"] == 2
    for order, key, there in ((ORDER, "10.91", 1), ("PO-9", "20/1.90", 2)):
        said = two.refused(f"hardware move {order} {key} --put-in {there + 1} --by AS")
        assert f"{there} are in the bag" in said or "takes 2" in said
    back = "hardware give-back PO-7781 10.91 --from PO-9 --consent 'mail 9' --by OF"
    assert "owes 2" in two.refused(f"{back} --quantity 3")
    assert two.ask(f"{back} --quantity 1")["owed"] == 1
    two.do("hardware move PO-9 20/1.90 --put-in 1 --by AS")
    assert "0 are in the bag" in two.refused(back)
    two.do("hardware move PO-9 20/1.90 --added 1 --by AS")
    assert two.ask(back)["owed"] == 0
    two.do("hardware move PO-7781 10.91 --put-in 2 --by AS")
    two.do("hardware move PO-7781 10.91 --left-over 1 --why stock --by AS")
    assert "10.91" not in two.points("hardware does not balance")


def test_screws_come_back_out_of_the_fullest_bag(two: Bench) -> None:
    """Of one bag too few would come back, though the job has enough of them in another."""
    two.do("hardware count PO-7781 10.91 --found 3 --by MK")
    two.do(f"{SCREWS} --quantity 1")
    two.do(f"{SCREWS.replace('20/1.90', '20/2.90')} --quantity 2")
    two.do("hardware give-back PO-7781 10.91 --from PO-9 --consent 'mail 9' --by OF --quantity 2")
    assert "0 are in the bag" in two.refused("hardware move PO-9 20/2.90 --put-in 1 --by AS")
    two.do("hardware move PO-9 20/1.90 --put-in 1 --by AS")


def test_screws_of_another_size_are_refused(two: Bench) -> None:
    two.do("hardware count PO-7781 10.91 --found 3 --by MK")
    said = two.refused(f"{SCREWS.replace('20/1.90', '10.90')} --quantity 1")
    assert "H-M4 does not fit screw, cap 10.90" in said and "H-M6" in said
    assert "for a part" in two.refused(f"{SCREWS.replace('20/1.90', '10.20')} --quantity 1")
    assert "0 of screw, cap 10.91" in two.refused(f"{SCREWS} --quantity 0")


def test_each_record_names_what_its_author_had_of_its_own_job(two: Bench, second: Bench) -> None:
    """Another tablet, which has read both jobs in, hands over: each record rests on its own job's records."""
    two.off("10.20")
    two.carry_to(second)
    second.do(OVER)
    with second.open() as workshop:
        for order, typ in ((ORDER, "goods.handed_over"), ("PO-9", "goods.taken_over")):
            records = workshop.home.records(workshop.find_job(order).job.number)
            (own,) = [one for one in records if one.dev == workshop.home.dev]
            others = {one.dev: (one.seq, one.h[:8]) for one in records if one.dev != own.dev}
            assert own.typ == typ and others
            assert {dev: tuple(head) for dev, head in own.seen.items() if "/" not in dev} == others
