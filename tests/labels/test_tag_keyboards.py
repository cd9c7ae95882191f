"""Numbers through another keyboard: the keys against xkeyboard-config, and what becomes of a slipped number."""

from __future__ import annotations

import re
from collections import Counter
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from teardown_app.domain.tags.tag import TagFault, issue, parse
from teardown_app.domain.tags.tag_form import ALPHABET, LETTERS, fits
from teardown_app.domain.tags.tag_keyboards import AS_IT_STANDS, ASK, KEYBOARDS, PUT_RIGHT, judged, readings
from tests.labels.test_tag_numbers import check_by_hand

FORMAT = Path(__file__).parents[2] / "docs" / "formats" / "tag.md"
SYMBOLS = Path("/usr/share/X11/xkb/symbols")
"""Key maps of xkeyboard-config (Debian package xkb-data; read with version 2.35.1)."""

KEYS = [
    *(f"AE{n:02}" for n in range(1, 11)),
    *(f"AD{n:02}" for n in range(1, 11)),
    *(f"AC{n:02}" for n in range(1, 11)),
    *(f"AB{n:02}" for n in range(1, 8)),
]
KEYSYMS = {
    "exclam": "!",
    "at": "@",
    "numbersign": "#",
    "dollar": "$",
    "percent": "%",
    "asciicircum": "^",
    "ampersand": "&",
    "asterisk": "*",
    "parenleft": "(",
    "parenright": ")",
    "quotedbl": '"',
    "section": "§",
    "slash": "/",
    "equal": "=",
    "sterling": "£",
    "plus": "+",
    "ccedilla": "ç",
    "Ccedilla": "Ç",
    "eacute": "é",
    "egrave": "è",
    "agrave": "à",
    "apostrophe": "'",
    "minus": "-",
    "underscore": "_",
    "periodcentered": "·",
    "semicolon": ";",
    "colon": ":",
    "odiaeresis": "ö",
    "Odiaeresis": "Ö",
    "ograve": "ò",
    "ntilde": "ñ",
    "Ntilde": "Ñ",
    "comma": ",",
    "question": "?",
}
"""Names of characters in the X Window System (keysymdef.h), as far as they are met here."""

letters = st.sampled_from(sorted(LETTERS))
numbers = st.builds(
    lambda letter, inc, first: issue(letter, inc, first, 1)[0][0],
    letters,
    st.text(ALPHABET, min_size=4, max_size=4),
    st.integers(0, 34**4 - 100),
)
boards = st.sampled_from(sorted(KEYBOARDS))


def section(file: str, name: str) -> str:
    """One variant of a file of symbols: what stands between its braces; the first where no name is given."""
    text = re.sub(r"//[^\n]*", "", (SYMBOLS / file).read_text(encoding="utf-8"))
    found = re.search(r'xkb_symbols\s+"' + (name or '[^"]+') + r'"\s*{(.*?)\n};', text, re.DOTALL)
    assert found, f"{file} has no {name}"
    return found[1]


def keys_of(file: str, name: str = "") -> dict[str, list[str]]:
    """Key -> names of its characters, with what the variant includes; later lines stand over earlier ones."""
    keys: dict[str, list[str]] = {}
    for line in re.findall(r'include\s+"([^"]+)"|key\s+<(\w+)>\s*{[^\[]*\[([^\]]*)\]', section(file, name)):
        included, key, symbols = line
        if included.startswith("latin"):
            of, _, variant = included.partition("(")
            keys |= keys_of(of, variant.rstrip(")"))
        elif key:
            keys[key] = [one.strip() for one in symbols.split(",")]
    return keys


def test_the_keys_are_those_of_xkeyboard_config() -> None:
    """Every key of every keyboard, plain and with shift."""
    if not (SYMBOLS / "us").is_file():
        pytest.skip("the key maps are not here: apt-get install xkb-data")
    for board, rows in KEYBOARDS.items():
        there = keys_of(board)
        for level, row in enumerate(rows):
            said = "".join(KEYSYMS.get(name, name) for name in (there[key][level] for key in KEYS))
            assert said == row, f"{board}, {'with shift' if level else 'plain'}"


