"""Lines on labels: one long word, the job on the smallest label, ink beside the code, scripts, letters that lack."""

from __future__ import annotations

import sys
import unicodedata
from io import BytesIO
from pathlib import Path

import numpy as np
import pypdfium2
import pytest
from PIL import Image

from teardown_app.cli.main import main
from teardown_app.domain.tags.tag import issue
from teardown_app.labels import lettering
from teardown_app.labels.label import Label, lacking_said
from teardown_app.labels.layout import first_module, layout, words
from teardown_app.labels.lettering import BOX, TEXT_FACE, advances, has_shaping, lacking, needs_shaping, printable
from teardown_app.labels.picture import png, stock_png
from teardown_app.labels.sheet import sheet_pdf
from teardown_app.labels.stock import MM_PER_INCH
from teardown_app.labels.stock_file import shelf_of
from teardown_app.labels.symbol import MODULES, QUIET

NUMBER = issue("P", "7K3M", 1, 1)[0][0]
STOCKS = sorted(shelf_of().stocks)
JOB = "J7K3M0001H"
LONG = "Schwallwasserschutzabdeckungshalterung"
HEBREW, ARABIC = "\u05d0\u05d8\u05dd 12", "\u062d\u0644\u0642\u0629 12"


def sizes(stock: str, *lines: str) -> dict[str, float]:
    """What stands on the label beside its number, with the size of each line in pt."""
    found = words(Label(NUMBER, lines), layout(shelf_of().find(stock)))
    return {one.text: one.size for one in found if one.text != NUMBER}


@pytest.mark.parametrize("stock", ["a4-40", "letter-30", "roll-50x25", "tie-on-120x60"])
def test_one_long_word_makes_its_own_line_smaller_and_no_other(stock: str) -> None:
    alone, beside = sizes(stock, "10.20", "cover", JOB), sizes(stock, "10.20", LONG, JOB)
    assert beside["10.20"] == alone["10.20"] and beside[JOB] == alone[JOB]
    (long,) = (text for text in beside if text not in ("10.20", JOB))
    assert beside[long] < beside["10.20"] or stock == "tie-on-120x60"


@pytest.mark.parametrize("stock", STOCKS)
@pytest.mark.parametrize("description", ["cover", "Bearing housing, drive end, with labyrinth seal and drain", LONG])
def test_every_label_shows_the_place_and_the_job(stock: str, description: str) -> None:
    """Also the 25 x 25 mm one, which has two lines beside the number: the description is what is cut."""
    shown = list(sizes(stock, "10/2.20.5", description, JOB))
    assert shown[-1] == JOB and shown[0].startswith("10/2.20.5")


def quiet_zone(stock_name: str, lines: tuple[str, ...], *, as_pdf: bool) -> np.ndarray:
    """True where there is ink in the four modules round the code (ISO/IEC 18004*, quiet zone of a QR symbol)."""
    stock = shelf_of().find(stock_name)
    label, place = Label(NUMBER, lines), layout(stock)
    dpi = 1200 if as_pdf else stock.dpi
    if as_pdf:
        page = pypdfium2.PdfDocument(sheet_pdf([label], stock))[0]
        ink = np.asarray(page.render(scale=dpi / 72).to_pil().convert("L")) < 128
        corner = stock.place(0)
    else:
        ink, corner = ~np.asarray(Image.open(BytesIO(stock_png(label, stock)))), (0.0, 0.0)
    per_mm, first = dpi / MM_PER_INCH, first_module(place, corner, stock)
    quiet, side = QUIET * place.module_mm, MODULES * place.module_mm
    left, top, right, foot = (first[0] - quiet, first[1] - quiet, first[0] + side + quiet, first[1] + side + quiet)
    zone = ink[round(top * per_mm) + 1 : round(foot * per_mm) - 1, round(left * per_mm) + 1 : round(right * per_mm) - 1]
    inner, edge = zone.copy(), round(quiet * per_mm) - 2
    inner[edge:-edge, edge:-edge] = False
    return inner


OVERHANGING = ("jjj\u0135", "\u0488\u0301\u0302 over", "\u00ce\u00ce", "f\u0237")
"""Letters whose ink begins before their place in the face: j, i with a hat, marks that are set over a letter."""


@pytest.mark.parametrize("stock", STOCKS)
@pytest.mark.parametrize("as_pdf", [True, False], ids=["PDF", "PNG"])
def test_no_letter_hangs_over_into_the_quiet_zone(stock: str, as_pdf: bool) -> None:
    for text in OVERHANGING:
        assert not quiet_zone(stock, (text, text, text), as_pdf=as_pdf).any(), repr(text)


