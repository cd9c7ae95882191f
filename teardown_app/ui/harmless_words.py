"""What values of a screen say is made harmless when they are made, whatever it was made of. No Kivy here."""

from __future__ import annotations

from attrs import Attribute

from teardown_app.domain.ledger.harmless import harmless

NAMES = frozenset({"key", "act", "args", "file", "photos", "name", "kind", "wants", "screen", "show", "mark"})
"""Fields that name something for the program, and are not read by people."""


def harmless_words(_: type, fields: list[Attribute[object]]) -> list[Attribute[object]]:
    """The fields of a class, each text for people with a converter that lets nothing through that acts."""
    return [one.evolve(converter=_CONVERTERS[str(one.type)]) if _is_read(one) else one for one in fields]


def _is_read(field: Attribute[object]) -> bool:
    return str(field.type) in _CONVERTERS and field.name not in NAMES


def _each(texts: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(map(harmless, texts))


_CONVERTERS = {"str": harmless, "tuple[str, ...]": _each}
