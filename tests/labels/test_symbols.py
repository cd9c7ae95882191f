"""The symbol of a number against two independent libraries and the tables of ISO/IEC 18004.

The tables are those that segno and qrcode carry; the standard itself was not read here. From memory, and found to agree
with both: version 1 has 21 modules and 26 codewords, of which H leaves 9 for data.
"""

from __future__ import annotations

import numpy as np
import pytest
import qrcode
import segno
from qrcode.base import rs_blocks
from qrcode.util import MODE_ALPHA_NUM, QRData
from segno import consts

from teardown_app.domain.tags.tag import issue
from teardown_app.domain.tags.tag_form import LENGTH, LETTERS
from teardown_app.intake.comparison.plan import reserved
from teardown_app.intake.comparison.symbols import MASKS
from teardown_app.labels.symbol import MODULES, symbol

FEW, MANY = 300, 5_000
"""The many take half a minute and run with `make faults`."""

THOUSAND = 1_000

DATA = ~reserved()
FORMAT = ~DATA & ((np.indices(DATA.shape) == 8).any(0))
"""Row and column 8 hold the format information."""


def numbers(count: int) -> list[str]:
    """Numbers of every letter, far apart, of several tablets."""
    letters = list(LETTERS)
    found = []
    for n in range(count):
        tablet = ("7K3M", "BZ9Q", "0000", "X1A7")[n % 4]
        found.append(issue(letters[n % len(letters)], tablet, (n * 7919) % 1_300_000, 1)[0][0])
    return found


def by_qrcode(number: str, mask: int | None = None) -> np.ndarray:
    """The symbol as qrcode makes it, with the mask that it chooses itself where none is given."""
    code = qrcode.QRCode(version=1, error_correction=qrcode.constants.ERROR_CORRECT_H, border=0, mask_pattern=mask)
    code.add_data(QRData(number, mode=MODE_ALPHA_NUM), optimize=0)
    code.make(fit=False)
    return np.array(code.get_matrix(), bool)


def mask_of(matrix: np.ndarray) -> int:
    """The mask as the symbol's own format modules say it: three bits, masked with 101 (ISO/IEC 18004, 7.9)."""
    bits = matrix[8, [2, 3, 4]]
    return int("".join(str(int(bit)) for bit in bits), 2) ^ 0b101


@pytest.mark.parametrize("count", [FEW, pytest.param(MANY, marks=pytest.mark.faults)])
def test_the_symbol_is_the_one_that_qrcode_chooses(count: int) -> None:
    """Our quicker choice of the mask against the library's own, module for module."""
    wrong = [number for number in numbers(count) if (np.array(symbol(number)) != by_qrcode(number)).any()]
    assert wrong == []


def test_the_symbol_is_the_same_by_segno() -> None:
    """An implementation that shares no line with qrcode draws the same 441 modules for the same number and mask."""
    for number in numbers(THOUSAND):
        ours = np.array(symbol(number))
        theirs = segno.make(number, error="h", version=1, mode="alphanumeric", mask=mask_of(ours), boost_error=False)
        assert (np.array(theirs.matrix, bool) == ours).all(), number


def test_every_mask_is_met_and_known() -> None:
    """The numbers use all eight masks, so none of them goes untried; each pattern is that of the library."""
    met = {mask_of(np.array(symbol(number))) for number in numbers(FEW)}
    assert met == set(range(8))
    number = numbers(1)[0]
    for mask in range(8):
        changed = by_qrcode(number, 0) ^ by_qrcode(number, mask)
        assert (changed[DATA] == (MASKS[0] ^ MASKS[mask])[DATA]).all()
        assert not changed[~DATA & ~FORMAT].any()


def test_ten_characters_are_what_version_1_h_holds() -> None:
    """segno's and qrcode's tables: 26 codewords, 9 of them data, 72 bits; segno takes ten characters and no eleventh.

    4 bits of mode, 9 of count, 11 for each two characters (ISO/IEC 18004, from memory): 68 for ten, 74 for eleven.
    """
    (ours,), (theirs,) = consts.ECC[1][consts.ERROR_LEVEL_H], rs_blocks(1, qrcode.constants.ERROR_CORRECT_H)
    assert (ours.num_total, ours.num_data) == (theirs.total_count, theirs.data_count) == (26, 9)
    assert consts.SYMBOL_CAPACITY[1][consts.ERROR_LEVEL_H] == 72 >= 4 + 9 + 5 * 11
    assert DATA.sum() == 26 * 8 and MODULES == 21 == segno.make("A", version=1).symbol_size(border=0)[0]
    segno.make("A" * LENGTH, error="h", version=1, mode="alphanumeric")
    with pytest.raises(segno.DataOverflowError):
        segno.make("A" * (LENGTH + 1), error="h", version=1, mode="alphanumeric")
    with pytest.raises(segno.DataOverflowError):
        segno.make("A" * LENGTH, error="h", version=1, mode="byte")