def test_ink_in_the_quiet_zone_would_be_seen(monkeypatch: pytest.MonkeyPatch) -> None:
    """Without what puts a line to the right the marks lie in it."""
    monkeypatch.setattr("teardown_app.labels.layout.overhang", lambda *_: 0.0)
    assert any(quiet_zone(name, (OVERHANGING[1],) * 3, as_pdf=True).any() for name in STOCKS)


def test_what_the_face_lacks_is_said_and_never_a_question_mark() -> None:
    """Every character that Unicode (of this Python) has and the face has not, that is a letter, a digit or a sign."""
    known = advances(TEXT_FACE)
    shown = [one for one in map(chr, range(sys.maxunicode + 1)) if unicodedata.category(one)[0] in "LNPS"]
    missing = [one for one in shown if ord(one) not in known]
    assert len(missing) > 100_000
    for one in missing[::97]:
        assert lacking(f"a{one}") == one and printable(f"a{one}") == f"a{BOX}"
    assert not lacking("Gehäuse µ Ω ≤ Вал 12?") and printable("what?") == "what?"


def test_a_print_says_so_before_it_is_printed(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """On standard error, with the number of the label and the letters; the label is made all the same."""
    out = tmp_path / "x.png"
    assert main(["label", "picture", NUMBER, "--line", "\u8ef8 \u53d7", "--out", str(out)]) == 0
    said = capsys.readouterr().err
    assert "lack \u8ef8 \u53d7" in said and NUMBER in said and out.is_file()
    assert lacking_said([Label(NUMBER, ("cover",))]) == ""


@pytest.mark.parametrize("text", [HEBREW, ARABIC])
def test_without_what_joins_letters_that_is_said(text: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """They are in the face; in the wrong order and not joined nobody could read them."""
    monkeypatch.setattr("teardown_app.labels.lettering.has_shaping", lambda: False)
    monkeypatch.setattr("teardown_app.labels.label.has_shaping", lambda: False)
    assert lacking(text) == "".join(one for one in text if needs_shaping(one))
    assert "uharfbuzz" in lacking_said([Label(NUMBER, (text,))]) and printable(text).endswith("12")


@pytest.mark.skipif(not has_shaping(), reason="needs uharfbuzz, and Pillow with raqm")
@pytest.mark.parametrize("text", [HEBREW, ARABIC])
def test_scripts_are_joined_and_run_from_the_right(text: str) -> None:
    """Both ways to paper against the glyphs that HarfBuzz itself gives for the line: as many, and as wide."""
    assert not lacking(text) and printable(text) == text
    letters = text.split()[0]
    stock = shelf_of().find("tie-on-120x60")
    label = Label(NUMBER, (letters,))
    (line,) = (one for one in words(label, layout(stock)) if one.text != NUMBER)
    wanted = width_by_harfbuzz(letters) * line.size / 72 * MM_PER_INCH
    page = pypdfium2.PdfDocument(sheet_pdf([label], stock))[0]
    pdf = np.asarray(page.render(scale=1200 / 72).to_pil().convert("L")) < 128
    drawn = ~np.asarray(Image.open(BytesIO(stock_png(label, stock))))
    for ink, dpi in ((pdf, 1200), (drawn, stock.dpi)):
        rows = ink[round((line.foot - 0.8 * line.size / 72 * 25.4) * dpi / 25.4) : round(line.foot * dpi / 25.4)]
        columns = np.flatnonzero(rows[:, round((line.left - 1) * dpi / 25.4) :].any(axis=0))
        assert abs((columns[-1] - columns[0]) / dpi * 25.4 - wanted) < 0.15 * wanted, "as wide as joined, not as single"
    assert not np.array_equal(drawn, unshaped(label, stock.name)), "without shaping it looks otherwise"


def unshaped(label: Label, stock: str) -> np.ndarray:
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("teardown_app.labels.picture.needs_shaping", lambda text: False)
        return ~np.asarray(Image.open(BytesIO(stock_png(label, shelf_of().find(stock)))))


def width_by_harfbuzz(text: str) -> float:
    """Advance of the shaped line at size 1."""
    hb = pytest.importorskip("uharfbuzz")
    face = hb.Face(hb.Blob.from_file_path(str(lettering.supply(TEXT_FACE))))
    buffer = hb.Buffer()
    buffer.add_str(text)
    buffer.guess_segment_properties()
    hb.shape(hb.Font(face), buffer)
    return float(sum(one.x_advance for one in buffer.glyph_positions)) / float(face.upem)


def test_a_picture_of_a_label_by_itself_keeps_long_words_too() -> None:
    """Cut with an ellipsis at 50 mm (`labels/picture.py`), never wider."""
    image = Image.open(BytesIO(png(Label(NUMBER, (LONG * 4,)))))
    assert image.width < 60 / MM_PER_INCH * 203