def test_shift_and_6_is_dead_on_the_international_keyboard() -> None:
    """Its circumflex melts with a letter that follows: the reason why `Â` is read as `^A`."""
    if not (SYMBOLS / "us").is_file():
        pytest.skip("the key maps are not here: apt-get install xkb-data")
    assert keys_of("us", "intl")["AE06"][1] == "dead_circumflex"
    for number in (n for n in issue("P", "7K6A", 0, 60)[0] if "6A" in n):
        sent = slipped(number, "us", "us", lock=True).upper().replace("^A", "Â")
        assert number in [one.number for one in readings(sent)], sent


def slipped(number: str, scanner: str, tablet: str, *, lock: bool = False) -> str:
    """What a tablet shows of a number that a scanner types, key by key; a lock turns shift round."""
    shown = ""
    for character in number:
        level = 0 if character in KEYBOARDS[scanner][0] else 1
        shown += KEYBOARDS[tablet][level ^ lock][KEYBOARDS[scanner][level].index(character)]
    return shown


@given(numbers, boards, boards, st.booleans())
def test_a_slipped_number_is_among_its_readings(number: str, scanner: str, tablet: str, lock: bool) -> None:
    """Whatever keyboards and locks: the number itself can be read, as it stands or through another keyboard."""
    shown = slipped(number, scanner, tablet, lock=lock)
    found = [one.number for one in readings(shown)]
    assert number in found or shown.upper() == number
    assert all(fits(one) for one in found) and len(found) == len(set(found))


@given(numbers, boards, boards, st.booleans())
def test_with_its_number_known_a_slip_is_never_taken_as_another(
    number: str, scanner: str, tablet: str, lock: bool
) -> None:
    """Put right to itself, or a person is asked, and then it is among what is offered."""
    shown = slipped(number, scanner, tablet, lock=lock)
    verdict, found = judged(shown, lambda one: one == number)
    if verdict == AS_IT_STANDS:
        assert shown.upper() == number
    elif verdict == PUT_RIGHT:
        assert [one.number for one in found] == [number] and found[0].differs
    else:
        assert number in [one.number for one in found] and len(found) > 1


@given(st.text(max_size=14), st.booleans())
def test_any_text_is_judged(text: str, known: bool) -> None:
    """Nothing raises; through another keyboard only numbers that could be issued come out."""
    verdict, found = judged(text, lambda one: known)
    assert (verdict == AS_IT_STANDS) == (not found)
    assert all(fits(one.number) for one in found)
    assert verdict != PUT_RIGHT or (known and len(found) == 1)


@given(numbers)
def test_a_right_number_on_the_right_keyboard_is_taken(number: str) -> None:
    """Known or not, as long as it cannot be a known one through another keyboard."""
    assert judged(number, lambda one: one == number) == (AS_IT_STANDS, ())
    assert judged(number, lambda one: False) == (AS_IT_STANDS, ())


def test_right_as_it_stands_but_known_only_through_another_keyboard_is_asked() -> None:
    """Y and Z twice: both fit. The one that is known here is never passed over in silence."""
    series = [issue("P", letters, 0, 500)[0] for letters in ("7YZ3", "Z7Y3", "Y33Z", "ZY99", "AYBZ", "ZZZZ")]
    number = next(one for numbers in series for one in numbers if fits(one.translate(EXCHANGED)))
    twin = number.translate(EXCHANGED)
    verdict, found = judged(twin, lambda one: one == number)
    assert verdict == ASK and [one.number for one in found] == [twin, number]
    assert judged(twin, lambda one: True) == (AS_IT_STANDS, ())


EXCHANGED = str.maketrans("YZ", "ZY")


@pytest.mark.parametrize(
    "shown, differs",
    [
        ("PZK3M00011", ""),  # no number through any keyboard
        ('Pèk",ààà&B', "M in another place, signs for digits"),  # scanner us, tablet fr, caps lock
        ("P&K#M)))!B", "signs for digits"),  # us with shift lock
        ("P/K§M===!B", "signs for digits"),  # de with shift lock
        ("P7K3;0001B", "M in another place"),  # scanner fr, tablet us
    ],
)
def test_what_differs_is_said(shown: str, differs: str) -> None:
    """In words that help to set the scanner right."""
    found = readings(shown)
    assert [one.differs for one in found] == ([differs] if differs else [])
    assert all(one.number == "P7K3M0001B" for one in found)


