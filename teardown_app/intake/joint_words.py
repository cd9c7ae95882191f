"""The words of a joint cell: `size=M6 class=A4-70 torque_nm=6 passes=30/70/100 holds=40.20;40.30`."""

from __future__ import annotations

import re
from decimal import Decimal

from attrs import frozen

from teardown_app.domain.bill.joint import Joint
from teardown_app.intake.numbers import read_number

NUMBERS = ("torque_nm", "retighten_h")
HEAT = "retighten_heat"
WORDS = ("size", "class", "pattern", "lubricant", "passes", "holds", HEAT, *NUMBERS)

YES, NO = ("yes", "ja", "true", "1"), ("no", "nein", "false", "0")

_WORD = re.compile(r'(\w+)\s*=\s*(?:"([^"]*)"|(\S+))|(\S+)')


@frozen
class JointCell:
    """A joint as read; `troubles` are numbers that could be either of two."""

    joint: Joint
    troubles: tuple[str, ...] = ()


def joint_numbers(text: str) -> tuple[str, ...]:
    """Numbers in a joint cell, as written."""
    found = _values(text)[0]
    return tuple(part for name in (*NUMBERS, "passes") for part in found.get(name, "").split("/") if part)


def read_joint(text: str, mark: str) -> JointCell:
    """Read a joint cell; what is not of the form is kept as its note.

    >>> joint = read_joint("size=M6 torque_nm=6 hand tight", "").joint
    >>> joint.size, joint.torque_nm, joint.note
    ('M6', Decimal('6'), 'hand tight')
    >>> read_joint("retighten_heat=yes", "").joint.retighten_heat, read_joint("retighten_heat=maybe", "").joint.note
    (True, 'retighten_heat=maybe')
    """
    found, spare = _values(text)
    troubles: list[str] = []
    numbers: dict[str, tuple[Decimal, ...]] = {}
    for name in (*NUMBERS, "passes"):
        if name in found:
            numbers[name] = _numbers(name, found[name], mark, spare, troubles)
    if HEAT in found and found[HEAT].casefold() not in (*YES, *NO):
        spare.append(f"{HEAT}={found[HEAT]}")
    joint = Joint(
        size=found.get("size", ""),
        strength_class=found.get("class", ""),
        torque_nm=next(iter(numbers.get("torque_nm", ())), None),
        pattern=found.get("pattern", ""),
        passes=numbers.get("passes", ()),
        lubricant=found.get("lubricant", ""),
        retighten_h=next(iter(numbers.get("retighten_h", ())), None),
        retighten_heat=found.get(HEAT, "").casefold() in YES,
        holds=tuple(each.strip() for each in found.get("holds", "").split(";") if each.strip()),
        note=" ".join(spare),
    )
    return JointCell(joint, tuple(troubles))


def _values(text: str) -> tuple[dict[str, str], list[str]]:
    """Values by word, and the words that are not of the form, in order."""
    found: dict[str, str] = {}
    spare: list[str] = []
    for name, quoted, bare, other in _WORD.findall(re.sub(r"\s*;\s*", ";", text)):
        word = name.casefold()
        if word in WORDS and word not in found:
            found[word] = quoted or bare
        else:
            spare.append(other or f"{name}={quoted or bare}")
    return found, spare


def _numbers(name: str, text: str, mark: str, spare: list[str], troubles: list[str]) -> tuple[Decimal, ...]:
    """Numbers of one word; one that is none sends the whole word to the note."""
    read = [read_number(part, mark) for part in (text.split("/") if name == "passes" else [text])]
    if all(each.value is not None and each.value > 0 for each in read):
        return tuple(each.value for each in read if each.value is not None)
    unsure = [each.trouble for each in read if each.trouble.startswith("could be")]
    troubles += [f"{name}={text} {trouble}" for trouble in unsure]
    if not unsure:
        spare.append(f"{name}={text}")
    return ()
