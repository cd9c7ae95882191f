"""Commands about photographs: kept without metadata, marked on a copy, written out."""

from __future__ import annotations

from argparse import ArgumentParser
from pathlib import Path

from teardown_app.cli.called import elsewhere
from teardown_app.cli.command import Answer, Call, Command, job_argument, recorded
from teardown_app.domain.job import JOB
from teardown_app.domain.life import in_order
from teardown_app.domain.record import position_thing
from teardown_app.records.photographs import LONG_EDGE_PX, Arrow, Ring, marked, prepare
from teardown_app.workflows.act import Act, refuse
from teardown_app.workflows.called import part_meant, place_meant
from teardown_app.workflows.photograph import WHENS, photograph

PNG = b"\x89PNG"


def _photo(parser: ArgumentParser) -> None:
    job_argument(parser)
    parser.add_argument("files", metavar="FILE", nargs="+", type=Path)
    parser.add_argument("--part", action="append", default=[], metavar="PART", help="a part on it; may be repeated")
    parser.add_argument("--position", action="append", default=[], help="a place on it; may be repeated")
    parser.add_argument("--area", default="", help="what it shows, such as 'inside, flange face'")
    parser.add_argument("--when", default=WHENS[0], choices=WHENS)
    parser.add_argument("--note", default="")
    parser.add_argument("--full-size", action="store_true", help="for name plates and cracks")
    parser.add_argument("--ring", default="", metavar="X,Y,R", help="ring on a copy, as fractions from the top left")
    parser.add_argument("--arrow", default="", metavar="X,Y,X2,Y2", help="arrow on a copy, pointing at X2,Y2")


def photo(call: Call) -> Answer:
    """Keeps photographs and records what they show."""
    args, act = call.args, call.act(call.job())
    act.working()
    things = _things(call, act)
    marks = _marks(args.ring, args.arrow)
    pictures = []
    for file in args.files:
        data = file.read_bytes()
        picture = prepare(data, str(file), long_edge=None if args.full_size else LONG_EDGE_PX)
        pictures.append(picture)
        if marks:
            pictures.append(marked(picture.data, str(file), marks))
    kept = [call.workshop.home.attach(picture.data, picture.ext) for picture in pictures]
    drafts = photograph(act, things, kept, area=args.area, note=args.note, when=args.when)
    records = call.record(drafts)
    return recorded(records, f"{len(kept)} pictures kept without metadata.", photos=kept)


def _things(call: Call, act: Act) -> list[str]:
    parts = [part_meant(act, name, lambda number: elsewhere(call, act, number)) for name in call.args.part]
    places = [position_thing(place_meant(act, key).key) for key in call.args.position]
    return [*parts, *places] or [JOB]


def _marks(ring: str, arrow: str) -> list[Ring | Arrow]:
    marks: list[Ring | Arrow] = []
    if ring:
        marks.append(Ring(*_fractions(ring, 3)))
    if arrow:
        marks.append(Arrow(*_fractions(arrow, 4)))
    return marks


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
    """Writes the photographs of a job out."""
    job, out = call.job().job, call.args.out
    out.mkdir(parents=True, exist_ok=True)
    look, rows = call.look(job), []
    for record in in_order(job):
        if record.typ != "photo.taken" or job.effect(record):
            continue
        for digest in record.body["photos"]:
            data = call.workshop.home.attachment(digest)
            file = out / f"{len(rows) + 1:04d}.{'png' if data.startswith(PNG) else 'jpg'}"
            file.write_bytes(data)
            names = [thing if thing.startswith("@") or thing == JOB else look.name(thing) for thing in record.ent]
            rows.append({"file": str(file), "shows": names, "area": record.body.get("area", ""), "taken": record.wall})
    lines = [f"{row['file']}: {', '.join(row['shows'])} {row['area']}" for row in rows]
    return Answer(rows, lines or ["Nothing was photographed yet."])


COMMANDS = (
    Command(
        ("part", "photo"),
        "Keep photographs of parts, places or the tool, without metadata.",
        "teardown-app part photo PO-7781 bowl.jpg --position 10.20 --area 'inside, flange' --ring 0.4,0.5,0.1 --by MK",
        photo,
        _photo,
    ),
    Command(
        ("job", "photos"),
        "Write the photographs of a job out, with what they show.",
        "teardown-app job photos PO-7781 --out photos",
        photos,
        _out,
        writes=False,
        by=False,
    ),
)