def passing(scanner: str, tablet: str) -> tuple[int, int]:
    """Of all numbers there are, counted exactly: how many look different when slipped, and how many of these fit.

    Walks the standard's recursion for the number and for what shows side by side. Digits arrive right here:
    where they come as signs nothing fits as it stands.
    """
    shows = {one: slipped(one, scanner, tablet) if one.isalpha() else one for one in ALPHABET}
    states: Counter[tuple[int, int, bool]] = Counter()
    states[36, 36, False] = 1
    for place in range(9):
        after: Counter[tuple[int, int, bool]] = Counter()
        for (p, q, moved), count in states.items():
            for one in LETTERS if place == 0 else ALPHABET:
                other = shows[one] if shows[one] in (LETTERS if place == 0 else ALPHABET) else ""
                after[_on(p, one), _on(q, other) if other and q >= 0 else -1, moved or one != other] += count
        states = after
    different = fitting = 0
    for (p, q, moved), count in states.items():
        check = FULL[(37 - p) % 36]
        if check in ALPHABET and (moved or shows[check] != check):
            different += count
            fitting += count * (q >= 0 and shows[check] == FULL[(37 - q) % 36] and shows[check] in ALPHABET)
    return different, fitting


FULL = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ"


def _on(p: int, character: str) -> int:
    """One step of MOD 37,36 (ISO/IEC 7064)."""
    return 2 * ((p + FULL.index(character)) % 36 or 36) % 37


def test_the_chance_that_the_format_states() -> None:
    """The figures of the document are those of the exact count."""
    text = FORMAT.read_text(encoding="utf-8")
    said = re.findall(r"^\| .*?\((\w\w), (\w\w)\) \| ([\d.]+) % \| ([\d.]+) % \|$", text, re.MULTILINE)
    assert len(said) == 3
    whole = sum(1 for _ in LETTERS) * 34**8
    for scanner, tablet, different, fitting in said:
        moved, fits_too = passing(scanner, tablet)
        assert f"{100 * moved / whole * 36 / 34:.0f}" == different  # 34 of 36 bodies are numbers, to 0.1 %
        assert f"{100 * fits_too / moved:.2f}" == fitting


def test_the_exact_count_is_what_numbers_drawn_at_random_show() -> None:
    """Second way to the same figure: 60,000 numbers with Y or Z in them, check characters by hand."""
    import random

    draw, seen, fitting = random.Random(3), 0, 0
    while seen < 60_000:
        body = draw.choice("PHCBMWSJXA") + "".join(draw.choices(ALPHABET, k=8))
        number = body + check_by_hand(body)
        if number[9] in "IO" or not {"Y", "Z"} & set(number):
            continue
        seen += 1
        twin = number.translate(EXCHANGED)
        fitting += check_by_hand(twin[:9]) == twin[9]
    moved, fits_too = passing("us", "de")
    share = fits_too / moved
    assert abs(fitting / seen - share) < 4 * (share / seen) ** 0.5  # four standard deviations of a count


def test_a_slip_that_fits_is_no_other_known_number_of_a_tablet() -> None:
    """Of the first 3,000 parts of ten series hardly one looks like another of them with Y and Z exchanged."""
    twins = 0
    for series in ("7K3M", "0000", "ZYZY", "YYYY", "A1B2", "ZZZ9", "Q3WE", "99Y9", "MMMM", "3ZX7"):
        known = set(issue("P", series, 0, 3000)[0])
        twins += sum(one.translate(EXCHANGED) in known and one.translate(EXCHANGED) != one for one in known)
    assert twins <= 3, twins


@given(numbers, st.data())
def test_a_wrong_character_is_refused_and_every_tolerated_spelling_is_taken(number: str, data: st.DataObject) -> None:
    """Single wrong characters never pass; blanks, hyphens, points and case never matter."""
    between = st.text(" \t\u00a0\u202f-.\u2010\u2011\u2013\u200b", max_size=2)
    spelt = "".join(
        data.draw(between) + data.draw(st.sampled_from({"0": "0Oo", "1": "1Ii"}.get(one, one + one.lower())))
        for one in number
    )
    assert parse(spelt).number == number
    place = data.draw(st.integers(0, 9))
    other = data.draw(st.sampled_from(ALPHABET.replace(number[place], "")))
    with pytest.raises(TagFault) as refused:
        parse(number[:place] + other + number[place + 1 :])
    assert not refused.value.places or max(refused.value.places) < 10
