"""Commands about photographs: kept without metadata, marked on a copy, written out."""

from __future__ import annotations

from argparse import ArgumentParser
from pathlib import Path
from typing import Any

from teardown_app.cli.called import elsewhere
from teardown_app.cli.command import Answer, Call, Command, job_argument, looks, recorded
from teardown_app.domain.job.job import JOB
from teardown_app.domain.ledger.harmless import harmless
from teardown_app.domain.ledger.record import Record, position_thing
from teardown_app.domain.parts.life import in_order
from teardown_app.records.photographs import LONG_EDGE_PX, Arrow, Picture, Ring, marked, prepare
from teardown_app.records.trouble import AttachmentError
from teardown_app.workflows.act import Act, refuse
from teardown_app.workflows.called import part_meant, place_meant
from teardown_app.workflows.photograph import PHOTO, WHENS, photograph

PNG = b"\x89PNG"
RING_SAYS = "ring on a copy, as fractions from the top left; may be repeated"
ARROW_SAYS = "arrow on a copy, pointing at X2,Y2; may be repeated"


def _photo(parser: ArgumentParser) -> None:
    job_argument(parser)
    parser.add_argument("files", metavar="FILE", nargs="+", type=Path)
    parser.add_argument("--part", action="append", default=[], metavar="PART", help="a part on it; may be repeated")
    parser.add_argument("--position", action="append", default=[], help="a place on it; may be repeated")
    parser.add_argument("--area", default="", help="what it shows, such as 'inside, flange face'")
    parser.add_argument("--when", default=WHENS[0], choices=WHENS)
    parser.add_argument("--note", default="")
    parser.add_argument("--full-size", action="store_true", help="for name plates and cracks")
    parser.add_argument("--ring", action="append", default=[], metavar="X,Y,R", help=RING_SAYS)
    parser.add_argument("--arrow", action="append", default=[], metavar="X,Y,X2,Y2", help=ARROW_SAYS)


def photo(call: Call) -> Answer:
    """Keeps photographs and records what they show. What is refused leaves no picture behind."""
    args, act = call.args, call.act(call.job())
    act.working()
    things, marks = _things(call, act), _marks(args.ring, args.arrow)
    pictures = [picture for file in args.files for picture in _pictures(file, args.full_size, marks)]
    digests = [call.workshop.digest(picture.data) for picture in pictures]
    drafts = photograph(act, things, digests, area=args.area, note=args.note, when=args.when)
    for picture in pictures:
        call.workshop.home.attach(picture.data, picture.ext)
    records = call.record(drafts)
    shows = ", ".join(_shown(act, thing) for thing in things)
    return recorded(records, PHOTO.done.format(shows=shows, count=len(digests)), photos=digests)


def _pictures(file: Path, full_size: bool, marks: list[Ring | Arrow]) -> list[Picture]:
    """The picture as it is kept, and the copy with the marks where there are any."""
    if not file.is_file():
        refuse(f"There is no file {file}.", "Look where the picture was saved.")
    picture = prepare(file.read_bytes(), str(file), long_edge=None if full_size else LONG_EDGE_PX)
    return [picture, marked(picture.data, str(file), marks)] if marks else [picture]


def _shown(act: Act, thing: str) -> str:
    """A part, a place or the tool for a sentence."""
    return "the tool" if thing == JOB else act.name(thing)


def _things(call: Call, act: Act) -> list[str]:
    parts = [part_meant(act, name, lambda number: elsewhere(call, act, number)) for name in call.args.part]
    places = [position_thing(place_meant(act, key).key) for key in call.args.position]
    return [*parts, *places] or [JOB]


def _marks(rings: list[str], arrows: list[str]) -> list[Ring | Arrow]:
    round_ = [Ring(*_fractions(one, 3)) for one in rings]
    return [*round_, *(Arrow(*_fractions(one, 4)) for one in arrows)]


def _fractions(text: str, count: int) -> list[float]:
    try:
        numbers = [float(one) for one in text.split(",")]
    except ValueError:
        numbers = []
    if len(numbers) != count or not all(0 <= one <= 1 for one in numbers):
        refuse(f"{text} is no mark.", f"Write {count} numbers between 0 and 1, with commas between.")
    return numbers


def _out(parser: ArgumentParser) -> None:
    job_argument(parser)
    parser.add_argument("--out", type=Path, required=True, metavar="FOLDER")


def photos(call: Call) -> Answer:
    """Writes the photographs of a job out, and beside them a list of what they show."""
    job, out = call.job().job, call.args.out
    out.mkdir(parents=True, exist_ok=True)
    look = call.look(job)
    taken = [one for one in in_order(job) if one.body.get("photos") and not job.effect(one)]
    pairs = [(record, digest) for record in taken for digest in record.body["photos"]]
    rows = [_written(call, look, record, digest, n, out) for n, (record, digest) in enumerate(pairs, 1)]
    lines = [_line(row) for row in rows] or ["Nothing was photographed yet."]
    (out / f"{job.number}-photographs.txt").write_text("\n".join(map(harmless, lines)) + "\n", encoding="utf-8")
    return Answer(rows, lines)


def _written(call: Call, look: Act, record: Record, digest: str, n: int, out: Path) -> dict[str, Any]:
    """One photograph on the disk: named by its job, so that no other picture in the folder is lost."""
    row = {
        "file": "",
        "shows": [_shown(look, thing) for thing in record.ent],
        "area": record.body.get("area", "") or record.body.get("word", ""),
        "when": record.body.get("when", ""),
        "note": record.body.get("note", ""),
        "taken": record.wall,
        "missing": "",
    }
    try:
        data = call.workshop.home.attachment(digest)
    except AttachmentError as fault:  # made on another tablet and not here yet: the others are written
        return {**row, "missing": str(fault)}
    file = out / f"{look.job.number}-{n:04d}.{'png' if data.startswith(PNG) else 'jpg'}"
    file.write_bytes(data)
    return {**row, "file": str(file)}


def _line(row: dict[str, Any]) -> str:
    name = Path(row["file"]).name if row["file"] else f"NOT HERE ({row['missing']})"
    said = [", ".join(row["shows"]), *(row[field] for field in ("area", "when", "note", "taken") if row[field])]
    return f"{name}: {'; '.join(said)}"


COMMANDS = (
    Command(
        ("part", "photo"),
        "Keep photographs of parts, places or the tool, without metadata.",
        "teardown-app part photo PO-7781 bowl.jpg --position 10.20 --area 'inside, flange' --ring 0.4,0.5,0.1 --by MK",
        photo,
        _photo,
    ),
    looks(
        ("job", "photos"),
        "Write the photographs of a job out, with what they show.",
        "teardown-app job photos PO-7781 --out photos",
        photos,
        _out,
    ),
)
