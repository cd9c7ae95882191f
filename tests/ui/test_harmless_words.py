"""Every text that a screen says is harmless, whatever it was made of: all classes of the view, all their fields."""

from __future__ import annotations

import attrs
import pytest

from teardown_app.ui import view
from teardown_app.ui.harmless_words import NAMES

ACTS = "a\x1b[31m\x9b\x7f\n\u202eb"
CLASSES = [
    one for one in vars(view).values() if isinstance(one, type) and attrs.has(one) and one.__module__ == view.__name__
]
GIVEN = {"str": ACTS, "tuple[str, ...]": (ACTS,)}


@pytest.mark.parametrize("kind", CLASSES, ids=lambda one: one.__name__)
def test_no_field_of_a_screen_lets_a_sign_through_that_acts(kind: type) -> None:
    fields = attrs.fields(kind)
    made = kind(
        **{
            one.name: GIVEN.get(str(one.type), 0)
            for one in fields
            if one.default is attrs.NOTHING or str(one.type) in GIVEN
        }
    )
    for one in fields:
        if str(one.type) in GIVEN and one.name not in NAMES:
            said = getattr(made, one.name)
            assert "".join(said).isprintable() and "a" in "".join(said), one.name


def test_the_classes_are_all_of_them() -> None:
    """Names for the program are few, and none of them is what people read."""
    assert len(CLASSES) > 12 and {"says", "text", "sub", "title", "head", "word", "hint"}.isdisjoint(NAMES)
