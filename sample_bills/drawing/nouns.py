"""Which shape is drawn for a line: the noun at the head of its description, English or German.

The first word that matches wins. Natural size in pixels is for a sheet with room; layout may scale it.
"""

from __future__ import annotations

import re
from collections.abc import Callable

from drawing import (
    bowls,
    boxes,
    clamps,
    electric,
    fasteners,
    guides,
    motors,
    pipes,
    pumps,
    rings,
    sensing,
    sheets,
    turned,
    valves,
)

Shape = Callable[..., None]

WORDS: tuple[tuple[str, Shape, int, int], ...] = (
    # whole assemblies, as the sheet above shows them
    (r"BOWL ASSEMBLY", bowls.bowl, 240, 210),
    (r"DOOR ASSEMBLY", bowls.dome, 220, 130),
    (r"BASE AND FACE PLATE", sheets.face_plate, 300, 126),
    (r"ROTOR AND DRIVE|ROTOR,", bowls.rotor, 220, 170),
    (r"SPINDLE UNIT|LAGERUNG UND ANTRIEB", bowls.spindle_unit, 170, 210),
    (r"PUMP HEAD", pumps.fluid_body, 190, 130),
    (r"DRIVE$", motors.square_motor, 150, 170),
    (r"VALVE, CHECK|CONNECTIONS|VENTIL, RÜCKSCHLAG", valves.check_valve, 150, 66),
    (r"FLUIDS|DI WATER LINE|MEDIENVERSORGUNG|TAFEL", valves.valve_panel, 210, 170),
    (r"NITROGEN LINE", valves.regulator, 150, 150),
    (r"HEAT AND STATIC", sensing.inline_heater, 220, 110),
    (r"CABINET|SCHRANK,|SCHALTSCHRANK|ELEKTRIK UND", boxes.cabinet, 190, 230),
    (r"GESTELL|FRAME|RAHMEN, GESCHW", boxes.frame, 280, 200),
    (r"PROZESSKAMMER|KAMMERKÖRPER|BEHÄLTER, KAMMER", bowls.chamber, 230, 230),
    (r"RAHMEN, KORB|KORB,", bowls.basket, 240, 190),
    (r"DÜSENSTOCK|ROHR, DÜSENSTOCK|MANIFOLD, SPRAY", pipes.spray_pipe, 260, 90),
    (r"TROCKNUNG|GEBLÄSE|VENTILATOR|ABLUFT$", motors.blower, 240, 150),
    (r"BELADEEINHEIT|ACHSE|PROFIL, ACHSE", boxes.profile, 320, 110),
    (r"GREIFER,|FINGER", guides.finger, 130, 120),
    (r"VENTILINSEL|INSEL", valves.valve_island, 260, 110),
    (r"STATION|PLATTE, AUFLAGE", sheets.plate, 260, 100),
    (r"DOSIERUNG|PUMPE, DOSIER", pumps.dosing_pump, 150, 130),
    (r"BEDIENPULT|ANZEIGE", electric.display, 200, 140),
    (r"NOT-HALT|TASTER|BUTTON", electric.e_stop, 100, 110),
    (r"ABLAUF$|ROHR, ABLAUF", pipes.bent_pipe, 130, 150),
    (r"VERKLEIDUNG", sheets.panel, 220, 170),
    (r"TÜR|BLATT", sheets.door_leaf, 180, 200),
    (r"WERKZEUG UND|KOFFER", boxes.tray, 160, 90),
    # fasteners
    (r"SCREW, CAP|SCHRAUBE, ZYL", fasteners.cap_screw, 26, 74),
    (r"SCREW, COUNTERSUNK|SCHRAUBE, SENK", fasteners.countersunk, 28, 62),
    (r"SCREW, HEX|SCHRAUBE, SECHS", fasteners.hex_screw, 32, 78),
    (r"SCREW, BUTTON|SCHRAUBE, LINSEN", fasteners.button_screw, 28, 58),
    (r"NUT, LOCK,|MUTTER, WELLE", rings.lock_nut, 110, 56),
    (r"NUT AND FERR|MUTTER UND", pipes.union, 90, 44),
    (r"NUT|MUTTER", fasteners.hex_nut, 34, 22),
    (r"WASHER, TAB|BLECH, SICHERUNG", rings.tab_washer, 110, 36),
    (r"WASHER|SCHEIBE, M", fasteners.washer, 36, 16),
    (r"RING, RETAINING|SICHERUNGSRING", rings.circlip, 120, 42),
    (r"KEY|PASSFEDER", fasteners.key, 64, 24),
    (r"PIN|ROD", fasteners.pin, 34, 130),
    (r"CLIP|SCHELLE, SCHL|SCHELLE, BAND", clamps.hose_clip, 110, 56),
    (r"CLAMP, HINGED|SCHELLE", clamps.hinged_clamp, 130, 70),
    (r"MOUNT|PUFFER", clamps.rubber_mount, 60, 90),
    (r"FOOT|FUSS", clamps.foot, 70, 110),
    (r"CASTER|ROLLE", clamps.caster, 90, 100),
    (r"SPRING|FEDER", turned.spring, 36, 90),
    (r"HINGE|SCHARNIER", clamps.hinge, 110, 100),
    (r"LATCH|VERSCHLUSS|KLAMMER", clamps.latch, 130, 80),
    (r"GRIFF", clamps.handle, 120, 54),
    # seals
    (r"SEAL, LIP, BOWL|SEAL, LIP|SEAL, SHAFT|DICHTRING, WELLE", rings.lip_seal, 200, 74),
    (r"DICHTRING|FLACHDICHTUNG, BLIND|GASKET|DICHTUNG, FLANSCH|FLACHDICHTUNG", rings.flat_gasket, 130, 40),
    (r"O-RING", rings.o_ring, 150, 60),
    (r"DICHTUNG", sheets.open_frame, 150, 140),
    (r"PROFIL, DICHT", pipes.hose, 180, 60),
    (r"DIAPHRAGM|MEMBRANE", pumps.diaphragm, 170, 64),
    # turned parts
    (r"BOWL", bowls.bowl, 280, 240),
    (r"DOOR", bowls.dome, 280, 130),
    (r"SCHEIBE, SICHT", sheets.pane, 130, 120),
    (r"WINDOW", turned.cylinder, 130, 46),
    (r"RING,|RING ", turned.flange, 200, 72),
    (r"COVER|CAP, ROTOR|PLATE, CLAMP", turned.cover, 150, 74),
    (r"PLATE, BACKING", turned.flange, 190, 74),
    (r"HOUSING, BEARING|GEHÄUSE, LAGER", turned.bearing_housing, 190, 170),
    (r"SPINDLE, TRAP|SPINDEL", motors.screw_spindle, 90, 200),
    (r"SPINDLE|WELLE", turned.shaft, 110, 240),
    (r"BEARING|LAGER", rings.bearing, 130, 110),
    (r"PULLEY|RAD,", turned.pulley, 120, 84),
    (r"BODY, FLUID", pumps.fluid_body, 200, 130),
    (r"BODY, CART", turned.tube, 80, 120),
    (r"SEAT", turned.tube, 70, 40),
    (r"BALL", pumps.ball, 34, 34),
    (r"COUPLING|KUPPLUNG", motors.coupling, 80, 100),
    (r"STERN", motors.star, 90, 56),
    (r"WEIGHT|GEWICHT|KAPPE, ENT", turned.cylinder, 50, 34),
    # fluids
    (r"VALVE, DIAPH|VENTIL, MEMBRAN", valves.diaphragm_valve, 140, 160),
    (r"VALVE, SOL|VENTIL, MAGNET", valves.solenoid, 200, 110),
    (r"VENTIL, HAND", valves.hand_valve, 150, 80),
    (r"VENTIL, SAUG|DROSSEL|KLAPPE, RÜCK", valves.check_valve, 140, 64),
    (r"KLAPPE, ABLAUF", valves.diaphragm_valve, 130, 150),
    (r"KLAPPE", valves.hand_valve, 150, 90),
    (r"MANIFOLD", valves.manifold, 220, 80),
    (r"REGULATOR|DRUCKREGLER|WARTUNG", valves.regulator, 160, 160),
    (r"GAUGE|MANOMETER", valves.gauge, 80, 100),
    (r"HOUSING, FILTER|GEHÄUSE, GASF|GEHÄUSE, FILTER, 10", pumps.filter_housing, 130, 180),
    (r"ELEMENT|KERZE", pumps.element, 70, 150),
    (r"TUBE|ROHR", pipes.tube_run, 240, 90),
    (r"HOSE|SCHLAUCH|MUFFE", pipes.hose, 220, 90),
    (r"TEE|T-ST", pipes.tee, 130, 90),
    (r"UNION", pipes.union, 110, 54),
    (r"CELL|MESSZELLE|MESSER, D", pipes.measuring_body, 140, 130),
    (r"STUTZEN", pipes.stub, 110, 100),
    (r"CAP|KAPPE", pipes.cap, 110, 50),
    (r"DÜSE", pipes.nozzle, 170, 80),
    (r"PUMPE, KREISEL", pumps.centrifugal_pump, 230, 140),
    (r"BEHÄLTER", bowls.tank, 150, 170),
    (r"DECKEL", turned.cover, 150, 70),
    (r"LANZE", sensing.probe, 60, 180),
    (r"ABSCHEIDER", pumps.filter_housing, 140, 170),
    (r"SIEB|PACKUNG", pumps.element, 100, 90),
    # heat, sensing, electric
    (r"HEATER, BLANKET", sensing.blanket, 220, 150),
    (r"HEATER|HEIZREG", sensing.inline_heater, 260, 120),
    (r"HEIZSTAB", sensing.heating_rod, 150, 180),
    (r"SENSOR, TEMP|FÜHLER", sensing.probe, 110, 150),
    (r"CUT-OUT|BEGRENZER", sensing.thermostat, 80, 70),
    (r"SENSOR|LESER", sensing.sensor, 110, 120),
    (r"SWITCH|SCHALTER, TÜR|SCHALTER, DR|WÄCHTER", sensing.switch, 120, 110),
    (r"BAR, ION", electric.bar_ionizer, 300, 80),
    (r"CONTROLLER|STEUERUNG", electric.controller, 200, 140),
    (r"BATTERY|BATTERIE", turned.coin, 70, 40),
    (
        r"DRIVE,|UMRICHTER|VERST|NETZTEIL|RELAIS|SCHÜTZ|BAUGRUPPE, EIN|SCHUTZSCH|SCHALTER, HAUPT",
        electric.drive_unit,
        150,
        130,
    ),
    (r"FAN|LÜFTER", electric.fan, 100, 100),
    (r"MAT,|MATTE|FILTER, SCHW", boxes.filter_mat, 110, 100),
    (r"KABELSATZ|CONDUCTOR|LEITER|LEITUNG|BRÜCKE", electric.cable, 200, 60),
    (r"VERSCHRAUBUNG, K", electric.gland, 44, 70),
    (r"LEUCHTE", electric.lamp, 50, 150),
    (r"BINDER", electric.cable_tie, 80, 70),
    # drives and guides
    (r"MOTOR, STEP|SERVOMOTOR", motors.square_motor, 130, 160),
    (r"GETRIEBE", motors.motor_lying, 200, 110),
    (r"MOTOR", motors.motor, 140, 180),
    (r"BELT|ZAHNRIEMEN", motors.belt, 240, 110),
    (r"SCHIENE|FÜHRUNG, LIN", guides.rail, 280, 90),
    (r"WAGEN", guides.carriage, 180, 70),
    (r"ZYLINDER", guides.cylinder_pneumatic, 230, 60),
    (r"KETTE", guides.chain, 200, 110),
    (r"FALTENBALG", guides.bellows, 180, 70),
    (r"COMB", sheets.comb, 220, 90),
    (r"BAR,|LEISTE", sheets.strip, 240, 70),
    # plate and sheet
    (r"PLATE, FACE", sheets.face_plate, 340, 144),
    (r"PLATE|PLATTE|BLINDPL", sheets.plate, 240, 100),
    (r"PANEL, REAR", sheets.louvred, 190, 190),
    (r"PANEL|BLECH", sheets.panel, 190, 180),
    (r"HAUBE", boxes.box, 240, 110),
    (r"TRAY|WANNE", boxes.tray, 240, 110),
    (r"RAHMEN", sheets.open_frame, 190, 190),
    (r"BRACKET|STÜTZE|SICHERUNG, TR|HAKEN|ARM|AUFNAHME|LEHRE|ZENTR", boxes.bracket, 130, 110),
    (r"KÖRPER|HOUSING|GEHÄUSE", boxes.box, 160, 130),
    (r"POLSTER|BELAG", boxes.box, 60, 40),
    (r"SCHLÜSSEL", fasteners.pin, 24, 100),
    (r"DIAGRAM|SHEET|PLAN|SCHILD", boxes.sheet_of_paper, 70, 90),
    (r"SEALANT|PASTE|GREASE|ANTI|DICHTBAND|FETT", pumps.can, 60, 90),
)
STANDING_ROUND = {
    fasteners.cap_screw,
    fasteners.countersunk,
    fasteners.hex_screw,
    fasteners.button_screw,
    fasteners.hex_nut,
    fasteners.washer,
}
"""Drawn as many as there are, on a bolt circle, when they stand on an axis."""
FLOW = {
    valves.diaphragm_valve: 0.8,
    valves.hand_valve: 0.7,
    valves.check_valve: 0.5,
    pipes.tee: 0.7,
    pipes.measuring_body: 0.78,
    valves.regulator: 0.74,
    pumps.filter_housing: 0.17,
    sensing.inline_heater: 0.62,
    pipes.union: 0.5,
}
"""Where the bore of a shape lies, as a share of its height."""


class NoShapeFor(Exception):
    """No word of the table fits the description."""


def shape_of(description: str) -> tuple[Shape, int, int]:
    """Shape, natural width and height for a description."""
    words = description.lstrip(". ").upper()
    for pattern, shape, w, h in WORDS:
        if re.match(pattern, words):
            return shape, w, h
    raise NoShapeFor(f"no shape for {description!r}: add its noun to drawing/nouns.py")
