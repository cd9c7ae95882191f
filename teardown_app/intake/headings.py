"""Headings of tables: the usual words, in English and German, for our columns."""

from __future__ import annotations

import re
from collections.abc import Mapping

from attrs import Factory, frozen

from teardown_app.domain.bill.materials import plain

Words = Mapping[str, tuple[str, ...]]
"""Our column -> what else it is called."""


def _usual(words: str) -> tuple[str, ...]:
    return tuple(word.strip() for word in words.split("|"))


BILL: Words = {
    "position": _usual(
        "pos | pos no | pos nr | position no | position nr | positionsnummer | positions-nr | "
        "item | item no | item nr | find | find no | find number | find nr | balloon | balloon no"
    ),
    "level": _usual("lvl | bom level | indent | indent level | ebene | stufe | strukturstufe | gliederungsebene"),
    "part_number": _usual(
        "part no | part nr | p/n | part # | article no | article number | item code | material "
        "number | teilenummer | teile-nr | teilnummer | teil-nr | artikelnummer | artikel-nr | "
        "art-nr | sachnummer | sach-nr | identnummer | ident-nr | materialnummer | material-nr"
    ),
    "description": _usual(
        "desc | designation | name | part name | nomenclature | benennung | bezeichnung | "
        "beschreibung | artikelbezeichnung | kurztext"
    ),
    "quantity": _usual(
        "qty | qty per | qty per assembly | qty per assy | qty per next assembly | qty/assy | anz | mge | "
        "quan | menge | anzahl | stückzahl | stk | stück"
    ),
    "unit": _usual(
        "units | uom | u/m | u of m | unit of measure | einheit | me | eh | mengeneinheit | maßeinheit | "
        "basismengeneinheit"
    ),
    "kind": _usual("part kind | kind of part | art | teileart"),
    "material": _usual("mat | matl | mat'l | werkstoff"),
    "route": _usual("routes | routing | arbeitsplan | ablauf"),
    "checks": _usual("check | prüfung | prüfungen"),
    "finish_ra_um": _usual(
        "finish ra | ra | ra um | ra max | ra max um | surface finish ra | surface finish ra um | "
        "roughness ra | roughness ra um | rauheit | rauheit ra | rauheit ra um | oberfläche ra | "
        "oberfläche ra um"
    ),
    "fit_after": _usual(
        "fitted after | install after | assemble after | closes over | montage nach | montieren "
        "nach | einbau nach | einbauen nach"
    ),
    "matched_set": _usual("matched with | matched | match set | paarung | gepaart | gepaarter satz | passsatz"),
    "interchange_group": _usual("interchange | interchangeability group | austauschgruppe | tauschgruppe"),
    "option": _usual("options | variant | variante | ausführung"),
    "joint": _usual("torque | tightening | verbindung | verschraubung | schraubverbindung | anzugsmoment | drehmoment"),
    "renew": _usual("renewal | erneuern | erneuerung"),
    "write_down": _usual("aufschreiben | erfassen | notieren"),
    "ships": _usual("ship | shipping | versand"),
    "hazard": _usual("hazards | danger | gefahr | gefährdung | gefahrenhinweis"),
    "photo": _usual("photos | photograph | foto | fotos"),
}

NEEDED = ("part_number", "quantity")
"""Besides position or level."""

SURE = ("position", "level", "part_number", "quantity", "unit")
"""Columns for which two usual headings are a fault: taking the wrong one would miscount the tool."""

COMPONENTS: Words = {
    "part_number": BILL["part_number"],
    "alternates": _usual("alternate | alternative | alternatives | alternativen | ausweichteil | ausweichteile"),
    "superseded_by": _usual("superseded | replaced by | successor | ersetzt durch | nachfolger"),
    "shelf_life_days": _usual("shelf life | haltbarkeit | haltbarkeit tage"),
    "lead_days": _usual("lead time | lead time days | lieferzeit | lieferzeit tage"),
    "maker_number": _usual(
        "maker no | manufacturer number | manufacturer part number | mpn | mfr p/n | herstellernummer | hersteller-nr"
    ),
}

CALLOUTS: Words = {
    "drawing": _usual("file | zeichnung | datei"),
    "position": (*_usual("line | line or position | zeile"), *BILL["position"]),
    "x": (),
    "y": (),
}

ABOUT: Words = {"key": _usual("name | schlüssel"), "value": _usual("wert")}

LIMIT_KEYS = ("max", "min", "nominal", "tolerance", "fit", "compare", "count", "picture")

CHECK_KEYS = _usual(
    "says | type | limit | values | rule | readings | spots | instrument | when | needs | "
    "outlasts | qualification | given | again"
)

OPERATION_KEYS = _usual(
    "id | says | trade | medium | temperature | time | wait | record | check | spoils | not_with | outside"
)

CHECKS: Words = {"name": _usual("check | prüfung"), **dict.fromkeys((*CHECK_KEYS, *LIMIT_KEYS), ())}

ROUTES: Words = {"name": ("route",), "origin": (), **dict.fromkeys(OPERATION_KEYS, ())}

GATES: Words = {"name": ("gate",), "assemblies": _usual("assembly | baugruppen")}

RECIPES: Words = {"name": _usual("recipe | rezept")}


def plain_heading(text: str) -> str:
    """A heading as it is compared: without case, blank, point, dash, underline; µ as u.

    >>> plain_heading("Find No."), plain_heading("finish_ra_µm"), plain_heading("Part #")
    ('findno', 'finishraum', 'part#')
    """
    return plain(text.replace("µ", "u").replace("μ", "u")) + ("#" if "#" in text else "")


@frozen
class Match:
    """Which of our columns a heading row holds."""

    columns: dict[str, int]
    unknown: dict[int, str] = Factory(dict)
    doubled: dict[str, tuple[str, ...]] = Factory(dict)
    """Our column -> headings of equal rank that all mean it."""
    passed_over: dict[int, str] = Factory(dict)
    """Headings that mean a column which a better one already holds."""


def match(headings: list[str], words: Words, own: Mapping[str, str]) -> Match:
    """Find our columns among headings; `own` is the shop's heading -> our column."""
    ranked: dict[str, dict[int, list[int]]] = {}
    found = Match({})
    known = lookup(words)
    mine = {plain_heading(heading): column for heading, column in own.items() if column in words}
    for index, heading in enumerate(headings):
        bare = plain_heading(heading)
        column = mine.get(bare) or known.get(bare) or known.get(plain_heading(_without_brackets(heading)))
        if column:
            rank = 0 if bare in mine else 1 if bare == plain_heading(column) else 2
            ranked.setdefault(column, {}).setdefault(rank, []).append(index)
        elif heading:
            found.unknown[index] = heading
    for column, ranks in ranked.items():
        _choose(column, ranks, headings, found)
    return found


def _choose(column: str, ranks: dict[int, list[int]], headings: list[str], found: Match) -> None:
    best = ranks[min(ranks)]
    found.columns[column] = best[0]
    if len(best) > 1 and (column in SURE or min(ranks) < 2):
        found.doubled[column] = tuple(headings[index] for index in best)
    later = [index for rank in ranks for index in ranks[rank] if index not in best]
    spare = [] if column in found.doubled else best[1:]
    found.passed_over.update({index: headings[index] for index in (*later, *spare)})


def _without_brackets(heading: str) -> str:
    """`Menge [Stk]` is `Menge`."""
    return re.sub(r"[(\[].*?[)\]]", "", heading)


def lookup(words: Words) -> dict[str, str]:
    """Plain heading -> our column."""
    return {plain_heading(word): column for column, usual in words.items() for word in (column, *usual)}
