"""The same bench as for reassembly."""

from __future__ import annotations

from tests.workflows.reassembly.conftest import bench, second

__all__ = ["bench", "second"]
