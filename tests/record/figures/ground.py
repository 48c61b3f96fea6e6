"""A shelter of which every sum can be fed: two hulls, their pipes, air, doors, sand and paint.

The measures are those of the demo site; the rest (soil, climate, terminals) is made up.
"""

from __future__ import annotations

from tests.record.building import day, view_of

SITE = """
## site fern-bank

- name: Fern Bank
- datum: bolt in the plinth
- grid: x east, y north
- altitude: 1180 m
- people: 8
- able to crank: 4
- mean temperature: 6.5 °C
- amplitude: 11.5 °C
- coldest day: 20 January
- frost depth: 1.10 m
- frost depth from: local building office
- soil moist: 18 kN/m³
- soil saturated: 20 kN/m³
- soil from: engineer
- days planned: 14
- soil conductivity: 1.35 W/mK
- soil dry density: 1600 kg/m³
- soil water: 15 %
- ground surface: turf
- freezing index: 800 °C·d
- freezing days: 110
- freezing from: weather office
"""
NORMALS = "-5 80, -3 78, 1 70, 6 62, 11 60, 15 60, 18 62, 17 64, 12 66, 6 70, 0 76, -4 80"
CLIMATE = "## climate CL-1\n\n- from: weather office\n\n| month | temperature | humidity |\n"
CLIMATE += "|---|---|---|\n" + "\n".join(
    f"| {number} | {pair.split()[0]} °C | {pair.split()[1]} % |"
    for number, pair in enumerate(NORMALS.split(", "), 1)
)
DIP = """
## dip pipe DP-1

- x: 13.00 m
- y: 8.80 m
- alarm level: 47.95 m
- alarm level from: engineer
"""
HULLS = """
## hull A

- inside length: 9.00 m
- inside width: 2.70 m
- inside height: 2.50 m
- steel thickness: 6 mm
- x: 20.00 m
- y: 10.00 m
- floor level: 46.20 m
- bearing: 270°
- how: staff and level
- ground level: 50.00 m
- design cover: 1.20 m
- design cover by: engineer
- mass: 6500 kg
- uplift factor: 1.2
- uplift factor by: engineer

## hull B

- inside length: 4.80 m
- inside width: 2.40 m
- inside height: 2.20 m
- steel thickness: 6 mm
- x: 16.40 m
- y: 8.40 m
- floor level: 46.10 m
- bearing: 180°
- how: staff and level
- ground level: 49.70 m
- design cover: 1.20 m
- design cover by: engineer
- mass: 3300 kg
"""
BUILD_UPS = """
## build-up BU-SEAM

- side: outside

| layer | material | coats | thickness |
|---|---|---|---|
| 1 tar | hot tar | 1 | 2.5 mm |

## build-up BU-WALL

- side: inside
- from: maker's sheet

| layer | material | coats | thickness | solids | yield |
|---|---|---|---|---|---|
| 1 board | cement board | 1 | 12 mm | n/a, no paint | n/a, no paint |
| 2 epoxy | wall epoxy | 2 | 0.30 mm | 98 % | 85 % |
| 3 foam | closed foam | 1 | 90 mm | n/a, no paint | n/a, no paint |

## lot L-BOARD

- number: B-9
- product: cement board
- conductivity: 0.25 W/mK
- conductivity from: maker

## lot L-FOAM

- number: F-2
- product: closed foam
- conductivity: 0.025 W/mK
- conductivity from: maker, aged
"""
ROOM = """
## room RM-A

- name: living room
- hull: A
- length: 9.00 m
- width: 2.70 m
- height: 2.50 m
- build-up: BU-WALL
- design temperature: 20 °C
- design humidity: 70 %
- design climate from: engineer

## panel P-1

- hull: A
- face: left
- from near: 0.00 m
- bottom: 46.55 m
- width: 6.00 m
- height: 2.00 m
- thickness: 12 mm
- packing thickness: 90 mm

## panel P-2

- hull: A
- face: right
- from near: 0.00 m
- bottom: 46.55 m
- width: 4.00 m
- height: 2.00 m
- thickness: 12 mm
- packing thickness: 90 mm
"""
RUNS = """
## run AIR-IN

- carries: supply air
- outside diameter: 160 mm
- inside diameter: 152 mm
- material: plastic pipe, wall 4 mm
- falls to: 3
- pipe length: 12.60 m
- terminal level: 50.45 m

| station | x | y | level | ground | how |
|---|---|---|---|---|---|
| 1 foot | 27.00 m | 2.00 m | invert 47.850 m | 49.45 m | staff and level |
| 2 bend | 24.00 m | 6.00 m | crown 47.906 m | 49.55 m | staff and level |
| 3 hull B | 16.40 m | 6.00 m | invert 47.598 m | 49.70 m | staff and level |

## run AIR-OUT

- carries: exhaust air
- outside diameter: 160 mm
- inside diameter: 152 mm
- material: plastic pipe, wall 4 mm
- falls to: 2
- pipe length: 5.00 m
- terminal level: 50.85 m

| station | x | y | level | ground | how |
|---|---|---|---|---|---|
| 1 hull A | 11.00 m | 12.30 m | invert 47.900 m | 50.00 m | staff and level |
| 2 foot | 8.00 m | 16.30 m | invert 47.800 m | 49.95 m | staff and level |

## run D-1

- carries: condensate
- size: 50 mm
- outside diameter: 54 mm
- inside diameter: 50 mm
- falls to: 2
- least fall: 1/4 in/ft
- least fall from: the contractor

| station | x | y | level | ground | how |
|---|---|---|---|---|---|
| 1 hull B | 16.40 m | 4.40 m | crown 47.454 m | 49.70 m | staff and level |
| 2 outfall | 22.40 m | -3.60 m | crown 47.204 m | 47.45 m | staff and level |
"""
FITTINGS = """
## fitting F-1

- type: bend
- on run: AIR-IN
- at station: 2
- loss coefficient: 0.15
- loss coefficient from: maker

## fitting F-2

- type: terminal
- on run: AIR-IN
- at station: 1
- loss coefficient: 1.1

## fitting F-3

- type: coupling
- on run: AIR-IN

## valve OV-1

- type: overpressure
- on run: AIR-OUT
- hull: A
- opens at: 60 Pa
- rated flow: 108 m³/h
- pressure at rated flow: 20 Pa

## insulation IN-1

- on run: AIR-IN
- from station: 2
- to station: 3
- order: 1
- material: closed foam
- thickness: 25 mm
- conductivity: 0.035 W/mK
- conductivity from: maker

## drain DR-9

- serves: AIR-IN
- at station: 3
- discharges: to D-1
- trap: water seal, 100 mm
- seal margin: 25 mm
- seal margin from: engineer

## run AIR-B1

- carries: spare
- inside diameter: 152 mm
- material: plastic pipe
- pipe length: 4.00 m
- branch of: AIR-T
- design flow: 60 m³/h
- design flow by: engineer

## run AIR-T

- carries: spare
- inside diameter: 203 mm
- material: plastic pipe
- pipe length: 3.00 m
"""
OPENINGS = """
## opening OP-2

- hull: A
- face: left
- from near: 4.40 m
- bottom: 46.25 m
- width: 0.80 m
- height: 1.90 m
- leads to: link, then B
"""
MACHINES = """
## equipment AU-1

- type: air unit
- hull: B
- flow: 100 m³/h
- pressure at flow: 255 Pa
- looks like: grey drum

| point | flow | pressure |
|---|---|---|
| 1 shut | 0 m³/h | 440 Pa |
| 2 plate | 100 m³/h | 283 Pa |
| 3 free | 130 m³/h | 133 Pa |

## equipment FL-1

- type: filter set
- part of: AU-1
- hull: B
- flow: 100 m³/h
- pressure at flow: 190 Pa

## equipment HC-1

- type: hand crank
- part of: AU-1
- hull: B
- crank rate: 45 rev/min
- crank radius: 200 mm

## equipment DR-1

- type: door
- hull: A
- across: 0.80 m
- height: 1.90 m
- handle from latch edge: 70 mm

## landmark DRIVE

- what: edge of the drive
- x: 30.00 m
- y: 2.00 m
- level: 49.45 m
"""
SAND = """
## way out SH-1

- hull: A
- section along: 0.75 m
- section across: 0.75 m
- fill: dry sand
- fill from: 46.95 m
- fill to: 49.65 m
- opens: lifts out
- receives fill: RM-A
- keep clear: from the end wall to the third joint, 1.60 m
- hatch width: 0.25 m
- hatch height: 0.25 m
- grain size: 0.5 mm

## store S-1

- hull: A

| item | what | count | each |
|---|---|---|---|
| 1 water | drinking water, sealed drums | 8 | 20 L |
| 2 bar | wrecking bar | 1 | 0.90 m |
"""
LOOKED = """
## coating inspected A

- what: tar on the crown
- area: crown
- preparation: blasted
- profile: 75 µm
- air: 20 °C
- surface: 20 °C
- dew point: 8 °C
- humidity: 45 %
- batches: none
- film: 2.6 mm
- film readings: 8, 9, 8.5 mil; 9, 9, 9 mil; 7, 8, 8 mil; 9, 10, 9 mil; 8, 8, 9 mil
- holiday voltage: 12 kV
- criterion: 8 to 12 mil
- criterion from: engineer
- result: passed
- instrument: gauge
- calibrated: 2031-05-01
- retest of: none
"""
COVERS = """
## cover measured A

| point | cover | how |
|---|---|---|
| C1 | 1.300 m | rod |
| C3 | 1.280 m | rod |

## cover measured B

| point | cover | how |
|---|---|---|
| C6 | 1.390 m | rod |

## reading taken DP-1

- what: water level
- reading: 45.96 m

## tested AU-1

- test: fan flow by motor
- result: passed
- reading: 104 m³/h at the grille
- limit: 100 m³/h
- instrument: vane meter

## tested A

- test: tightness
- result: passed
- reading: 12 m³/h at 60 Pa
- limit: 20 m³/h
- instrument: orifice

## tested B

- test: tightness
- result: passed
- reading: 9 m³/h at 60 Pa
- limit: 20 m³/h
- instrument: orifice
"""
MARKS = """
## landmark H1

- what: house corner
- x: 10.00 m
- y: 20.00 m

## landmark H2

- what: house corner
- x: 22.00 m
- y: 20.00 m

## landmark W1

- what: well head
- x: 30.50 m
- y: 14.00 m

## benchmark BM1

- what: bolt
- level: 50.000 m

## benchmark BM2

- what: gate pillar
- level: 50.412 m
"""
MEASURED = """
## levelled

| point | backsight | intermediate | foresight | distance |
|---|---|---|---|---|
| BM1 | 1.432 m | none | none | 15 m |
| T1 | none | 3.426 m | none | none |
| T2 | none | 3.526 m | none | none |
| T3 | none | 3.678 m | none | none |
| BM2 | none | none | 1.018 m | 45 m |

## position tied AIR-IN

| landmark | point | distance |
|---|---|---|
| H2 | 2 | 14.142 m |
| W1 | 2 | 10.308 m |
| H1 | 2 | 19.799 m |
"""
BATCHES = """
## batch M-1

- product: wall epoxy
- lots: E-501
- mixed: 13:05
- air: 31 °C
- workable time: 30 min
- workable time at: 30 °C
- last used: 13:50
- volume: 2.5 L
- used on: P-1

## batch M-2

- product: wall epoxy
- lots: E-501
- mixed: 13:40
- air: 30 °C
- workable time: 30 min
- workable time at: 30 °C
- last used: 14:06
- volume: 2.5 L
- used on: P-2

## coat applied RM-A

| layer | coat | started | lot | batch | used | air | humidity | surface |
|---|---|---|---|---|---|---|---|---|
| epoxy | 1 | 13:10 | E-501 | M-1 | 2.0 L | 25 °C | 60 % | 22 °C |
| epoxy | 1 | 13:43 | E-501 | M-2 | 1.7 L | none | none | none |
"""
PLAN = day(
    "2031-05-01",
    "of",
    SITE,
    CLIMATE,
    DIP,
    HULLS,
    BUILD_UPS,
    ROOM,
    MACHINES,
    RUNS,
    FITTINGS,
    OPENINGS,
    MARKS,
)
OWNERS = day("2031-05-01", "ow", SAND)
BUILT = day("2031-05-14", "ld", BATCHES, COVERS, MEASURED, LOOKED)


def shelter(*later: str, reader: str = "owner"):
    """Return what a reader sees of the shelter, with later day sheets of blocks."""
    sheets = [day("2031-06-01", "ld", block, part=f"p{n}") for n, block in enumerate(later)]
    return view_of(PLAN, OWNERS, BUILT, *sheets, reader=reader)


def one(found, name: str, about: str, what: str = ""):
    """Return the one figure of that sum and thing whose ``what`` begins so."""
    [worked] = [
        each for each in found
        if (each.name, each.about) == (name, about) and each.what.startswith(what)
    ]  # fmt: skip
    return worked
