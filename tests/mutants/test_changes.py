"""The picking of single changes: the same ones for the same seed, one place each, every operator of our own at work."""

from __future__ import annotations

from itertools import islice
from pathlib import Path

import pytest
from cosmic_ray.mutating import mutate_code

from tests.house.sources import PROJECT
from tests.mutants.changes import changes_of, files, function_at, is_python, made, picked
from tests.mutants.operators import operators
from tests.mutants.own_operators import OWN

CODE = '''"""A disk."""
WORDS = ("mild", "severe", "gone")
Size = int | None


def keep(disk: object, size: int | None = 4, *, least: int = 0) -> bool | None:
    """Keeps what is large enough, and says so."""
    total: int | str = size
    if size is not None and size not in (1, 2) and max(size, 3) > least:
        disk.sync()
        return True
    return None
'''


def texts(file: str = "keep.py", code: str = CODE) -> set[str]:
    """Lines as they read after each change."""
    return {each.after for change in changes_of(file, code) if (each := made(change, code))}


@pytest.mark.parametrize("name", OWN)
def test_each_operator_of_our_own_does_what_its_examples_say(name: str) -> None:
    """In the form of cosmic-ray's own: text before, text after, the n-th occurrence."""
    for example in OWN[name].examples():
        assert mutate_code(example.pre_mutation_code, OWN[name](), example.occurrence) == example.post_mutation_code


def test_every_change_is_of_one_place_and_is_python() -> None:
    """One line differs in each; the same line never comes out of two changes of one operator."""
    for change in changes_of("keep.py", CODE):
        each = made(change, CODE)
        if each is not None:
            differing = [
                pair for pair in zip(CODE.splitlines(), each.code.splitlines(), strict=True) if len(set(pair)) > 1
            ]
            assert len(differing) == 1 and is_python(each.code)
            assert (differing[0][0].strip(), differing[0][1].strip()) == (each.before, each.after)


def test_what_a_change_can_be() -> None:
    """A few that must be among them, one for each kind of thing that is easily overlooked."""
    assert {
        "pass",
        'WORDS = ("severe", "mild", "gone")',
        'WORDS = ("mild", "gone")',
        "return False",
        "if size is not None and size in (1, 2) and max(size, 3) > least:",
        "if size is not None and size not in (1, 2) and min(size, 3) > least:",
        "if size is not None and size not in (1, 2) and max(size, 3) >= least:",
        "if size is not None or size not in (1, 2) and max(size, 3) > least:",
    } <= {" ".join(text.replace("( ", "(").split()) for text in texts()}


def test_how_much_of_a_word_a_sentence_shows_and_the_mark_of_named_arguments_stay() -> None:
    """`*` before named arguments and `[:40]` in a sentence decide nothing; what is worked out there does."""
    said = texts(code='def f(word: str, *, n: int = 1) -> str:\n    return f"{word[:40]} {n * 2}"\n')
    assert {'return f"{word[:40]} {n / 2}"'} < said
    assert not any("39" in one or "41" in one or "/," in one for one in said)


def test_nothing_within_an_annotation_is_changed() -> None:
    """Nothing evaluates them; a type that has a name of its own is a value."""
    changed = {each.before for change in changes_of("keep.py", CODE) if (each := made(change, CODE))}
    assert "total: int | str = size" not in changed and "Size = int | None" in changed
    assert not any("int & None" in text for text in texts() if text.startswith("def "))


def test_what_a_file_hands_on_is_not_changed() -> None:
    """`__all__` is read by type checking, which fails by itself where a name is missing."""
    assert texts(code='__all__ = ["a", "b", "c"]\nGATES = ["x", "y", "z"]\n') == {
        'GATES = [ "y", "z"]', 'GATES = ["x", "z"]', 'GATES = ["x", "y"]',
        'GATES = ["y", "x", "z"]', 'GATES = ["x", "z", "y"]',
    }  # fmt: skip


def test_the_function_at_a_line_is_found_with_its_class(tmp_path: Path) -> None:
    """What is within a function is the function's; outside any there is none."""
    file = tmp_path / "a.py"
    file.write_text("X = 1\nclass A:\n    y: int = 2\n    def f(self):\n        def g():\n            return 3\n")
    assert [function_at(file, line) for line in (1, 3, 4, 6)] == ["", "", "A.f", "A.f"]


def test_numbers_found_by_measuring_are_let_be() -> None:
    """What is chosen by `make bench` is not asked of the tests."""
    numbers = {
        change for change in changes_of("teardown_app/intake/code_steps.py", CODE) if "Number" in change.operator
    }
    assert not numbers and any("Number" in change.operator for change in changes_of("keep.py", CODE))


def test_the_same_seed_picks_the_same_changes_and_another_one_others() -> None:
    """So a run can be spread, and a change be looked at again."""
    room = "teardown_app/records/"
    once = [each.change for each in picked(PROJECT, 5, 7, room)]
    assert [each.change for each in picked(PROJECT, 5, 7, room)] == once
    assert [each.change for each in islice(picked(PROJECT, 20, 7, room), 5)] == once
    assert [each.change for each in picked(PROJECT, 5, 8, room)] != once


def test_each_change_picked_is_in_the_file_it_names() -> None:
    """The line before stands there today."""
    for each in picked(PROJECT, 5, 7, "teardown_app/domain/ledger/"):
        code = (PROJECT / each.change.file).read_text(encoding="utf-8")
        assert each.before in {line.strip() for line in code.splitlines()} and each.code != code


def test_only_the_four_rooms_are_changed() -> None:
    """What is drawn or printed is looked at by people."""
    assert {Path(file).parts[1] for file in files(PROJECT)} == {"domain", "workflows", "records", "intake"}


def test_every_operator_named_is_there() -> None:
    """A newer cosmic-ray may call one differently."""
    assert len(operators()) > len(OWN)
