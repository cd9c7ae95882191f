"""Labels by command: queued, printed, perhaps printed, again, void, replaced; and labels of what the shop has."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from pypdfium2 import PdfDocument

from teardown_app.cli.main import main
from teardown_app.domain.ledger.record import SHOP, Draft
from teardown_app.domain.tags.tag import issue, parse
from teardown_app.workshop import assets_folder, open_workshop
from tests.labels.fake_print_service import FakeService, on_path

SAMPLES = Path(__file__).parents[2] / "sample_bills"


@pytest.fixture
def service(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> FakeService:
    """A print service with the printers bench and office."""
    return on_path(tmp_path, monkeypatch)


@pytest.fixture
def run(tmp_path: Path, capsys: pytest.CaptureFixture[str]):  # type: ignore[no-untyped-def]
    """Runs a command on a folder of its own: (exit code, its answer, what it said on standard error)."""

    def command(*words: object) -> tuple[int, object, str]:
        code = main([*(str(word) for word in words), "--home", str(tmp_path / "data"), "--json"])
        said = capsys.readouterr()
        return code, json.loads(said.out) if said.out.strip() else None, said.err

    return command


@pytest.fixture
def part(run) -> str:  # type: ignore[no-untyped-def]
    """A part of job P-1 with a label of a roll; its number."""
    assert run("shop", "person", "OF", "--by", "OF")[0] == 0
    assert run("job", "open", SAMPLES / "brd-25", "--order", "P-1", "--serial", "7", "--by", "OF")[0] == 0
    _, rolled, _ = run("label", "roll", 3, "--by", "OF")
    number = rolled["numbers"][0]
    code, _, err = run("part", "off", "P-1", "10.10", "--number", number, "--by", "OF")
    assert code == 0, err
    return number


def written(answer: object) -> str:
    """Everything in clear in the PDF that an answer names."""
    return "\n".join(page.get_textpage().get_text_bounded() for page in PdfDocument(answer["file"]))  # type: ignore[index]


def misread(number: str) -> str:
    """The number with another sign at its end: the check character no longer fits."""
    return number[:-1] + ("0" if number[-1] != "0" else "1")


def waits(run) -> list[str]:  # type: ignore[no-untyped-def]
    """Numbers in the queue and how they stand."""
    return [f"{one['number']} {one['stands']}" for one in run("label", "queue")[1]]


def test_a_dirty_label_is_replaced_and_printed(run, part: str, service: FakeService) -> None:  # type: ignore[no-untyped-def]
    """New number, label queued; the old one still answers; printed once, and not again."""
    code, new, _ = run("label", "replace", "P-1", part, "--why", "cannot be read", "--by", "OF")
    assert code == 0 and new["old"] == part and waits(run) == [f"{new['number']} waiting"]
    for number in (part, new["number"]):
        assert run("part", "show", "P-1", number)[0] == 0
    code, answer, err = run("label", "print", "--stock", "roll-50x25", "--printer", "bench", "--by", "OF")
    assert code == 0, err
    assert new["number"] in written(answer) and "10.10" in written(answer)
    assert service.taken == Path(answer["file"]).read_bytes()
    assert waits(run) == []
    code, _, err = run("label", "print", "--by", "OF")
    assert code == 2 and "No label waits" in err


def test_the_same_number_is_printed_again(run, part: str) -> None:  # type: ignore[no-untyped-def]
    """With its reason; twice in the queue is refused, and so is a number that stands for nothing."""
    assert run("label", "reprint", part, "--why", "came off", "--by", "OF")[0] == 0
    assert waits(run) == [f"{part} waiting"]
    assert "in the queue already" in run("label", "reprint", part, "--why", "x", "--by", "OF")[2]
    _, rolled, _ = run("label", "roll", 1, "--by", "OF")
    assert "stands for nothing" in run("label", "reprint", rolled["numbers"][0], "--why", "x", "--by", "OF")[2]
    code, answer, _ = run("label", "print", "--by", "OF")
    assert code == 0 and answer["numbers"] == [part] and part in written(answer)


def test_a_printer_that_refuses_loses_nothing(run, part: str, service: FakeService) -> None:  # type: ignore[no-untyped-def]
    """The labels wait as before, the file is there, and the next print goes through."""
    run("label", "reprint", part, "--why", "came off", "--by", "OF")
    service.does("refuses")
    code, _, err = run("label", "print", "--printer", "bench", "--by", "OF")
    assert code == 2 and "did not take the labels" in err and waits(run) == [f"{part} waiting"]
    service.recovers("refuses")
    assert run("label", "print", "--by", "OF")[0] == 0, "the printer is kept for this stock"
    assert service.called()[1] == "bench" and waits(run) == []


def test_a_printer_that_does_not_answer_leaves_it_open(run, part: str, service: FakeService) -> None:  # type: ignore[no-untyped-def]
    """Perhaps printed: exit 1, and a person says what came out; not printed again before that."""
    run("label", "reprint", part, "--why", "came off", "--by", "OF")
    service.does("hangs")
    service.is_given_up()
    code, _, err = run("label", "print", "--printer", "bench", "--by", "OF")
    assert code == 2 and "perhaps printed" in err
    assert run("label", "queue")[0] == 1 and waits(run) == [f"{part} sent"]
    assert run("label", "print", "--by", "OF")[0] == 2, "nothing waits: it is not printed twice without a word"
    assert run("label", "seen", "all", "--not", "--by", "OF")[0] == 0 and waits(run) == [f"{part} waiting"]
    service.recovers("hangs")
    assert run("label", "print", "--by", "OF")[0] == 0 and waits(run) == []


def test_a_tablet_that_dies_while_it_prints_says_perhaps(run, part: str, monkeypatch: pytest.MonkeyPatch) -> None:  # type: ignore[no-untyped-def]
    """Cut off after sending and before the record of it: the next start tells it, and seen settles it."""
    run("label", "reprint", part, "--why", "came off", "--by", "OF")

    def dies(*_: object) -> str:
        raise KeyboardInterrupt

    with monkeypatch.context() as cut:
        cut.setattr("teardown_app.labels.order.Order.send", dies)
        with pytest.raises(KeyboardInterrupt):
            run("label", "print", "--by", "OF")
    assert waits(run) == [f"{part} sent"]
    assert run("label", "seen", part, "--by", "OF")[0] == 0 and waits(run) == []
    assert "was not perhaps printed" in run("label", "seen", part, "--by", "OF")[2]


def test_a_void_label_is_never_put_on_anything(run, part: str) -> None:  # type: ignore[no-untyped-def]
    """Spoiled in the printer: refused on parts and bags, for ever; one that is on a part is replaced instead."""
    _, rolled, _ = run("label", "roll", 2, "--by", "OF")
    spoiled = rolled["numbers"][0]
    assert run("label", "void", spoiled, "--why", "spoiled in the printer", "--by", "OF")[0] == 0
    code, _, err = run("part", "off", "P-1", "10.20", "--number", spoiled, "--by", "OF")
    assert code == 2 and "made void" in err and "spoiled in the printer" in err and "next one" in err
    assert "made void already" in run("label", "void", spoiled, "--why", "x", "--by", "OF")[2]
    code, _, err = run("label", "void", part, "--why", "dirty", "--by", "OF")
    assert code == 2 and "stands for" in err and "label replace" in err
    assert "no number of ours" in run("label", "void", misread(spoiled), "--why", "x", "--by", "OF")[2]


def following(number: str, by: int = 1) -> str:
    """The number after it in its series."""
    return issue(number[0], number[1:5], parse(number).counter + 1, by)[0][-1]


def test_a_number_not_issued_yet_is_not_made_void(run, part: str) -> None:  # type: ignore[no-untyped-def]
    """It would stand in the way of numbering; so would one of a letter that was never issued here."""
    _, rolled, _ = run("label", "roll", 1, "--by", "OF")
    fresh = following(rolled["numbers"][0])
    code, _, err = run("label", "void", fresh, "--why", "lost", "--by", "OF")
    assert code == 2 and f"{fresh} was not issued yet" in err and "Read the number again" in err
    assert (
        "not issued yet"
        in run("label", "void", "X" + issue("X", fresh[1:5], 0, 1)[0][0][1:], "--why", "x", "--by", "OF")[2]
    )
    _, rolled, _ = run("label", "roll", 1, "--by", "OF")
    assert rolled["numbers"] == [fresh], "nothing was recorded"
    assert run("label", "void", fresh, "--why", "lost", "--by", "OF")[0] == 0


def test_numbering_steps_over_void_numbers(run, part: str, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    """Made void at another tablet that knew of no series here: its record came late, the next numbers go round it."""
    _, rolled, _ = run("label", "roll", 1, "--by", "OF")
    last = rolled["numbers"][0]
    gone = [following(last), following(last, 2), following(last, 4)]
    workshop = open_workshop(tmp_path / "data", assets_folder(), writes=True)
    for number in gone:
        workshop.record([Draft(SHOP, "label.voided", ("number:" + number,), {"number": number, "why": "late"})], "OF")
    workshop.close()
    code, rolled, _ = run("label", "roll", 3, "--by", "OF")
    assert code == 0 and rolled["numbers"] == [following(last, n) for n in (3, 5, 6)]
    _, rolled, _ = run("label", "roll", 1, "--by", "OF")
    assert rolled["numbers"] == [following(last, 7)], "none is issued twice"


def test_replacing_a_label_that_waits_takes_it_out_of_the_queue(run, part: str) -> None:  # type: ignore[no-untyped-def]
    """The old number would be printed for a part that has a new one."""
    run("label", "reprint", part, "--why", "came off", "--by", "OF")
    _, new, _ = run("label", "replace", "P-1", part, "--why", "cannot be read", "--by", "OF")
    assert waits(run) == [f"{new['number']} waiting"]


def test_a_number_named_twice_counts_once_and_a_wrong_one_is_named(run, part: str) -> None:  # type: ignore[no-untyped-def]
    """In all commands about the queue."""
    run("label", "reprint", part, "--why", "came off", "--by", "OF")
    code, answer, err = run("label", "drop", part, part, "--why", "x", "--by", "OF")
    assert code == 0 and waits(run) == [], err
    wrong = misread(part)
    for words in (("seen", wrong), ("reprint", wrong, "--why", "x"), ("drop", wrong, "--why", "x")):
        assert f"{wrong} is no number of ours" in run("label", *words, "--by", "OF")[2]
    assert f"{wrong} is no number of ours" in run("label", "job", "P-1", "--part", wrong)[2]


@pytest.mark.parametrize(
    "letter, words",
    [
        ("H", ("hardware", "count", "P-1", "{place}", "--found", "6", "--bag", "{number}")),
        ("W", ("shop", "person", "TB", "--right", "record", "--badge", "{number}")),
        ("S", ("shop", "place", "RACK 1", "--number", "{number}")),
        ("C", ("shop", "carrier", "{number}", "--name", "basket 4")),
        ("M", ("shop", "instrument", "{number}", "--reads", "length")),
        ("J", ("job", "open", str(SAMPLES / "ddp-12"), "--order", "P-2", "--serial", "8", "--number", "{number}")),
    ],
)
def test_a_void_number_is_refused_everywhere(run, part: str, letter: str, words: tuple[str, ...]) -> None:  # type: ignore[no-untyped-def]
    """Bags, badges, places, carriers, instruments, jobs: none of them takes it; the next label of the roll is taken."""
    _, rolled, _ = run("label", "roll", 2, "--letter", letter, "--by", "OF")
    bad, good = rolled["numbers"]
    assert run("label", "void", bad, "--why", "torn", "--by", "OF")[0] == 0
    place = next(one["position"] for one in run("job", "places", "P-1")[1] if one.get("kind") == "hardware")
    for number, wanted in ((bad, 2), (good, 0)):
        typed = [word.format(number=number, place=place) for word in words]
        code, _, err = run(*typed, "--by", "OF")
        assert code == wanted, err
        assert ("made void" in err) == bool(wanted)


def test_labels_say_what_they_are_for(run, part: str) -> None:  # type: ignore[no-untyped-def]
    """Name of the place, range of the instrument, code of the person and no name, the bag's count, the job's order."""
    run("shop", "place", "RACK 3-2", "--by", "OF")
    _, gauges, _ = run("label", "roll", 1, "--letter", "M", "--by", "OF")
    gauge = gauges["numbers"][0]
    code, _, err = run(
        "shop",
        "instrument",
        gauge,
        "--reads",
        "inside micrometer",
        "--unit",
        "mm",
        "--low",
        "50 mm",
        "--high",
        "500 mm",
        "--due",
        "2027-03-01",
        "--by",
        "OF",
    )
    assert code == 0, err
    _, bags, _ = run("label", "roll", 1, "--letter", "H", "--by", "OF")
    bag = bags["numbers"][0]
    place = next(one["position"] for one in run("job", "places", "P-1")[1] if one.get("kind") == "hardware")
    assert run("hardware", "count", "P-1", place, "--found", 5, "--bag", bag, "--by", "OF")[0] == 0

    def says(*words: object) -> str:
        code, answer, err = run(*words)
        assert code == 0, err
        return " ".join(written(answer).split())

    assert "RACK 3-2" in says("label", "sheet", "places", "--give-numbers", "--stock", "roll-50x25", "--by", "OF")
    told = says("label", "sheet", "instruments", "--stock", "tie-on-120x60", "--by", "OF")
    assert gauge in told and "inside micrometer" in told and "50 mm to 500 mm" in told and "due 2027-03-01" in told
    assert " OF" in says("label", "sheet", "people", "--give-numbers", "--by", "OF")
    told = says("label", "job", "P-1", "--bags")
    assert bag in told and "bag of 5" in told and place in told
    assert "order P-1" in says("label", "job", "P-1", "--folder")
    assert "bath" in says("label", "roll", 1, "--letter", "B", "--by", "OF")
    assert "None of the carriers" in run("label", "sheet", "carriers", "--by", "OF")[2]


def test_stocks_and_nudge_by_command(run, part: str, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    """Module and distance of each stock; a wrong entry of the shop's file is told and the rest is there: exit 2."""
    code, answer, _ = run("label", "stocks")
    row = next(one for one in answer["stocks"] if one["stock"] == "roll-50x25")
    assert code == 0 and (row["module_mm"], row["read_from_cm"]) == (0.626, 13)
    assert run("label", "nudge", "roll-50x25", 0.3, -0.5)[0] == 0
    assert "steps of 0.1 mm" in run("label", "nudge", "roll-50x25", 0.35, 0)[2]
    answer = run("label", "nudge", "roll-50x25", 0, 0, "--printer", "profile")[1]
    assert (answer["printer"], answer["caution"]) == ("profile", ""), "a name that holds the word file"
    assert "over the edge" in run("label", "nudge", "roll-50x25", 0, 4, "--printer", "x")[1]["caution"]
    assert run("label", "nudge", "roll-50x25", 0, 4, "--printer", "file")[0] == 0
    assert "CAUTION: The nudge puts" in run("label", "roll", 1, "--stock", "roll-50x25", "--by", "OF")[2]
    assert run("label", "nudge", "roll-50x25", 0.3, -0.5)[0] == 0
    own = tmp_path / "data" / "shop" / "label_stock.toml"
    own.parent.mkdir(exist_ok=True)
    own.write_text("[small]\nsays = 'x'\npage_mm = [12, 12]\ndpi = 203\ndots = 4\ntext = 'below'\n[bad]\ndots = 1\n")
    code, answer, err = run("label", "stocks")
    rows = {one["stock"]: one for one in answer["stocks"]}
    assert code == 2 and "label_stock.toml [bad] dots" in err and rows["roll-50x25"]["nudge_mm"] == [0.3, -0.5]
    assert "the code with its quiet zone is" in rows["small"]["too_small"]


