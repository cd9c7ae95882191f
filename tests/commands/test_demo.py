"""The demo works the sample through to a closed job, and its labels read back."""

from __future__ import annotations

import json
from pathlib import Path

import pypdfium2
import pytest

from teardown_app.cli.main import main
from teardown_app.intake.still_codes import read_picture

BILL = Path(__file__).parents[2] / "sample_bills" / "brd-25"


def test_the_demo_ends_with_a_closed_job_its_labels_and_nothing_open(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["demo", "--out", str(tmp_path), "--bill", str(BILL)]) == 0
    said = capsys.readouterr().out
    assert said.count("REFUSED") == 3 and "nothing missing, nothing over" in said
    home = ["--home", str(tmp_path / "data")]
    main(["job", "list", "--json", *home])
    (row,) = json.loads(capsys.readouterr().out)
    assert (row["closed"], row["open_points"], row["holds"]) == (True, 0, 0)
    assert main(["job", "open-points", row["job"], *home]) == 0
    capsys.readouterr()
    main(["job", "log", row["job"], "--json", *home])
    log = json.loads(capsys.readouterr().out)
    assert len(log) > 300 and {one["by"] for one in log} == {"OF", "TE", "CR", "AS"}
    assert all(one["trial"] for one in log)
    assert main(["verify", *home]) == 0
    capsys.readouterr()
    main(["part", "list", row["job"], "--json", *home])
    tags = {part["tag"] for part in json.loads(capsys.readouterr().out) if part["tag"]}
    assert codes(tmp_path / "labels.pdf", tmp_path) == tags


def codes(pdf: Path, folder: Path) -> set[str]:
    """All numbers on the pages of a PDF."""
    found = set()
    document = pypdfium2.PdfDocument(pdf)
    for n, page in enumerate(document):
        picture = folder / f"page{n}.png"
        page.render(scale=300 / 72).to_pil().save(picture)
        found |= {code.text for code in read_picture(picture) if code.ours}
    document.close()
    return found
