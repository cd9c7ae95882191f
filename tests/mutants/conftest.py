"""Without the extra `mutants` there is nothing here to be tried: its tests are not collected."""

from __future__ import annotations

from importlib.util import find_spec

collect_ignore = [] if find_spec("cosmic_ray") else ["test_changes.py", "test_trials.py"]
