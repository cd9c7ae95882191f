"""Findings and what the customer says to them."""

from __future__ import annotations

from tests.workflows.reassembly.bench import Bench


def test_a_covered_finding_waits_for_nobody(bench: Bench) -> None:
    bench.off("10.20")
    bench.do("part find PO-7781 10.20 --word worn --cause wear --by MK")
    assert bench.points("approval waiting") == []


def test_a_finding_beyond_the_order_waits_until_the_customer_answers(bench: Bench) -> None:
    bench.off("10.20", "10.30")
    said = bench.do("part find PO-7781 10.20 10.30 --word bent --cause freight --by MK")
    assert "the customer has to be asked" in said
    assert bench.points("approval waiting") == ["10.20", "10.30"]
    assert "needs its reference" in bench.refused("finding answer PO-7781 10.20 --as asked --by OF")
    bench.do("finding answer PO-7781 10.20 10.30 --as asked --reference 'mail 1' --by OF")
    assert bench.points("approval waiting") == ["10.20", "10.30"]
    bench.do("finding answer PO-7781 10.20 --as approved --reference 'mail 2' --by OF")
    bench.do("finding answer PO-7781 10.30 --as declined --reference 'mail 2' --by OF")
    assert bench.points("approval waiting") == []
    assert bench.points("declined by the customer") == ["10.30"]
    rows = bench.ask("finding list PO-7781")
    assert [(row["word"], row["answer"], row["reference"]) for row in rows] == [
        ("bent", "approved", "mail 2"),
        ("bent", "declined", "mail 2"),
    ]


def test_answers_are_office_work(bench: Bench) -> None:
    bench.off("10.20")
    assert "has no finding" in bench.refused("finding answer PO-7781 10.20 --as covered --by OF")
    bench.do("part find PO-7781 10.20 --word bent --cause wear --by MK")
    assert "office work" in bench.refused("finding answer PO-7781 10.20 --as covered --by MK")
    said = bench.refused("finding answer PO-7781 10.20 --word crack --as covered --by OF")
    assert "has no finding crack" in said and "bent" in said


def test_words_of_ones_own_need_a_sentence_and_the_customer(bench: Bench) -> None:
    bench.off("10.20")
    said = bench.refused("part find PO-7781 10.20 --word odd --cause wear --by MK")
    assert "none of the shop's words" in said and "light wear" in said
    assert "is no cause" in bench.refused("part find PO-7781 10.20 --word worn --cause gremlins --by MK")
    bench.do("part find PO-7781 10.20 --word odd --cause wear --note 'hums at 900/min' --by MK")
    assert bench.points("approval waiting") == ["10.20"]


def test_an_answer_goes_to_what_waits_and_changes_another_only_by_its_word(bench: Bench) -> None:
    bench.off("10.20")
    bench.do("part find PO-7781 10.20 --word worn --cause wear --by MK")
    bench.do("part find PO-7781 10.20 --word bent --cause freight --by MK")
    bench.do("finding answer PO-7781 10.20 --as declined --reference 'mail 3' --by OF")
    assert [(row["word"], row["answer"]) for row in bench.ask("finding list PO-7781")] == [
        ("worn", "covered"),
        ("bent", "declined"),
    ]
    said = bench.refused("finding answer PO-7781 10.20 --as approved --reference 'mail 4' --by OF")
    assert "bowl 10.20" in said and "bent is declined in mail 3" in said
    bench.do("finding answer PO-7781 10.20 --word bent --as approved --reference 'mail 4' --by OF")
    assert bench.points("declined by the customer") == []


def test_covered_or_to_be_asked_may_be_said_against_the_list(bench: Bench) -> None:
    bench.off("10.20", "10.30")
    bench.do("part find PO-7781 10.20 --word worn --cause wear --ask --by MK")
    bench.do("part find PO-7781 10.30 --word bent --cause wear --covered --by MK")
    assert bench.points("approval waiting") == ["10.20"]


def test_a_refused_finding_names_its_parts(bench: Bench) -> None:
    (part,) = bench.off("10.20")
    said = bench.refused("part find PO-7781 10.20 --word worn --cause gremlins --by MK")
    assert f"{bench.tag(part)} bowl 10.20" in said and "freight" in said
    assert "needs a word" in bench.refused("part find PO-7781 10.20 --word ' ' --cause wear --by MK")


def test_two_tablets_disagree_and_the_stronger_answer_holds(bench: Bench, second: Bench) -> None:
    bench.off("10.20")
    bench.do("part find PO-7781 10.20 --word bent --cause freight --by MK")
    bench.carry_to(second)
    bench.do("finding answer PO-7781 10.20 --as approved --reference 'mail 5' --by OF")
    second.do("finding answer PO-7781 10.20 --as declined --reference 'call 5' --by OF")
    second.carry_to(bench)
    assert bench.points("declined by the customer") == ["10.20"]
    bench.do("finding answer PO-7781 10.20 --word bent --as approved --reference 'mail 6' --by OF")
    assert bench.points("declined by the customer") == []


def test_a_closed_list_of_the_shop_takes_the_place_of_the_usual_one(bench: Bench) -> None:
    bench.off("10.20")
    own = bench.home / "shop" / "findings.toml"
    own.parent.mkdir(exist_ok=True)
    own.write_text('causes = ["storm"]\n[finding]\n"wet" = true\n', encoding="utf-8")
    assert "wet" in bench.refused("part find PO-7781 10.20 --word bent --cause storm --by MK")
    bench.do("part find PO-7781 10.20 --word wet --cause storm --by MK")
    assert bench.points("approval waiting") == []
