"""Loads the `.kv` twin of a module, once."""

from __future__ import annotations

from pathlib import Path

from kivy.core.text import LabelBase
from kivy.lang import Builder

from teardown_app.labels.supplies import supply
from teardown_app.ui.look.theme import BOLD, REGULAR

_loaded: set[str] = set()


def load_looks(module_file: str) -> None:
    """Loads the kv file beside a module; a second call does nothing (a rule loaded twice applies twice)."""
    path = str(Path(module_file).with_suffix(".kv"))
    if path not in _loaded:
        _register_type()
        _loaded.add(path)
        Builder.load_file(path, encoding="utf-8")


def _register_type() -> None:
    if not _loaded:
        for name, file in ((REGULAR, "DejaVuSans.ttf"), (BOLD, "DejaVuSans-Bold.ttf")):
            LabelBase.register(name, str(supply(f"fonts/{file}")))