def test_a_printer_that_does_not_take_them_is_not_kept(run, part: str, service: FakeService) -> None:  # type: ignore[no-untyped-def]
    """What is kept for a stock took labels once; so it is with labels of a job, which record nothing."""

    def kept() -> str:
        return next(one["printer"] for one in run("label", "stocks")[1]["stocks"] if one["stock"] == "a4-40")

    assert run("label", "job", "P-1", "--printer", "office")[0] == 0 and kept() == "office"
    assert run("label", "job", "P-1")[0] == 0 and service.called()[1] == "office"
    run("label", "reprint", part, "--why", "came off", "--by", "OF")
    for wanted, words in ((2, ("label", "print")), (0, ("label", "roll", 2))):  # of a roll the numbers are issued
        code, _, err = run(*words, "--printer", "nosuch", "--by", "OF")
        assert code == wanted and "There is no printer nosuch" in err and kept() == "office"
    assert run("label", "job", "P-1", "--printer", "file")[0] == 0 and kept() == ""


def test_a_roll_that_the_printer_refuses_waits(run, part: str, service: FakeService) -> None:  # type: ignore[no-untyped-def]
    """Its numbers are issued: the message says which, and what is queued is printed, blank, with the next print."""
    service.does("refuses")
    code, answer, err = run("label", "roll", 3, "--printer", "bench", "--by", "OF")
    numbers = [one["number"] for one in run("label", "queue")[1]]
    assert (
        code == 0
        and answer["numbers"] == numbers
        and answer["recorded"]
        and len(numbers) == 3
        and f"numbers {numbers[0]} to {numbers[2]} are issued" in err
    )
    assert "label print" in err and waits(run) == [f"{one} waiting" for one in numbers]
    service.recovers("refuses")
    assert run("part", "off", "P-1", "10.20", "--number", numbers[1], "--by", "OF")[0] == 0
    code, answer, err = run("label", "print", "--printer", "bench", "--by", "OF")
    assert code == 0 and answer["numbers"] == numbers and waits(run) == [], err
    assert all(one in written(answer) for one in numbers) and "10.20" in written(answer)


