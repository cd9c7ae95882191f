"""What a screen shows, as frozen values: screens make them, widgets draw them. No Kivy here."""

from __future__ import annotations

from attrs import frozen

from teardown_app.figures.figure import Figure
from teardown_app.ui.harmless_words import harmless_words

ACCEPT, REJECT, UNSURE, TO_DO, EMPTY, HOLD = "accept", "reject", "inconclusive", "to do", "empty", "hold"
"""Marks: filled square, ring with a bar, triangle, filled disc, empty square, flag on a pole."""

TEXT, NUMBER, COUNT, TAG, PIN, CHOICE = "text", "number", "count", "tag", "pin", "choice"
"""Kinds of a field, each with keys of its own."""


@frozen(field_transformer=harmless_words)
class Step:
    """Something that can be touched: a verb and its object, and what it does.

    `act` names a method of the screen, `args` are handed to it. A step that is not `ready` says in
    `why_not` what is in the way; touching it shows that.
    """

    says: str
    act: str
    args: tuple[str, ...] = ()
    ready: bool = True
    why_not: str = ""
    mark: str = ""
    chosen: bool = False


@frozen(field_transformer=harmless_words)
class Row:
    """One row of a list: the same height everywhere.

    `depth` indents, `trail` is aligned right (a number, a place), `done` of `all` draws a small bar.
    """

    key: str
    text: str
    sub: str = ""
    mark: str = ""
    depth: int = 0
    trail: str = ""
    done: int = -1
    all: int = 0
    chosen: bool = False
    act: str = "choose"


@frozen(field_transformer=harmless_words)
class Fact:
    """A line of a card: what it is, what it says, with a mark where it is good or bad."""

    name: str
    says: str
    mark: str = ""


@frozen(field_transformer=harmless_words)
class Card:
    """The thing in hand: `far` is read from two metres (at most 14 characters), `head` from one."""

    far: str = ""
    head: str = ""
    mark: str = ""
    word: str = ""
    facts: tuple[Fact, ...] = ()
    photos: tuple[str, ...] = ()
    """Files of pictures."""
    steps: tuple[Step, ...] = ()


@frozen(field_transformer=harmless_words)
class Flag:
    """A place on the drawing: fractions from the top left."""

    key: str
    x: float
    y: float
    mark: str
    chosen: bool = False


@frozen(field_transformer=harmless_words)
class Drawing:
    """The drawing of an assembly with flags that fill as parts go in."""

    file: str = ""
    flags: tuple[Flag, ...] = ()
    says: str = ""


@frozen(field_transformer=harmless_words)
class Ring:
    """A ring or an arrow on a photograph: fractions from the top left; an arrow has a foot."""

    x: float
    y: float
    from_x: float = -1.0
    from_y: float = -1.0


@frozen(field_transformer=harmless_words)
class Photo:
    """A photograph that is being marked: a touch sets a ring, a stroke draws an arrow."""

    file: str
    rings: tuple[Ring, ...] = ()
    says: str = ""


@frozen(field_transformer=harmless_words)
class Spot:
    """A label on a picture: its corners as fractions from the top left, its number in the list, what it is."""

    key: str
    corners: tuple[tuple[float, float], ...]
    number: str
    mark: str
    word: str = ""
    out: bool = False
    """Left out: it stays outlined with a broken line."""


@frozen(field_transformer=harmless_words)
class Tray:
    """A picture with several labels on it; touching one leaves it out or takes it in again."""

    file: str
    spots: tuple[Spot, ...] = ()
    says: str = ""


@frozen(field_transformer=harmless_words)
class Live:
    """The camera's pane: how the camera stands, a question, what can be touched. The picture itself is no value."""

    says: str
    pictured: bool = False
    """True while pictures come."""
    mirrored: bool = False
    mark: str = ""
    steps: tuple[Step, ...] = ()


@frozen(field_transformer=harmless_words)
class Field:
    """Something to enter: `draft` is what was entered so far, `choices` are offered above the keys."""

    name: str
    asks: str
    kind: str = TEXT
    draft: str = ""
    unit: str = ""
    units: tuple[str, ...] = ()
    """Those of the choices that change the unit of a number and are no answer."""
    choices: tuple[str, ...] = ()
    hint: str = ""
    may_be_empty: bool = False
    wants: str = "P"
    """Which labels are its answer, by the letter they begin with; badges only where a badge is wanted."""
    fault: str = ""
    """What is wrong with the draft, in place of the hint."""
    wrong: tuple[int, ...] = ()
    """Which places of a tag to look at, counted from 0."""
    bar_mm: float = 0.0
    """Length of a bar that is drawn above the keys, to be measured with a ruler."""


@frozen(field_transformer=harmless_words)
class Strip:
    """What confirms the last record, and whether it can be taken back from here."""

    says: str = ""
    mark: str = ""
    step: Step | None = None


@frozen(field_transformer=harmless_words)
class Scan:
    """The line on top: what was read last, whether it was taken, and who is signed on."""

    says: str = ""
    mark: str = ""
    who: str = ""
    invites: str = ""
    """What stands there while nothing was read."""
    count: int = 0
    """Goes up with every scan, so that the same words flash again."""


@frozen(field_transformer=harmless_words)
class View:
    """All that a screen shows.

    `red` is the list of what is temporary and in, energised or locked: the same place on every
    screen. `empty` says why a list is empty and what to do.
    """

    title: str
    rows: tuple[Row, ...] = ()
    empty: str = ""
    drawing: Drawing | None = None
    photo: Photo | None = None
    tray: Tray | None = None
    live: Live | None = None
    camera: Step | None = None
    """The plate beside the scan line that switches the camera on and off."""
    figure: Figure | None = None
    """A plot, in the place of the list."""
    card: Card = Card()
    field: Field | None = None
    main: Step | None = None
    quiet: tuple[Step, ...] = ()
    tabs: tuple[Step, ...] = ()
    strip: Strip = Strip()
    scan: Scan = Scan()
    red: str = ""
    caution: str = ""
    busy: str = ""
    """Something slow that is under way, and how far it is."""
    show: str = ""
    """Key of the row that should be in sight."""
    screen: str = ""
    """Name of the screen: a list begins at its top when this changes."""
