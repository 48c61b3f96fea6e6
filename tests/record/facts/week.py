"""One invented day that uses every kind there is for hulls, runs, lots and forms, and posts clean.

Hull A: inside 6.00 × 3.00 × 2.50 m, plate 10 mm, corner at x 100, y 200, level 50, looking east:
x = 100 + a and y = 200 − l. The conduit C-1 runs along the left wall, a 1.00 to 4.00 m, behind
the panel P-1 (a 2.00 to 3.20 m, level 50.50 to 51.50 m).
"""

from tests.record.answers.shelter import SITE, hull, panel, run, sheet

PENETRATION = """
## penetration PN-1

- hull: A
- face: left
- from near: 2.60 m
- level: 51.00 m
- how: tape
- size: 110 mm
- passes: two cables
- carries: C-1
- spare: no
- sleeve: steel, welded all round
- sleeve size: 125 mm
- sleeve length: 300 mm
- sealed inside: gland and sealer
- sealed outside: wrap
- sealed at: both ends
- maker's part: SL-110
- lot: HN-4471
- seal lot: SE-9
- installed: 2031-05-14
"""
OPENING = """
## opening OP-1

- hull: A
- face: near
- from left: 1.00 m
- bottom: 50.20 m
- width: 0.90 m
- height: 1.90 m
"""
DOOR = """
## door DR-1

- type: sliding door
- in: OP-1
- width: 0.95 m
- height: 1.95 m
- thickness: 60 mm
- weight: 140 kg
- hinge side: none
- swing: slides
- seal: bulb seal, all round
- latch: lever, both sides
- release from inside: lever
- stops: two, bolted to the floor
- force to open: 90 N
- lot: DL-2
"""
CONCEALED = """
## concealed entry CE-1

- hull: A
- face: right
- from near: 4.50 m
- bottom: 50.20 m
- width: 0.70 m
- height: 1.20 m
- leads to: the long room
- hidden by: a shelf
- opens: lift the shelf, then pull
- swing: inward
- release from inside: push bar
"""
ENDS = [("1", "101.00", "199.90", "51.00", "20 mm"), ("2", "104.00", "199.90", "51.00", "20 mm")]
CONDUIT = run("C-1", ENDS, carries="power", outside_diameter="32 mm", lot="CO-5")
CABLE = """
## cable CB-1

- what: feed of the air unit
- in run: C-1
- carries: power
- cores: 3
- core size: 2.5 mm²
- from: board of the plant room
- to: air unit
- voltage: 230 V
- breaker: 7
- breaker rating: 16 A
- breaker at: board of the plant room
- isolates: A
- draw cord left: yes
- lot: CA-88
"""
FITTING = """
## fitting FT-1

- type: bend
- on run: C-1
- at station: 2
- angle: 90°
- radius: 200 mm
- size: 32 mm
- loss coefficient: 0.35
- loss coefficient from: maker's sheet
- maker's part: B-90
- lot: CO-5
"""
INSULATION = """
## insulation IN-1

- on run: C-1
- from station: 1
- to station: 2
- order: 1
- material: closed foam
- thickness: 13 mm
- conductivity: 0.036 W/(m K)
- lot: IF-3

## insulation IN-2

- on run: C-1
- from station: 1
- to station: 2
- order: 2
- material: closed foam
- thickness: 19 mm
- lot: IF-4
"""
MARKER = """
## marker MK-1

- type: tracer wire
- follows: C-1
- from station: 1
- to station: 2
- above pipe: 0.30 m
- below grade: not recorded
- comes up at: the plant room board
- continuity tested: yes, 1.2 ohm end to end
- lot: none
"""
LOT = """
## lot HN-4471

- number: 4471
- product: seamless pipe
- type: steel
- maker's part: SP-110
- made: 2030-11-02
- received: 2031-05-02
- expires: n/a, steel
- certificate: mill sheet 4471, kept in the office
- used on: PN-1
"""
BATCH = """
## batch M-1

- product: two-part sealer
- lots: SE-9, SE-10
- mixed: 09:40
- air: 16 °C
- workable time: 40 min
- last used: 10:10
- components: base and hardener
- mixing ratio: 4 to 1 by volume
- mixing ratio from: the can
- stands before use: 5 min
- used on: PN-1
"""
SEAM = """
## seam SM-1

- joins: sleeve to plate
- hull: A
- face: left
- from near: 2.54 m
- bottom: 50.94 m
- width: 0.12 m
- height: 0.12 m
- build-up: none
- procedure: WP-2
- filler lot: FW-12
"""
WELD = """
## weld inspected SM-1

- at: {at}
- weld: sleeve to plate, all round
- procedure: WP-2
- welder: ph
- filler: solid wire
- filler lots: FW-12
- method: by eye and dye
- criterion: no crack, no pinhole
- criterion from: engineer
- result: {result}
- instrument: dye, red and white
- calibrated: n/a, a dye
- retest of: {retest}
- reading: {reading}
- repair: {repair}
"""
FAILED = WELD.format(
    at="07:10", result="failed", retest="none", reading="one pinhole, top", repair="see below"
)
PASSED = WELD.format(
    at="08:30", result="passed", retest="07:10", reading="nothing shows", repair="ground, rewelded"
)
REPAIRED = """
## repaired SM-1

- at: 07:50
- what: pinhole, top
- how: ground out and welded again
- repair of: 07:10
- lots: FW-12
- batches: none
"""
COATING = """
## coating inspected SM-1

- at: 11:00
- what: primer
- area: weld and 100 mm round it
- preparation: Sa 2½
- profile: 60 µm
- air: 16 °C
- surface: 14 °C
- dew point: 8 °C
- humidity: 60 %
- batches: M-1
- film: 240 µm
- film readings: 230, 240, 250
- holiday voltage: n/a, swept after the last coat
- criterion: 200 µm at least
- criterion from: the can
- result: passed
- instrument: film gauge F-3
- calibrated: 2031-05-01
- retest of: none
"""
HOLIDAY = """
## holiday tested SM-1

- at: 15:00
- test: pinholes of the coat
- area: weld and 100 mm round it
- film: 500 µm
- holiday voltage: 2.8 kV
- voltage from: engineer
- holidays: 0
- where found: none
- criterion: none
- criterion from: engineer
- result: passed
- instrument: sweep H-1
- calibrated: 2031-03-01
- retest of: none
"""
COMPACTION = """
## compaction tested A

- at: 16:00
- lift: 3, left side
- point: a 3.00, 1.00 m off the wall
- depth: 0.30 m
- method: sand replacement
- reference density: 1950 kg/m³
- reference from: laboratory sheet 12
- dry density: 1870 kg/m³
- moisture: 11 %
- degree: 95.9 %
- criterion: 95 %
- criterion from: engineer
- result: passed
- instrument: sand cone
- calibrated: 2031-05-10
- retest of: none
"""
PRESSURE = """
## pressure tested C-1

- at: 13:00
- test: tightness of the conduit
- medium: air
- pressure: 5 kPa
- pressure after: 4.9 kPa
- duration: 15 min
- leakage: 0.1 kPa in 15 min
- flushing: n/a, a conduit
- left in service: n/a, cables come later
- witnesses: gc
- criterion: at most 0.2 kPa in 15 min
- criterion from: engineer
- result: passed
- instrument: gauge G-2
- calibrated: 2031-01-10
- retest of: none
"""
FLOW = """
## flow tested A

- at: 14:00
- test: supply air at the terminal
- point: terminal, grille off
- flow: 92 m³/h
- pressure difference: 48 Pa
- setting: motor, step 2
- air: 14 °C
- criterion: 90 m³/h
- criterion from: engineer
- result: passed
- instrument: vane meter V-1
- calibrated: 2031-02-01
- retest of: none
"""
THINGS = (PENETRATION, OPENING, DOOR, CONCEALED, CONDUIT, CABLE, FITTING, INSULATION, MARKER, LOT)
FORMS = (SEAM, BATCH, FAILED, REPAIRED, PASSED, COATING, HOLIDAY, COMPACTION, PRESSURE, FLOW)


def whole_day():
    """Return the sheet: "did" and "saw" stand for every block of it."""
    text = sheet(SITE, hull(), panel(room="none"), *FORMS[:1], CONDUIT, *THINGS[:4],
                 *THINGS[5:], *FORMS[1:])  # fmt: skip
    return text.replace(
        "- site: fern-bank", "- site: fern-bank\n- zone: America/Denver\n- did: ph\n- saw: ck", 1
    )
