"""Pictures as a camera above a bench would give them, made by program: our own labels, and foreign codes, lying
turned and shaded on a ground of brushed steel. They stand for a camera; none was taken by one.
"""

from __future__ import annotations

import io
from collections.abc import Sequence
from pathlib import Path
from random import Random

import segno
from PIL import Image, ImageDraw, ImageFilter

from teardown_app.domain.tags.tag import is_ours
from teardown_app.labels.label import Label
from teardown_app.labels.picture import png

WIDE, HIGH = 1280, 720


def label_picture(text: str, dots: int = 5) -> Image.Image:
    """A label of ours as it is printed; a foreign code on white."""
    if is_ours(text):
        return Image.open(io.BytesIO(png(Label(text), dpi=203, dots=dots))).convert("RGB")
    out = io.BytesIO()
    segno.make(text, error="m", micro=False).save(out, kind="png", scale=dots, border=4)
    out.seek(0)
    return Image.open(out).convert("RGB")


def bench_picture(texts: Sequence[str], seed: int = 1, *, size: tuple[int, int] = (WIDE, HIGH)) -> Image.Image:
    """These labels on a bench, in rows, each turned by some degrees."""
    chance = Random(seed)
    ground = _steel(size, chance)
    across = min(5, max(1, len(texts)))
    down = max(1, -(-len(texts) // across))
    for n, text in enumerate(texts):
        label = label_picture(text, 5 if len(texts) > 4 else 8)
        degrees = chance.uniform(-12, 12)
        turned = label.rotate(degrees, expand=True, resample=Image.Resampling.BICUBIC)
        mask = Image.new("L", label.size, 255).rotate(degrees, expand=True)
        cell = (size[0] / across, size[1] / down)
        x = cell[0] * (n % across + 0.5) - turned.width / 2 + chance.uniform(-10, 10)
        y = cell[1] * (n // across + 0.5) - turned.height / 2 + chance.uniform(-6, 6)
        ground.paste(turned, (int(x), int(y)), mask)
    return ground.filter(ImageFilter.GaussianBlur(0.7))


def _steel(size: tuple[int, int], chance: Random) -> Image.Image:
    """Brushed steel, darker to one side."""
    ground = Image.linear_gradient("L").resize(size).point(lambda grey: 95 + grey // 4)
    brushed = Image.effect_noise((size[0] // 8, size[1]), 26).resize(size).point(lambda grey: grey // 3)
    ground = Image.blend(ground, brushed, 0.35).convert("RGB")
    draw = ImageDraw.Draw(ground)
    for _ in range(6):  # drops
        x, y, r = chance.randrange(size[0]), chance.randrange(size[1]), chance.randrange(4, 14)
        draw.ellipse((x - r, y - r, x + r, y + r), fill=(150, 152, 155))
    return ground


def put_picture(folder: Path, name: str, texts: Sequence[str], seed: int = 1) -> Path:
    """Puts such a picture into a folder at once: never half of it is seen there."""
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / f"{name}.png"
    data = io.BytesIO()
    bench_picture(texts, seed).save(data, "PNG", compress_level=1)
    fresh = path.with_suffix(".part")
    fresh.write_bytes(data.getvalue())
    return fresh.replace(path)
