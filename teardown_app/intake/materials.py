"""The table of materials from `materials.toml`: the one that comes along, and what a shop adds to it."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path
from typing import Any

from teardown_app.domain.bill.materials import Family, Harm, Materials
from teardown_app.intake.toml_text import BrokenToml, read_toml
from teardown_app.intake.whole_file import read_whole

LARGEST = 8 * 2**20
"""Bytes of a file of materials."""

FILE = "materials.toml"
_TEXTS = ("why", "source")
_LISTS = ("families", "medium", "trade", "unless")
_NUMBERS = ("above_ph", "above_c")


class BrokenMaterials(ValueError):
    """The table of materials cannot be read; the message says where and why."""


def read_materials(folder: Path, own: Path | None = None) -> Materials:
    """The table in a folder, with what a shop's own file adds to it."""
    materials = materials_in(folder / FILE)
    return materials.with_more(materials_in(own)) if own is not None else materials


def materials_in(path: Path) -> Materials:
    """One file of materials."""
    try:
        text = read_toml(path.name, read_whole(path, LARGEST))
    except OSError as error:
        raise BrokenMaterials(f"{path} cannot be read: {error.strerror}") from error
    if isinstance(text, BrokenToml):
        raise BrokenMaterials(f"{path}, line {text.line}: {text.message}")
    families = _tables(path, text.values.get("family", {}))
    harms = text.values.get("harm", [])
    if not isinstance(harms, list) or not all(isinstance(each, dict) for each in harms):
        raise BrokenMaterials(f"{path}: write each harm beneath [[harm]]")
    return Materials(
        {name: _family(path, name, values) for name, values in families.items()},
        tuple(_harm(path, values) for values in harms),
    )


def _tables(path: Path, families: Any) -> dict[str, dict[str, Any]]:
    if not isinstance(families, dict) or not all(isinstance(each, dict) for each in families.values()):
        raise BrokenMaterials(f"{path}: write each family beneath [family.NAME]")
    return families


def _family(path: Path, name: str, values: dict[str, Any]) -> Family:
    return Family(
        name,
        str(values.get("says", "")),
        _list(path, name, values, "materials"),
        _list(path, name, values, "loosely"),
        _list(path, name, values, "groups"),
    )


def _harm(path: Path, values: dict[str, Any]) -> Harm:
    unknown = values.keys() - {*_TEXTS, *_LISTS, *_NUMBERS}
    if unknown:
        raise BrokenMaterials(f"{path}: a harm says {', '.join(sorted(unknown))}, which is not known")
    lists = {key: _list(path, "harm", values, key) for key in _LISTS}
    numbers = {key: _number(path, values[key], key) for key in _NUMBERS if key in values}
    return Harm(**lists, **numbers, **{key: str(values.get(key, "")) for key in _TEXTS})  # type: ignore[arg-type]


def _list(path: Path, name: str, values: dict[str, Any], key: str) -> tuple[str, ...]:
    found = values.get(key, [])
    if not isinstance(found, list) or not all(isinstance(each, str) for each in found):
        raise BrokenMaterials(f'{path}: {key} of {name} is not a list of texts; write ["one", "two"]')
    return tuple(found)


def _number(path: Path, value: Any, key: str) -> float:
    if isinstance(value, bool) or not isinstance(value, int | Decimal):
        raise BrokenMaterials(f"{path}: {key} is not a number")
    return float(value)
