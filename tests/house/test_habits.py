"""No swallowed errors, no names that could hold anything, a docstring everywhere; each check can fail."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from tests.house import habits
from tests.house.sources import PROJECT, Fault, told

CHECKS = [
    habits.name_faults,
    habits.swallowing_faults,
    habits.docstring_faults,
    habits.nameless_folder_faults,
]


@pytest.mark.parametrize("check", CHECKS)
def test_the_house_keeps_its_habits(check: Callable[[Path], list[Fault]]) -> None:
    """No file of the package or its tests breaks this habit."""
    faults = check(PROJECT)
    assert not faults, told(faults)


def tree(root: Path, file: str, text: str) -> Path:
    """A package and tests of their own with one more file in it."""
    for name in ("teardown_app", "tests"):
        (root / name).mkdir()
    (root / "teardown_app" / "__init__.py").write_text('"""A package."""\n', encoding="utf-8")
    (root / file).parent.mkdir(parents=True, exist_ok=True)
    (root / file).write_text(text, encoding="utf-8")
    return root


SWALLOWERS = [
    "try:\n    x()\nexcept:\n    pass\n",
    "try:\n    x()\nexcept Exception:\n    pass\n",
    "try:\n    x()\nexcept (ValueError, Exception) as e:\n    print(e)\n",
    "try:\n    x()\nexcept builtins.BaseException:\n    y()\n",
    "with contextlib.suppress(Exception):\n    x()\n",
]


@pytest.mark.parametrize("text", SWALLOWERS)
def test_an_error_swallowed_is_named(tmp_path: Path, text: str) -> None:
    """A handler that takes everything is found in the package and in its tests."""
    assert len(habits.swallowing_faults(tree(tmp_path, "teardown_app/fit.py", text))) == 1


@pytest.mark.parametrize(
    "text",
    [
        "try:\n    x()\nexcept Exception:\n    undo()\n    raise\n",
        "try:\n    x()\nexcept OSError:\n    pass\n",
        "with suppress(FileNotFoundError):\n    x()\n",
    ],
)
def test_an_error_named_or_raised_again_is_let_be(tmp_path: Path, text: str) -> None:
    """Expected errors may be handled, and anything may be undone and raised again."""
    assert habits.swallowing_faults(tree(tmp_path, "teardown_app/fit.py", text)) == []


@pytest.mark.parametrize(
    "file", ["teardown_app/utils.py", "teardown_app/common/part.py", "teardown_app/job_manager.py", "tests/helpers.py"]
)
def test_a_name_that_could_hold_anything_is_named(tmp_path: Path, file: str) -> None:
    """Folders and modules are named for what they hold."""
    assert len(habits.name_faults(tree(tmp_path, file, ""))) == 1


def test_a_name_that_only_contains_such_a_word_is_let_be(tmp_path: Path) -> None:
    """A base plate is a part of a tool: only whole words count."""
    assert habits.name_faults(tree(tmp_path, "teardown_app/baseplate.py", "")) == []


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("x = 1\n", "no docstring"),
        ("", "no docstring"),
        ('"""Fits."""\ndef fit():\n    pass\n', "fit has no docstring"),
        ('"""Fits."""\nclass Fitting:\n    x = 1\n', "Fitting has no docstring"),
    ],
)
def test_a_missing_docstring_is_named(tmp_path: Path, text: str, says: str) -> None:
    """Modules and what they offer say what they are."""
    faults = habits.docstring_faults(tree(tmp_path, "teardown_app/fit.py", text))
    assert [says in fault.says for fault in faults] == [True]


def test_a_room_that_does_not_say_what_it_holds_is_named(tmp_path: Path) -> None:
    """A folder of the package without an `__init__.py` is found."""
    faults = habits.nameless_folder_faults(tree(tmp_path, "teardown_app/domain/bill.py", '"""Bill."""\n'))
    assert [fault.file for fault in faults] == ["teardown_app/domain"]
