"""A picture compared with known tags: what is taken, what never is, and what the chance stands on."""

from __future__ import annotations

import numpy as np
import pytest
import qrcode
from hypothesis import given, settings
from hypothesis import strategies as st
from qrcode.util import MODE_ALPHA_NUM, QRData, create_data
from scipy.stats import binom

from teardown_app.domain.tags.tag import issue
from teardown_app.intake.comparison.chance import bound, chance
from teardown_app.intake.comparison.compare import compare
from teardown_app.intake.comparison.known_tags import KnownTags
from teardown_app.intake.comparison.plan import BIT_PLACES, EVIDENCE, IS_CORRECTION, SIDE
from teardown_app.intake.comparison.spots import Spot, joined
from teardown_app.intake.comparison.symbols import MASKS, symbols
from teardown_app.labels.symbol import symbol
from tests.scanbench import frame, greased, moderate, stained
from tests.scanbench.held_against import count
from tests.scanbench.strangers import known_tags, seen, siblings, strangers

KNOWN = known_tags(500)


def test_symbols_are_those_that_are_printed() -> None:
    """Made together or printed one by one (qrcode), a symbol is the same, mask and all: 600 numbers of many letters."""
    numbers = [number for letter in "PHCBMWSJXA" for number in issue(letter, "9QZ4", 4_000, 60)[0]]
    printed = np.array([symbol(number) for number in numbers])
    assert (symbols(numbers) == printed).all()


def test_bits_stand_where_the_plan_says() -> None:
    """Read along the plan and unmasked, a symbol gives the codewords that qrcode computes for its number."""
    for number, modules in zip(KNOWN[:40], symbols(KNOWN[:40]), strict=True):
        data = QRData(number, mode=MODE_ALPHA_NUM)
        codewords = create_data(1, qrcode.constants.ERROR_CORRECT_H, [data])
        read = [np.packbits((modules ^ mask).reshape(-1)[BIT_PLACES]).tolist() for mask in MASKS]
        assert codewords in read
    assert len(EVIDENCE) == 191 and IS_CORRECTION.sum() == 136 and SIDE == 21


def test_any_two_numbers_differ_in_all_the_error_correction() -> None:
    """Neighbours that share 8 of 9 data codewords differ in 17 of 17 of correction: Reed-Solomon, distance 18."""
    codewords = np.array(
        [create_data(1, qrcode.constants.ERROR_CORRECT_H, [QRData(n, mode=MODE_ALPHA_NUM)]) for n in KNOWN[:120]]
    )
    apart = (codewords[:, None] != codewords[None]).sum(-1)[~np.eye(120, dtype=bool)]
    shared = 9 - (codewords[:, None, :9] != codewords[None, :, :9]).sum(-1)[~np.eye(120, dtype=bool)]
    assert apart.min() >= 18 and shared.max() == 8


@pytest.mark.parametrize("modules, agreeing", [(40, 40), (60, 52), (136, 110), (191, 150), (30, 20)])
def test_the_bound_is_never_below_the_exact_chance(modules: int, agreeing: int) -> None:
    """Modules seen clearly: the exact chance is a binomial tail (scipy); the bound is at most two decades above it."""
    values = np.where(np.arange(modules) < agreeing, 1.0, -1.0)
    exact = binom.logsf(agreeing - 1, modules, 0.5) / np.log(10)
    assert exact <= bound(values) + 1e-9 <= exact + 2 + 1e-9


def test_the_bound_holds_for_modules_seen_unequally() -> None:
    """Of 200,000 draws of fair signs on 60 unequal modules no more reach a sum than the bound says."""
    rng = np.random.default_rng(5)
    weights = rng.uniform(0, 1, 60)
    sums = (rng.choice([-1.0, 1.0], (200_000, 60)) * weights).sum(1)
    for share in (0.2, 0.4, 0.6):
        wanted = share * weights.sum()
        signs = np.ones(60)
        while (signs * weights).sum() > wanted:
            signs[np.flatnonzero(signs > 0)[0]] = -1
        reached = (signs * weights).sum()
        assert (sums >= reached).mean() <= 10 ** bound(signs * weights)


def test_more_tags_and_more_tries_make_it_less_sure() -> None:
    """A chance counts every comparison: ten times the tags, ten times the chance; one is never more than certain."""
    values = np.ones(60)
    few, many = (chance(values, np.arange(60) >= 20, tags=tags, tries=1_000, look=1) for tags in (500, 5_000))
    assert many.by_all == pytest.approx(10 * few.by_all) and many.by_correction == pytest.approx(10 * few.by_correction)
    looks = [chance(values, np.arange(60) >= 20, tags=500, tries=1_000, look=look).by_all for look in range(1, 2_000)]
    one = chance(values, np.arange(60) >= 20, tags=1, tries=1, look=1).by_all / 2
    assert sum(500 * 1_000 * one / look for look in looks) == pytest.approx(1, abs=1e-3), "all looks share one chance"
    assert chance(np.zeros(60), np.arange(60) >= 20, tags=500, tries=1_000, look=1).larger == 1


@pytest.mark.parametrize("kind, share, least", [(stained, 0.3, 0.95), (stained, 0.5, 0.55), (greased, 0.2, 0.9)])
def test_tags_under_dirt_are_taken(kind: object, share: float, least: float) -> None:
    """Where no reader reads anything, most known tags are taken, none for another (all of it: make bench-long)."""
    counts = count(seen(kind(share, 40, 9), 61, KNOWN))
    assert not counts.wrong and counts.share >= least


