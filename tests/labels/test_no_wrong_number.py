"""No reader and no step may ever give a number that is not on the label: hundreds of bad photographs."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from attrs import evolve

from teardown_app.domain.tags.tag import issue
from teardown_app.intake.code_readers import Readers, zbar, zxing
from teardown_app.intake.still_codes import read_still
from tests.scanbench import Spec, frame, greased, moderate, stained

NUMBERS, _ = issue("P", "7K3M", 1, 600)
SEED = 31
BOTH = Readers(zxing=zxing(), zbar=zbar())
ALONE = Readers(zbar=BOTH.zbar)


def small(specs: list[Spec]) -> Iterator[Spec]:
    """The same at 640 x 480, which is quick to draw."""
    for spec in specs:
        yield evolve(spec, size="s", side=min(spec.side, 120))


OURS = [
    *small(moderate(240, SEED)),
    *small(stained(0.1, 40, SEED)),
    *small(stained(0.2, 40, SEED)),
    *small(greased(0.1, 40, SEED)),
    *small(greased(0.3, 40, SEED)),
]
FOREIGN = list(small([evolve(spec, characters=9) for spec in moderate(60, SEED + 1)]))
NO_CODE = [Spec(labels=0, size="s", noise=2 + i % 18) for i in range(60)]

pytestmark = pytest.mark.skipif(not (BOTH.zxing and BOTH.zbar), reason="one of the readers is not installed")


def test_520_photographs_give_no_wrong_number() -> None:
    """Ours: its own number or nothing. Foreign codes: never ours. No code: nothing at all."""
    read = 0
    for i, spec in enumerate([*OURS, *FOREIGN, *NO_CODE]):
        numbers = [NUMBERS[i]] if i < len(OURS) else []
        photo, labels = frame(i, spec, numbers=numbers, seed=SEED)
        codes = read_still(photo, BOTH if i % 4 else ALONE)
        assert [code.text for code in codes] in ([], [label.text for label in labels]), (i, spec)
        assert all(code.ours == bool(numbers) for code in codes)
        read += bool(codes)
    assert i + 1 == 520 and read > 250
