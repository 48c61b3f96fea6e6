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
"""
ROOM = """
## room RM-A

- name: living room
- hull: A
- length: 9.00 m
- width: 2.70 m
- build-up: BU-WALL

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
- opens at: 60 Pa
"""
MACHINES = """
## equipment AU-1

- type: air unit
- hull: B
- flow: 100 m³/h
- pressure at flow: 255 Pa
- looks like: grey drum

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

## store S-1

- hull: A

| item | what | count | each |
|---|---|---|---|
| 1 water | drinking water, sealed drums | 8 | 20 L |
| 2 bar | wrecking bar | 1 | 0.90 m |
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

| layer | coat | started | lot | batch | used |
|---|---|---|---|---|---|
| epoxy | 1 | 13:10 | E-501 | M-1 | 2.0 L |
| epoxy | 1 | 13:43 | E-501 | M-2 | 1.7 L |
"""
PLAN = day("2031-05-01", "of", SITE, CLIMATE, DIP, HULLS, BUILD_UPS, ROOM, MACHINES, RUNS, FITTINGS)
OWNERS = day("2031-05-01", "ow", SAND)
BUILT = day("2031-05-14", "ld", BATCHES, COVERS)


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
