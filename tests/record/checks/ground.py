"""A trench and a seam with nothing missing, as day sheets; each test takes one thing away.

Levels of the air pipe are case 3.7 of the drainage arithmetic: 98.400 down to 98.150 in
12.50 m is 2.000 %; the bend at 5.00 m then lies at 98.400 - 0.02 × 5.00 = 98.300.
"""

from record.checks import ready
from tests.record.building import day, view_of

SITE = """
## site fern-bank

- name: Fern Bank
- datum: bolt in the plinth, 100.000 m
- grid: x east, y north, from the peg

## hull A

- inside length: 9.00 m
- inside width: 2.70 m
- inside height: 2.50 m
- steel thickness: 6 mm
- x: 12.50 m
- y: 1.00 m
- floor level: 96.50 m
- bearing: 90°
- how: level from BM1
"""

TRENCH = """
## run AIR-IN

- at: 11:30
- carries: supply air
- size: 150 mm
- outside diameter: 160 mm
- inside diameter: 152 mm
- material: plastic pipe
- falls to: 3
- least fall: 1 %
- least fall from: engineer
- tracer wire: yes
- marker tape: yes

| station | x [m] | y [m] | invert [m] | ground [m] | how |
|---|---|---|---|---|---|
| 1 terminal foot | 0.00 | 0.00 | 98.400 ± 3 mm | 99.90 | staff, BM1 |
| 2 bend | 5.00 | 0.00 | 98.300 ± 3 mm | 99.90 | staff, BM1 |
| 3 hull A | 12.50 | 0.00 | 98.150 ± 3 mm | 99.90 | staff, BM1 |

![wide, looking east, AIR-IN in the open trench, staff in view](air-wide.jpg)

![close, looking down, bend of AIR-IN, staff in view](air-close.jpg)

## drain DL-1

- serves: AIR-IN
- at station: 3
- discharges: gully in the plant room
- screen: none
- freeze protection: n/a, inside the hull

## valve CV-1

- type: check
- on run: AIR-IN
- at station: 3
- normal position: free
- flow: inward
- reached by: left wall, third board

## covering FILL

- what: backfill
- hides: AIR-IN
- planned: 2031-05-20
"""

SEAM = """
## build-up BU

- side: outside

| layer | material | coats | thickness | least wait | most wait |
|---|---|---|---|---|---|
| 1 primer | seam primer | 1 | n/a, by the can | 1 h | 24 h |
| 2 tar | hot tar | 1 | 2.5 mm | 2 h | 48 h |
| 3 foam | spray foam | 2 | 70 mm | 15 min | 24 h |
| 4 wrap | wrap | 1 | n/a, half-lapped | none | none |

## seam SM

- joins: link to A
- hull: A
- build-up: BU
- sides: east, west

## inspected SM

- at: 07:30
- what: weld all round
- result: passed

## batch M-1

- product: two-part foam
- lots: F-09
- mixed: 13:00
- air: 20 °C
- workable time: 60 min
- last used: 13:50
- used on: SM

## coat applied SM

| layer | coat | started | ended | lot | batch | surface | dew point | film |
|---|---|---|---|---|---|---|---|---|
| primer | 1 | 08:00 | 08:30 | P-1 | none | 14.0 °C | 8.6 °C | none |
| tar | 1 | 10:00 | 10:30 | T-1 | none | 14.0 °C | 8.6 °C | 2.6 mm |
| foam | 1 | 13:05 | 13:20 | F-1 | M-1 | 14.0 °C | 8.6 °C | 35 mm |
| foam | 2 | 13:40 | 13:50 | F-1 | M-1 | 14.0 °C | 8.6 °C | 35 mm |
| wrap | 1 | 15:00 | 15:30 | W-1 | none | 14.0 °C | 8.6 °C | none |

## remark SM

- at: 15:45
- text: wrapped all round

![wide, looking west, SM wrapped, east side, rule in view](sm-east.jpg)

![close, looking east, SM wrapped, west side, rule in view](sm-west.jpg)

![close, looking down, SM wrapped, top, rule in view](sm-top.jpg)

## covering FILL

- what: backfill
- hides: SM
- planned: 2031-05-20
"""

RELEASED = """
## hold released FILL

- at: 16:25
- by: ld
- hold: before FILL
- second: ck
"""

GOES_ON = """
## covered FILL

- at: 16:30
- extent: all of it
"""
COVERED = RELEASED + GOES_ON


def changed(text, *pairs):
    """Return ``text`` with each old line or word put differently; it must stand there once."""
    for old, new in pairs:
        assert text.count(old) == 1, (text.count(old), old)
        text = text.replace(old, new)
    return text


def sheets(blocks, *later, date="2031-05-14", writer="ld"):
    """Return the site's sheet, one of ``blocks``, and any later sheets as they are."""
    return (day("2031-05-13", "ld", SITE), day(date, writer, blocks), *later)


def readiness(blocks, *later, covering="FILL", **how):
    return ready(view_of(*sheets(blocks, *later), **how), covering)


def against(rule, blocks, *later, covering="FILL", **how):
    """Return what is found against one rule, or nothing."""
    found = readiness(blocks, *later, covering=covering, **how).findings
    return [finding for finding in found if finding.rule == rule.RULE.word]


def the_one(rule, blocks, *later, **how):
    [finding] = against(rule, blocks, *later, **how)
    return finding


def handed(rule, *blocks, **how):
    """Return what is found against one handover rule in the site and these blocks."""
    return list(rule.RULE.find(view_of(*sheets("\n\n".join(blocks)), **how)))
