"""Numbers on labels: issued, typed, checked. Witness: python-stdnum and the worked values of ISO/IEC 7064."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from stdnum.iso7064 import mod_37_36

from teardown_app.domain.tags.tag import CounterExhausted, Tag, TagFault, is_ours, issue, parse
from teardown_app.domain.tags.tag_form import ALPHABET, COUNTERS, LETTERS, counted, with_check, written

FORMAT = Path(__file__).parents[2] / "docs" / "formats" / "tag.md"

letters = st.sampled_from(sorted(LETTERS))
incarnations = st.text(ALPHABET, min_size=4, max_size=4)


def check_by_hand(body: str) -> str:
    """MOD 37,36 (ISO/IEC 7064, hybrid system) written out from the standard's recursion."""
    full = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ"
    p = 36
    for character in body:
        s = (p + full.index(character)) % 36 or 36
        p = 2 * s % 37
    return full[(37 - p) % 36]


@pytest.mark.parametrize(
    "body, check",
    [
        ("A12425GABC1234002", "M"),  # python-stdnum's own example for MOD 37,36
        ("G123489654321", "G"),  # ISO/IEC 7064 MOD 37,36, computed by python-stdnum
        ("00000000D07A0090", "Q"),  # ISAN example form, python-stdnum
        ("ISO79", "9"),  # python-stdnum, by value
        ("SN0001", "S"),  # python-stdnum, by value
        ("0794", "J"),  # python-stdnum, by value
        ("TD000123", "T"),  # python-stdnum, by value
        ("PART000042", "M"),  # python-stdnum, by value
    ],
)
def test_check_character_is_that_of_the_standard(body: str, check: str) -> None:
    """The library that computes the check and the recursion of the standard agree on known values."""
    assert mod_37_36.calc_check_digit(body) == check == check_by_hand(body)


@given(letters, incarnations, st.integers(0, COUNTERS - 1), st.integers(0, 50))
def test_issued_numbers_read_back_and_run_on(letter: str, incarnation: str, first: int, count: int) -> None:
    """Numbers come in the order of the counter, none twice, none with I or O, each reads back as itself."""
    if first + 4 * count >= COUNTERS:
        first = 0
    numbers, following = issue(letter, incarnation, first, count)
    tags = [parse(number) for number in numbers]
    counters = [tag.counter for tag in tags]
    assert len(numbers) == count and [tag.number for tag in tags] == list(numbers)
    assert all((tag.letter, tag.incarnation) == (letter, incarnation) for tag in tags)
    assert counters == sorted(set(counters)) and all(first <= c < following for c in counters)
    assert all(re.fullmatch(f"[{ALPHABET}]{{10}}", number) for number in numbers)
    assert all(check_by_hand(number[:9]) == number[9] for number in numbers)
    skipped = set(range(first, following)) - set(counters)
    assert all(check_by_hand(letter + incarnation + written(c)) in "IO" for c in skipped)


@given(letters, incarnations, st.integers(0, 1000), st.integers(1, 20), st.integers(1, 20))
def test_issuing_in_two_goes_is_issuing_in_one(letter: str, inc: str, first: int, one: int, two: int) -> None:
    """The counter handed back is exactly where the next numbers begin."""
    some, following = issue(letter, inc, first, one)
    more, end = issue(letter, inc, following, two)
    assert issue(letter, inc, first, one + two) == (some + more, end)


@given(st.integers(0, COUNTERS - 1))
def test_counter_is_written_in_base_34(counter: int) -> None:
    """Four characters say the counter and sort as it does."""
    assert counted(written(counter)) == counter
    assert len(written(counter)) == 4


def test_every_single_wrong_character_is_caught() -> None:
    """Over a sample of numbers, every other character of the alphabet in every place is refused."""
    sample = [number for letter in LETTERS for number in issue(letter, "7K3M", 1234, 3)[0]]
    for number in sample:
        for place in range(10):
            for other in ALPHABET.replace(number[place], ""):
                assert not is_ours(number[:place] + other + number[place + 1 :])


@given(letters, incarnations, st.integers(0, 5000), st.data())
def test_careless_typing_is_understood(letter: str, inc: str, counter: int, data: st.DataObject) -> None:
    """Small letters, blanks anywhere, O for 0 and I for 1 all mean the same number."""
    (number,), _ = issue(letter, inc, counter, 1)
    typed = (
        "".join(
            data.draw(st.sampled_from(["", " ", "\t"]))
            + data.draw(st.sampled_from({"0": "0Oo", "1": "1Ii"}.get(character, character + character.lower())))
            for character in number
        )
        + "\r\n"
    )
    assert parse(typed).number == number


