"""The table of materials: which family a name means, and which operations harm which family.

A name is looked up in whole words: every word of a material must be known, or say only its condition
(T6, 2B, shore, anodised), for the material to count as known.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import cached_property

from attrs import frozen

from teardown_app.domain.bill.route import Operation

LONGEST_NAME = 6
"""Words of the longest name looked up: `X 2 Cr Ni Mo 17-12-2`."""

_CONDITION = re.compile(
    r"\d+|\d+a|t\d+|t\d{3,4}|h\d+|hv\d+|2b|1d|ba|aisi|astm|en|din|iso|sus|uns|wnr|aw|ac|gr|grade|type|typ|alloy|class|"
    r"shore|sh|sha|a|d|black|white|blue|red|grey|gray|natural|natur|clear|virgin|filled|food|fda|cast|rolled|bar|"
    r"sheet|tube|pipe|plate|rod|wire|wrought|annealed|hardened|tempered|polished|electropolished|passivated|"
    r"anodised|anodized|eloxiert|bright|blank|ground|drawn|welded|forged|lined|coated|plated|peroxide|cured|"
    r"gf|cf|gf\d+|cf\d+|edelstahlguss|schwarz|weiss|grau|blau|rot"
)


def plain(word: str) -> str:
    """A word as names are compared: lower case, umlauts spelled out, letters and digits only.

    >>> plain("1.4404"), plain("Säure")
    ('14404', 'saeure')
    """
    lowered = word.casefold().replace("ä", "ae").replace("ö", "oe").replace("ü", "ue")
    return "".join(letter for letter in lowered if letter.isalnum())


@frozen
class Family:
    """Materials that bear the same treatment."""

    name: str
    says: str = ""
    materials: tuple[str, ...] = ()
    """Names that mean this family."""
    loosely: tuple[str, ...] = ()
    """Names that mean it only when nothing more exact stands beside them: `steel`."""
    groups: tuple[str, ...] = ()
    """Wider words that cover it: metal, stainless, plastic, elastomer."""


@frozen
class Harm:
    """An operation that a family of materials does not bear."""

    families: tuple[str, ...]
    medium: tuple[str, ...] = ()
    """Words; one of them is found in the medium."""
    trade: tuple[str, ...] = ()
    unless: tuple[str, ...] = ()
    """Words that take the rule away."""
    above_ph: float | None = None
    """Harms above this pH only; a medium that gives none harms."""
    above_c: float | None = None
    """Harms from this temperature in degrees Celsius, or when the medium says hot."""
    why: str = ""
    source: str = ""

    def applies(self, operation: Operation) -> bool:
        """Whether an operation is one of those this rule speaks of."""
        medium, trade = _spaced(operation.medium), _spaced(operation.trade)
        both = f"{medium} {trade}"
        if not (_any_word(self.medium, both) or _any_word(self.trade, trade)):
            return False
        if _any_word(self.unless, both):
            return False
        return self._strong_enough(medium) and self._hot_enough(medium, operation.temperature)

    def _strong_enough(self, medium: str) -> bool:
        if self.above_ph is None:
            return True
        found = re.search(r"\bph\W*(\d+(?:[.,]\d+)?)(?:\s*(?:-|–|to|bis)\s*(\d+(?:[.,]\d+)?))?", medium)
        return not found or max(_float(each) for each in found.groups() if each) > self.above_ph

    def _hot_enough(self, medium: str, temperature: str) -> bool:
        if self.above_c is None:
            return True
        if re.search(r"\b(hot|heiss|heiß)", medium):
            return True
        if re.fullmatch(r"\s*\d+(?:[.,]\d+)?\s*", temperature):
            temperature += " C"
        return any(degrees >= self.above_c for degrees in _celsius(f"{temperature} {medium}"))


@frozen(hash=False)
class Materials:
    """Families by name, and what harms them."""

    families: dict[str, Family]
    harms: tuple[Harm, ...] = ()

    def families_of(self, text: str) -> tuple[str, ...]:
        """Families that a material cell means, empty when a part of it is not in the table."""
        found: dict[str, None] = {}
        for name in text.split(";"):
            if not name.strip():
                continue
            meant = self._meant(name)
            if not meant:
                return ()
            found.update(dict.fromkeys(meant))
        return tuple(found)

    def harm(self, operation: Operation, text: str) -> str:
        """Why an operation harms a material, empty when nothing is known against it."""
        families = self.families_of(text)
        for word in operation.not_with:
            if self._covers(word, text, families):
                return f"operation {operation.id} is not for {word}"
        for rule in self.harms:
            hit = [name for name in families if name in rule.families]
            if hit and rule.applies(operation):
                what = operation.medium or operation.trade
                harmed = self.families[hit[0]].says or hit[0]
                return f"operation {operation.id} ({what}) harms {harmed}: {rule.why}"
        return ""

    def knows(self, word: str, cells: Iterable[str] = ()) -> bool:
        """Whether a word of `not_with` can ever be met: a material, a family, a group, or one that these material cells
        of a bill name."""
        if self._exact(word) or self.families_of(word):
            return True
        return any(self._named(name, word) for name in self.families) or any(
            plain(word) == plain(each) for cell in cells for each in cell.split(";")
        )

    def with_more(self, other: Materials) -> Materials:
        """This table and another one that adds to it."""
        merged = dict(self.families)
        for name, family in other.families.items():
            merged[name] = _joined(merged[name], family) if name in merged else family
        return Materials(merged, (*self.harms, *other.harms))

    def _covers(self, word: str, text: str, families: tuple[str, ...]) -> bool:
        if plain(word) in {plain(each) for each in text.split(";")}:
            return True
        return any(self._named(name, word) or name in self._exact(word) for name in families)

    def _exact(self, word: str) -> frozenset[str]:
        """Families that a word means as a whole; a single material of a family does not cover the others."""
        family = self._loose.get(plain(word))
        return frozenset((family,)) if family else frozenset()

    def _named(self, family: str, word: str) -> bool:
        entry = self.families[family]
        names = (entry.name, entry.says, *entry.groups)
        wanted = plain(word).removesuffix("s")
        return wanted in {plain(name).removesuffix("s") for name in names if name}

    def _meant(self, name: str) -> tuple[str, ...]:
        exact: dict[str, None] = {}
        loose: dict[str, None] = {}
        words = [plain(word) for word in re.split(r"[\s,/()&+|%°-]+", name) if plain(word)]
        place = 0
        while place < len(words):
            length, family, is_exact = self._longest(words, place)
            if family:
                (exact if is_exact else loose)[family] = None
            elif not _CONDITION.fullmatch(words[place]):
                return ()
            place += length
        return tuple(exact or loose)

    def _longest(self, words: list[str], place: int) -> tuple[int, str, bool]:
        """Words used, family and whether the name is exact, for the longest name that starts at a word."""
        for length in range(min(LONGEST_NAME, len(words) - place), 0, -1):
            joined = "".join(words[place : place + length])
            if joined in self._names:
                return length, self._names[joined], True
            if joined in self._loose:
                return length, self._loose[joined], False
        return 1, "", False

    @cached_property
    def _names(self) -> dict[str, str]:
        return {plain(each): family.name for family in self.families.values() for each in family.materials}

    @cached_property
    def _loose(self) -> dict[str, str]:
        return {plain(each): family.name for family in self.families.values() for each in family.loosely}


def _joined(one: Family, more: Family) -> Family:
    return Family(
        one.name,
        more.says or one.says,
        (*one.materials, *more.materials),
        (*one.loosely, *more.loosely),
        (*one.groups, *more.groups),
    )


def _spaced(text: str) -> str:
    return " ".join(text.casefold().split())


def _any_word(words: tuple[str, ...], text: str) -> bool:
    """Whether one of the words begins a word of the text; short ones (HF, MEK) must be the whole word."""
    return any(re.search(rf"(?<![^\W_]){re.escape(word.casefold())}{_end_of(word)}", text) for word in words)


def _end_of(word: str) -> str:
    return r"(?![^\W_])" if len(word) <= 3 else ""


def _float(text: str) -> float:
    return float(text.replace(",", "."))


def _celsius(text: str) -> list[float]:
    """Every temperature in a text, in degrees Celsius.

    >>> _celsius("60-71 °C"), _celsius("140 °F")
    ([60.0, 71.0], [60.0])
    """
    found = []
    for first, second, unit in re.findall(
        r"(\d+(?:[.,]\d+)?)\s*(?:(?:-|–|to|bis|\.\.\.?|…)\s*(\d+(?:[.,]\d+)?))?\s*°?\s*([cCfF])\b", text
    ):
        degrees = [_float(each) for each in (first, second) if each]
        found += [(each - 32) / 1.8 for each in degrees] if unit in "fF" else degrees
    return found
