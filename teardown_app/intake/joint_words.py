"""The words of a joint cell: `size=M6 class=A4-70 torque_nm=6 passes=30/70/100 holds=40.20;40.30`.

As shops write it, `M6; A4-70; 6 N.m`, it is read too; what looks like that and cannot be read is asked.
"""

from __future__ import annotations

import re
from decimal import Decimal

from attrs import frozen

from teardown_app.domain.bill.joint import TOLERANCE_PERCENT, Joint
from teardown_app.intake.joint_shop_words import read_shop_words
from teardown_app.intake.numbers import read_number

NUMBERS = ("torque_nm", "retighten_h")
HEAT = "retighten_heat"
TOLERANCE = "tolerance"
WORDS = ("size", "class", "pattern", "lubricant", "passes", "holds", HEAT, TOLERANCE, *NUMBERS)

YES, NO = ("yes", "ja", "true", "1"), ("no", "nein", "false", "0")

_NUMBERED = (*NUMBERS, "passes", TOLERANCE)
_WORD = re.compile(r'(\w+)\s*=\s*(?:"([^"]*)"|(\S+))|(\S+)')


@frozen
class JointCell:
    """A joint as read; `troubles` are words whose values cannot be meant."""

    joint: Joint
    troubles: tuple[str, ...] = ()


def joint_numbers(text: str) -> tuple[str, ...]:
    """Numbers in a joint cell, as written."""
    found, spare = joint_words(text)
    found = {**read_shop_words(" ".join(spare), found).found, **found}
    return tuple(part for name in _NUMBERED for part in _parts(name, found.get(name, "")) if part)


def read_joint(text: str, mark: str) -> JointCell:
    """Read a joint cell; what is not of the form is kept as its note.

    >>> joint = read_joint("size=M6 torque_nm=6 hand tight", "").joint
    >>> joint.size, joint.torque_nm, joint.note
    ('M6', Decimal('6'), 'hand tight')
    >>> read_joint("torque_nm=6 tolerance=5%", "").joint.tolerance_percent
    Decimal('5')
    >>> read_joint("retighten_heat=maybe", "").troubles
    ('retighten_heat=maybe is neither; write yes or no',)
    """
    found, spare = joint_words(text)
    troubles: list[str] = []
    shop = read_shop_words(" ".join(spare), found)
    found, spare = {**shop.found, **found}, [shop.rest] if shop.rest else []
    troubles += shop.troubles
    numbers = {name: _numbers(name, found[name], mark, troubles) for name in _NUMBERED if name in found}
    if HEAT in found and found[HEAT].casefold() not in (*YES, *NO):
        troubles.append(f"{HEAT}={found[HEAT][:40]} is neither; write yes or no")
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
        tolerance_percent=next(iter(numbers.get(TOLERANCE, ())), TOLERANCE_PERCENT),
    )
    return JointCell(joint, tuple(troubles))


def joint_words(text: str) -> tuple[dict[str, str], list[str]]:
    """Values by word, and the words that are not of the form, in order."""
    found: dict[str, str] = {}
    spare: list[str] = []
    text = re.sub(r"\s*;\s*", ";", re.sub(r"\s*;\s*(?=\w+\s*=)", " ", text))
    for name, quoted, bare, other in _WORD.findall(text):
        word = name.casefold()
        if word in WORDS and word not in found:
            found[word] = quoted or bare
        else:
            spare.append(other or f"{name}={quoted or bare}")
    return found, spare


def _parts(name: str, text: str) -> list[str]:
    """The numbers of one word: several passes, a tolerance with or without its sign."""
    return text.split("/") if name == "passes" else [text.removesuffix("%") if name == TOLERANCE else text]


def _numbers(name: str, text: str, mark: str, troubles: list[str]) -> tuple[Decimal, ...]:
    """Numbers of one word; empty, and told, when one of them cannot be meant."""
    read = [read_number(part, mark) for part in _parts(name, text)]
    values = tuple(each.value for each in read if each.value is not None and each.value > 0)
    below = 100 if name == TOLERANCE else None
    if len(values) == len(read) and (below is None or max(values) < below):
        return values
    unsure = [each.trouble for each in read if each.trouble.startswith("could be")]
    allowed = "a number above 0" + (f" and below {below}, in percent" if below else "")
    said = f"{name}={text[:40]}"
    troubles += [f"{said} {trouble}" for trouble in unsure] or [f"{said} is not {allowed}; write one"]
    return ()
