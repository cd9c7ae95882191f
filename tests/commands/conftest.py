"""Watches every command of these tests."""

from __future__ import annotations

from tests.workflows.declared import only_declared_kinds

__all__ = ["only_declared_kinds"]