def test_a_roll_perhaps_printed_is_asked_about(
    run, part: str, service: FakeService, monkeypatch: pytest.MonkeyPatch
) -> None:  # type: ignore[no-untyped-def]
    """The printer died over it: somebody looks; what did not come out waits and is still a blank label."""
    service.does("dies")
    code, _, err = run("label", "roll", 2, "--letter", "C", "--printer", "bench", "--by", "OF")
    numbers = [one["number"] for one in run("label", "queue")[1]]
    assert code == 0 and "perhaps printed" in err and waits(run) == [f"{one} sent" for one in numbers]
    assert run("label", "seen", numbers[0], "--by", "OF")[0] == 0
    assert run("label", "seen", "all", "--not", "--by", "OF")[0] == 0 and waits(run) == [f"{numbers[1]} waiting"]
    code, answer, err = run("label", "print", "--by", "OF")
    assert code == 0 and answer["numbers"] == numbers[1:] and "carrier" in written(answer), err


def test_printers_are_listed(run, service: FakeService) -> None:  # type: ignore[no-untyped-def]
    """With what stops them."""
    service.printers(bench="", office="out of labels")
    assert run("label", "printers")[1] == [
        {"printer": "bench", "stopped": ""}, {"printer": "office", "stopped": "out of labels"}
    ]  # fmt: skip
