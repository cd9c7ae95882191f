"""Headings of tables: the usual words, in English and German, for our columns."""

from __future__ import annotations

from collections.abc import Mapping

from attrs import Factory, frozen

from teardown_app.domain.materials import plain

BILL: dict[str, tuple[str, ...]] = {
    "position": (
        "pos", "pos no", "pos nr", "position no", "position nr", "positionsnummer", "positions-nr", "item", "item no", "item nr",
        "find", "find no", "find number", "find nr", "balloon", "balloon no",
    ),
    "level": ("lvl", "bom level", "indent", "indent level", "ebene", "stufe", "strukturstufe", "gliederungsebene"),
    "part_number": (
        "part no", "part nr", "p/n", "part #", "article no", "article number", "item code", "material number", "teilenummer",
        "teile-nr", "teilnummer", "teil-nr", "artikelnummer", "artikel-nr", "art-nr", "sachnummer", "sach-nr", "identnummer",
        "ident-nr", "materialnummer", "material-nr",
    ),
    "description": (
        "desc", "designation", "name", "part name", "nomenclature", "benennung", "bezeichnung", "beschreibung",
        "artikelbezeichnung", "kurztext",
    ),
    "quantity": (
        "qty", "qty per", "qty per assembly", "qty per assy", "qty per next assembly", "qty/assy", "quan", "menge", "anzahl",
        "stückzahl", "stk", "stück",
    ),
    "unit": (
        "units", "uom", "u/m", "unit of measure", "einheit", "me", "eh", "mengeneinheit", "maßeinheit", "basismengeneinheit",
    ),
    "kind": ("part kind", "kind of part", "art", "teileart"),
    "material": ("mat", "matl", "mat'l", "werkstoff"),
    "route": ("routes", "routing", "arbeitsplan", "ablauf"),
    "checks": ("check", "prüfung", "prüfungen"),
    "finish_ra_um": (
        "finish ra", "ra", "ra um", "ra max", "ra max um", "surface finish ra", "surface finish ra um", "roughness ra",
        "roughness ra um", "rauheit", "rauheit ra", "rauheit ra um", "oberfläche ra", "oberfläche ra um",
    ),
    "fit_after": (
        "fitted after", "install after", "assemble after", "closes over", "montage nach", "montieren nach", "einbau nach",
        "einbauen nach",
    ),
    "matched_set": ("matched with", "matched", "match set", "paarung", "gepaart", "gepaarter satz", "passsatz"),
    "interchange_group": ("interchange", "interchangeability group", "austauschgruppe", "tauschgruppe"),
    "option": ("options", "variant", "variante", "ausführung"),
    "joint": ("torque", "tightening", "verbindung", "verschraubung", "schraubverbindung", "anzugsmoment", "drehmoment"),
    "renew": ("renewal", "erneuern", "erneuerung"),
    "write_down": ("aufschreiben", "erfassen", "notieren"),
    "ships": ("ship", "shipping", "versand"),
    "hazard": ("hazards", "danger", "gefahr", "gefährdung", "gefahrenhinweis"),
    "photo": ("photos", "photograph", "foto", "fotos"),
}
"""Our columns of the bill, and what else they are called."""

NEEDED = ("part_number", "quantity")
"""Besides position or level."""

SURE = ("position", "level", "part_number", "quantity", "unit")
"""Columns for which two usual headings are a fault: taking the wrong one would miscount the tool."""

COMPONENTS: dict[str, tuple[str, ...]] = {
    "part_number": BILL["part_number"],
    "alternates": ("alternate", "alternative", "alternatives", "alternativen", "ausweichteil", "ausweichteile"),
    "superseded_by": ("superseded", "replaced by", "successor", "ersetzt durch", "nachfolger"),
    "shelf_life_days": ("shelf life", "haltbarkeit", "haltbarkeit tage"),
    "lead_days": ("lead time", "lead time days", "lieferzeit", "lieferzeit tage"),
    "maker_number": (
        "maker no", "manufacturer number", "manufacturer part number", "mpn", "mfr p/n", "herstellernummer", "hersteller-nr",
    ),
}

CALLOUTS: dict[str, tuple[str, ...]] = {
    "drawing": ("file", "zeichnung", "datei"),
    "position": ("line", "line or position", "zeile", *BILL["position"]),
    "x": (),
    "y": (),
}

ABOUT: dict[str, tuple[str, ...]] = {"key": ("name", "schlüssel"), "value": ("wert",)}

LIMIT_KEYS = ("max", "min", "nominal", "tolerance", "fit", "compare", "count", "picture")

CHECK_KEYS = (
    "says", "type", "limit", "values", "rule", "readings", "spots", "instrument", "when", "needs", "outlasts", "qualification",
)  # fmt: skip

OPERATION_KEYS = (
    "id", "says", "trade", "medium", "temperature", "time", "wait", "record", "check", "spoils", "not_with", "outside",
)  # fmt: skip

CHECKS: dict[str, tuple[str, ...]] = {
    "name": ("check", "prüfung"),
    **dict.fromkeys((*CHECK_KEYS, *LIMIT_KEYS), ()),
}

ROUTES: dict[str, tuple[str, ...]] = {"name": ("route",), "origin": (), **dict.fromkeys(OPERATION_KEYS, ())}

GATES: dict[str, tuple[str, ...]] = {"name": ("gate",), "assemblies": ("assembly", "baugruppen")}

RECIPES: dict[str, tuple[str, ...]] = {"name": ("recipe", "rezept")}


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


def match(
    headings: list[str], words: Mapping[str, tuple[str, ...]], own: Mapping[str, str]
) -> Match:
    """Find our columns among headings; `own` is the shop's heading -> our column."""
    ranked: dict[str, dict[int, list[int]]] = {}
    found = Match({})
    known = lookup(words)
    mine = {plain_heading(heading): column for heading, column in own.items() if column in words}
    for index, heading in enumerate(headings):
        bare = plain_heading(heading)
        column = mine.get(bare) or known.get(bare)
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


def lookup(words: Mapping[str, tuple[str, ...]]) -> dict[str, str]:
    """Plain heading -> our column."""
    return {plain_heading(word): column for column, usual in words.items() for word in (column, *usual)}
