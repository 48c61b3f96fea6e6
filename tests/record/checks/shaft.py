"""A sand-filled shaft at the far end of hull A, with all that hand-over asks of it.

The case of the heap arithmetic: 0.75 × 0.75 × (99.95 - 97.25) = 1.519 m³; bulked by 30 % on a
floor 2.70 m wide it runs out 1.47 m and stands 0.99 m high (worked in the sand sums' own case).
Hull A stands 9.00 m along x from 12.50 m, 2.70 m across from y = 1.00 m to the south.
"""

ROOM = """
## room RM-A

- name: living room
- hull: A
- length: 9.00 m
- width: 2.70 m
- height: 2.15 m
"""

WAY = """
## way out SH-1

- hull: A
- face: far
- x: 21.90 m
- y: -0.35 m
- section along: 0.75 m
- section across: 0.75 m
- fill: dry sand
- fill from: 97.25 m
- fill to: 99.95 m
- top below grade: 0.35 m
- opens: lifts out into the room
- receives fill: RM-A
- keep clear: from the end wall, 1.60 m
"""

DRILL = """
## procedure PR-8

- event: get out
- sign: the door stays shut
- signal word: danger
- danger: running sand buries
- walked by: ow, without opening

| step | do | caution | touches |
|---|---|---|---|
| 1 | Adults only go to the end wall. | none | none |
| 2 | Stand aside and pull the small draw-off. | Never reach under | SH-1 |
"""

MARKS = """
## landmark H1

- what: house corner
- x: 22.00 m
- y: 12.00 m

## landmark H2

- what: house corner
- x: 10.00 m
- y: 12.00 m

## landmark G1

- what: gate pillar
- x: 30.00 m
- y: 0.00 m
"""

#: From 21.90, -0.35: √(0.1² + 12.35²), √(11.9² + 12.35²), √(8.1² + 0.35²).
TIES = """
## position tied SH-1

| landmark | point | distance | side |
|---|---|---|---|
| H1 | middle of the top | 12.350 m | south of the house |
| H2 | middle of the top | 17.150 m | south of the house |
| G1 | middle of the top | 8.108 m | west of the pillar |
"""

SHAFT = ROOM + WAY + DRILL + MARKS + TIES
