"""The app as a wheel installs it, started elsewhere: what `pyproject.toml` packs is enough."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

from tests.patience import WHOLE_RUN_S

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def installed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """What lies in the wheel: its packages, and the files that are put into them."""
    site = tmp_path_factory.mktemp("site")
    wheel = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["tool"]["hatch"]["build"]["targets"]["wheel"]
    for package in wheel["packages"]:
        shutil.copytree(ROOT / package, site / package, ignore=shutil.ignore_patterns("__pycache__"))
    for source, target in wheel["force-include"].items():
        shutil.copytree(ROOT / source, site / target)
    return site


def started(site: Path, elsewhere: Path, *words: str) -> subprocess.CompletedProcess[str]:
    """Python on the installed app, in a folder where nothing of the project is."""
    env = {**os.environ, "PYTHONPATH": str(site), "TEARDOWN_HOME": str(elsewhere / "home"), "PYTHONSAFEPATH": "1"}
    return subprocess.run(
        [sys.executable, *words],
        cwd=elsewhere,
        env=env,
        capture_output=True,
        text=True,
        check=False,
        timeout=WHOLE_RUN_S,
    )


def test_the_demo_runs_outside_the_folder(installed: Path, tmp_path: Path) -> None:
    done = started(installed, tmp_path, "-m", "teardown_app", "demo", "--out", "out")
    assert done.returncode == 0, done.stderr
    assert "nothing missing, nothing over" in done.stdout and (tmp_path / "out" / "labels.pdf").is_file()


def test_the_touch_app_furnishes_its_demo_outside_the_folder(installed: Path, tmp_path: Path) -> None:
    """All up to the window: the shop, both jobs, the desk with its screens, and every file of the widgets."""
    code = (
        "from pathlib import Path\n"
        "import teardown_app\n"
        "from teardown_app.ui.demo_shop import furnish\n"
        "from teardown_app.ui.desk import Desk\n"
        "from teardown_app.ui.table import FORMS, SCREENS\n"
        "from teardown_app.workshop import assets_folder, open_workshop\n"
        "workshop = open_workshop(Path('home'), assets_folder(), writes=True)\n"
        "furnish(workshop)\n"
        "Desk(workshop, SCREENS, FORMS)\n"
        "workshop.close()\n"
        "print(teardown_app.__file__, assets_folder(), len(workshop.lists.jobs()))\n"
    )
    done = started(installed, tmp_path, "-c", code)
    assert done.returncode == 0, done.stderr
    program, assets, jobs = done.stdout.split()
    assert Path(program).is_relative_to(installed) and Path(assets).is_relative_to(installed) and jobs == "2"
    assert {one.name for one in installed.rglob("*.kv")} == {one.name for one in (ROOT / "teardown_app").rglob("*.kv")}