def is_no_smaller_than_it_happens(chances: tuple[float, ...]) -> bool:
    """A chance of 0.3 must not come up in more than 0.3 of all pictures that are none; what is drawn, three sigma."""
    of = np.array(chances)
    return all((of < level).mean() <= level + 3 * np.sqrt(level / len(of)) for level in (0.3, 0.1, 0.03, 0.01, 0.001))


def test_no_stranger_is_ever_taken() -> None:
    """Of 300 photographs of unknown tags, foreign codes and no code none is taken for one of 500 known tags, and the
    chances computed for them are as rare as they say (20,000 of all sizes: make bench-long)."""
    counts = count(strangers(300, 11, KNOWN, sizes="s"))
    assert not counts.wrong and is_no_smaller_than_it_happens(counts.chances)


def test_no_neighbour_is_taken_for_an_unknown_tag() -> None:
    """The tag is not known, its 99 neighbours are: none is taken, whatever stains leave (600: make bench-long)."""
    counts = count(siblings(60, 12))
    assert not counts.wrong and is_no_smaller_than_it_happens(counts.chances)


def test_chances_that_are_too_small_would_be_seen() -> None:
    """The check above fails for chances that forget how often was tried: a hundredth of even ones."""
    even = np.random.default_rng(3).uniform(0, 1, 500)
    assert is_no_smaller_than_it_happens(tuple(even)) and not is_no_smaller_than_it_happens(tuple(even / 100))


def test_the_number_is_where_it_is_said_to_be() -> None:
    """Corners are those of the symbol, within a module, in pixels of the picture, in every size of picture."""
    known = KnownTags(KNOWN)
    for i, spec in enumerate(moderate(200, 3)):
        if i % 25 == 0:
            photo, (drawn,) = frame(100_000 + i, spec, seed=3, numbers=[KNOWN[i]])
            found = compare(photo, known)
            assert found is not None and found.number == KNOWN[i]
            off = [np.abs(np.array(drawn.corners) - corner).sum(1).min() for corner in found.corners]
            assert max(off) < 2.5 * drawn.module


def test_small_spots_side_by_side_are_one_symbol_as_wide_as_all_of_them() -> None:
    """A stain in the middle of a label leaves its corners: looked at one by one none of them is a label."""
    corners = [Spot(100, 100, 40), Spot(160, 100, 40), Spot(100, 190, 50)]
    assert joined([*corners, Spot(900, 100, 40), Spot(130, 130, 400)]) == Spot(127.5, 147.5, 135)
    assert joined([*corners[:2], Spot(900, 100, 40)]) is None


def test_a_torn_off_finder_and_light_on_dark() -> None:
    """A symbol without one finder, printed the other way round: still taken."""
    dark = symbols(KNOWN[7:8])[0]
    grey = np.full((480, 640), 200, np.uint8)
    code = np.kron(np.where(np.pad(dark, 4), 220, 40), np.ones((7, 7))).astype(np.uint8)
    grey[100 : 100 + len(code), 200 : 200 + len(code)] = code
    grey[120:185, 220:285] = 200
    found = compare(grey, KnownTags(KNOWN))
    assert found is not None and found.number == KNOWN[7] and found.chance.sure


def test_nothing_known_nothing_seen_nothing_said() -> None:
    """No tag known, a picture of a few pixels, one even grey, only noise: no number and no fault."""
    noise = np.random.default_rng(1).integers(0, 255, (300, 400), dtype=np.uint8)
    known = KnownTags(KNOWN[:20])
    assert compare(noise, KnownTags()) is None
    for grey in (noise, np.zeros((1, 1), np.uint8), np.full((300, 2), 9, np.uint8), np.full((480, 640), 90, np.uint8)):
        assert compare(grey, known) is None


def test_the_deadline_is_kept() -> None:
    """With a clock by hand that has run out, one place is looked at and the rest left."""
    ticks = iter(range(1000))
    photo, _ = frame(700_000, moderate(1, 4)[0], seed=4, numbers=[known_tags(1, "7K4M")[0]])
    compare(photo, KnownTags(KNOWN[:20]), deadline_s=0.5, clock=lambda: float(next(ticks)))
    assert next(ticks) == 2, "asked at the beginning and after the first look"


def test_more_are_known_without_making_all_anew_and_not_without_end() -> None:
    """Told one by one or all at once it is the same; what is too much is left out."""
    one_by_one = KnownTags()
    for number in KNOWN[:60]:
        one_by_one.add([number, number])
    assert one_by_one.numbers == list(KNOWN[:60]) and (one_by_one.modules == KnownTags(KNOWN[:60]).modules).all()
    few = KnownTags(KNOWN[:60], most=50)
    few.add(KNOWN[60:70])
    assert len(few) == len(few.modules) == 50


@settings(max_examples=30, deadline=None)
@given(st.integers(1, 60), st.integers(1, 60), st.integers(0, 2**32 - 1))
def test_no_picture_is_a_fault(high: int, wide: int, seed: int) -> None:
    """Whatever the size and the grey: an answer or none."""
    grey = np.random.default_rng(seed).integers(0, 255, (high * 4, wide * 4), dtype=np.uint8)
    found = compare(grey, KnownTags(KNOWN[:5]))
    assert found is None or not found.chance.sure