@given(st.text(max_size=14))
def test_any_text_is_a_number_or_refused_with_words(text: str) -> None:
    """Nothing that is typed ends in anything but a number or a refusal that says why."""
    try:
        assert is_ours(parse(text).number)
    except TagFault as fault:
        assert str(fault).endswith(".")


@pytest.mark.parametrize(
    "typed, said",
    [
        ("P7K3M0001", "has 10 characters, this one has 9"),
        ("", "this one has 0"),
        ("P7K3M_001B", "Character 6 is '_'"),
        ("P7K3M-001B", "has 10 characters, this one has 9"),
        ("P7K3M00ß1B", "Character 8 is 'ß'"),
        ("Q7K3M0001B", "Character 1 is 'Q'"),
        ("P7K3M0003B", "Read the label again"),
        ("P7K3M000LB", "character 9 (1 instead of L would fit)"),
        ("P7K3M00018", "character 10 (B instead of 8 would fit)"),
        ("P73KM0001B", "Look at characters 3 and 4 (K3 instead of 3K would fit)."),
    ],
)
def test_refusal_says_what_is_wrong_and_where(typed: str, said: str) -> None:
    """Length, foreign character, letter and check are told apart, with the place where it can be known."""
    with pytest.raises(TagFault, match=re.escape(said)):
        parse(typed)


def test_a_named_place_makes_the_number_fit() -> None:
    """Every place that a refusal names is where it becomes right; never over three."""
    bodies = ("P8K5" + ALPHABET[n] + "28" + ALPHABET[m] + "6" for n in range(34) for m in range(34))
    wrong = [body + check for body in bodies for check in "BDS" if check_by_hand(body) != check]
    seen: set[int] = set()
    for number in wrong:
        said = _refusal(number)
        named = re.findall(r"character (\d+) \((\w) instead", said)
        exchanged = re.findall(r"characters (\d+) and \d+ \((\w\w) instead", said)
        seen.add(len(named) + len(exchanged))
        for place, other in [*named, *exchanged]:
            assert is_ours(number[: int(place) - 1] + other + number[int(place) + len(other) - 1 :])
    assert seen == {0, 1, 2, 3}


def _refusal(number: str) -> str:
    with pytest.raises(TagFault) as refused:
        parse(number)
    return str(refused.value)


def test_exhausted_counter_is_said_and_nothing_is_issued() -> None:
    """The last numbers can be issued; one more is refused, and so is any beginning beyond the end."""
    last, end = issue("P", "7K3M", COUNTERS - 3, 1)
    assert parse(last[0]).counter < COUNTERS and end <= COUNTERS
    with pytest.raises(CounterExhausted, match="of 10 numbers are left for P part in 7K3M"):
        issue("P", "7K3M", COUNTERS - 3, 10)
    assert issue("P", "7K3M", COUNTERS, 0) == ((), COUNTERS)
    with pytest.raises(CounterExhausted):
        issue("P", "7K3M", COUNTERS, 1)


@pytest.mark.parametrize(
    "letter, incarnation, first, count",
    [
        ("Q", "7K3M", 0, 1),
        ("", "7K3M", 0, 1),
        ("P", "7K3", 0, 1),
        ("P", "7KO1", 0, 1),
        ("P", "7k3m", 0, 1),
        ("P", "7K3M", -1, 1),
        ("P", "7K3M", 0, -1),
    ],
)
def test_numbers_out_of_form_are_not_issued(letter: str, incarnation: str, first: int, count: int) -> None:
    """A wrong letter or incarnation and negative counters are refused before a number comes out."""
    with pytest.raises(TagFault):
        issue(letter, incarnation, first, count)


def test_a_skipped_number_cannot_be_made() -> None:
    """BZ9QA0029 would need the check character O (docs/formats/tag.md): it exists in no form."""
    assert with_check("BZ9QA0029").endswith("O")
    with pytest.raises(TagFault, match="skipped"):
        Tag("B", "Z9QA", counted("0029"))
    with pytest.raises(TagFault):
        parse("BZ9QA0029O")


def test_the_examples_of_the_format_hold() -> None:
    """Every pair of nine characters and check in the format's table is what the code computes."""
    pairs = re.findall(r"`(\w{9})` \| (`\w`|O: skipped|skipped)", FORMAT.read_text(encoding="utf-8"))
    assert len(pairs) == 10
    for nine, said in pairs:
        check = check_by_hand(nine)
        assert check in "IO" if "skipped" in said else said == f"`{check}`"


def test_the_letters_of_the_format_are_those_of_the_code() -> None:
    """The format's table of letters and the program's are the same."""
    rows = re.findall(r"`([A-Z])` \| ([a-z ]+?) (?=\|)", FORMAT.read_text(encoding="utf-8"))
    assert {letter: named.replace(" of the wall sheet", "") for letter, named in rows} == LETTERS
