"""A bill without faults that uses every word a bill can have, and small ones that ask something in vain."""

from __future__ import annotations

from pathlib import Path

from teardown_app.intake.bill import Reading, read_bill
from tests.bill.written import folder, lines, materials

_HEAD = (
    "position,level,part_number,description,quantity,unit,kind,material,route,checks,finish_ra_um,fit_after,"
    "matched_set,interchange_group,option,joint,renew,write_down,ships,hazard,photo"
)
_JOINT = (
    "size=M6 class=A4-70 torque_nm=6 tolerance=5 pattern=cross passes=30/70/100 lubricant=anti-seize retighten_h=24 "
    "retighten_heat=yes holds=10.20"
)
_ROWS = (
    "10,1,A,PUMP,1,EA,assembly,,,ready,,,,,,,,serial,,hot,seal.png",
    "10.20,2,B,COVER,1,PR,part,316L,wash;fresh;mend,play;touch;near,0.4,,,spare covers,,,,serial;lot,,,",
    "10.30,2,C,COMB,2,SET,part,PVDF,,,,10.20,combs,,steam,,,,,,",
    f"10.40,2,S,SCREW,8,EA,hardware,A4-70,,,,10.20,,,,{_JOINT},,,,,",
    "10.50,2,D,RING,1,EA,consumable,FKM,,,,10.20,,,,,always,lot,,,",
    "10.51,2,E,RING,1,EA,consumable,FKM,,,,,,,,,if opened,,,,",
    "10.52,2,F,RING,1,EA,consumable,FKM,,,,,,,,,on condition,,,,",
    "10.60,2,G,BRACKET,1,EA,temporary,,,,,,,,,,,,in,,",
    "10.61,2,H,BYPASS,1,EA,temporary,,,,,,,,,,,,out,,",
    "90,1,I,GREASE,,AR,,,,,,,,,,,,,,,",
    "91,1,J,DIAGRAM,,REF,,,,,,,,,,,,,,,",
    *(f"{20 + n},1,M{n},HOSE,2,{unit},consumable,,,,,,,,,,,,,,"
      for n, unit in enumerate(("M", "MM", "CM", "FT", "IN", "KG", "G", "L", "ML"))),
)  # fmt: skip

_CHECKS = """
[play]
says = "Shake it"
type = "runout"
limit = { max = "0.02 mm", min = "0 mm" }
values = "maximum"
rule = "guarded"
readings = 12
spots = 2
instrument = "dial gauge"
when = ["arrival", "as found", "finished", "new"]
needs = ["power", "n2", "water"]
outlasts = ["unpack"]
qualification = "measuring"
again = 24
[touch]
limit = { nominal = "20 mm", tolerance = "0.01 mm" }
rule = "four-way"
type = "heater"
given = ["voltage = 208 V"]
when = ["fitted"]
[near]
limit = { compare = "as found", max = "1 mm" }
when = ["decontaminated", "isolated", "closed up", "power on"]
rule = "simple"
values = "16 %"
[ready]
limit = { picture = true }
when = ["water on", "acceptance runs", "ship"]
[paired]
limit = { compare = "pair" }
[saved]
limit = { compare = "saved value" }
[fit]
limit = { nominal = "20 mm", fit = "H7" }
[counted]
limit = { count = 4 }
"""

_ROUTES = """
[wash]
origin = "as received"
[[wash.operation]]
id = "wash"
says = "Wash"
trade = "clean"
medium = "mild alkaline pH 9"
temperature = "50 °C"
time = "10 min"
wait = 2
record = ["bath"]
check = "play"
spoils = ["play"]
not_with = ["copper alloy"]
outside = true
[fresh]
origin = "new"
[[fresh.operation]]
id = "unpack"
[mend]
origin = "repaired"
[[mend.operation]]
id = "wipe"
"""

FILES = {
    "about": 'model = "M1"\nrevision = "A"\napproved_by = "XY"\n[columns]\n"No" = "position"\n',
    "components": "part_number,alternates,superseded_by,shelf_life_days,lead_days,maker_number\nD,E,F,365,14,x 12\n",
    "checks": _CHECKS,
    "routes": _ROUTES,
    "recipes": "[rinse]\nsteps = [{ a = 1 }]\n",
    "gates": "[decontaminated]\n[isolated]\n['closed up']\nassemblies = ['10']\n['power on']\nneeds = ['10']\n"
    "['water on']\n['acceptance runs']\n[ship]\n",
    "callouts": "drawing,position,x,y\n10.png,10.20,0.5,0.5\n",
    "drawings": "10.png seal.png",
}
BILL = lines(*_ROWS, head=_HEAD)


def every_word(place: Path) -> Reading:
    """The bill that uses every word."""
    return read_bill(folder(place, BILL, **FILES), materials())
