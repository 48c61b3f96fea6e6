"""What was read, put where nobody wrote the result: levels from runs, places from ties.

A level or a place that a crew wrote stays as they wrote it; what the readings say against it is
for the checks to tell. Where none is recorded, the readings give it: the value is then held once
for every entry it rests on, and says how it was worked. Nothing that "is none", does not apply or
is not settled is filled in.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace
from decimal import Decimal

from record.facts import Kind
from record.facts.sizes import Measure, PipeLevel
from record.facts.values import Absent, Level, Part, Value, Why
from record.fold import AsBuilt, Held, Thing
from record.place.level_rows import GROUND, Staff
from record.place.levels import LevelPoint, LevelRun, level_runs
from record.place.tied import TiedPoint, tied_points
from record.units import Quantity

Filled = dict[str, dict[str, tuple[Held, ...]]]  # tag → field → what is held


def measured(built: AsBuilt) -> AsBuilt:
    """Return the shelter with the levels and places its readings give where none is written."""
    filled: Filled = {}
    for run in level_runs(built, lambda staff: _wants_level(built, staff)):
        for point in run.points:
            _level(built, run, point, filled)
    for tied in tied_points(built, lambda tag: _wants_place(built, tag)):
        _place(built, tied, filled)
    return _with(built, filled) if filled else built


def _wants_level(built: AsBuilt, staff: Staff) -> bool:
    """Return whether a run has to be reduced at all for what was levelled."""
    thing = thing_of(built, staff.tag)
    name = GROUND if staff.on == GROUND else "level"
    return thing is not None and thing.kind.field(name) is not None and not_written(thing, name)


def _wants_place(built: AsBuilt, tag: str) -> bool:
    thing = thing_of(built, tag)
    # A hull's place is that of one corner, and ties are to any of them.
    if thing is None or thing.kind.word == "hull" or _in_hull(thing):
        return False
    return not_written(thing, "x") and not_written(thing, "y")


def thing_of(built: AsBuilt, tag: str) -> Thing | None:
    """Return the thing, or the part of one, with this tag."""
    whole, slash, key = tag.partition("/")
    thing = built.thing(whole)
    return thing.part(key) if thing is not None and slash else thing


def _level(built: AsBuilt, run: LevelRun, point: LevelPoint, filled: Filled) -> None:
    thing = thing_of(built, point.staff.tag)
    if thing is None or thing.kind.word == "benchmark":
        return
    name = GROUND if point.staff.on == GROUND else "level"
    value = _levelled(thing.kind, name, point)
    if value is not None and not_written(thing, name):
        base = run.benchmark
        shared = None if base is None else (base.thing.tag, base.tolerance_m)
        filled.setdefault(thing.tag, {})[name] = tuple(
            Held(value, entry, point.row.on, point.row.at, run.words, shared)
            for entry in point.entries
        )


def _levelled(kind: Kind, name: str, point: LevelPoint) -> Value | None:
    """Return the value of a field, where the kind has it and it is told what was levelled."""
    field = kind.field(name)
    height = _metres(point.level_m, point.own_m)
    if field is None:
        return None
    if isinstance(field.holds, PipeLevel):
        return Level(Part(point.staff.on), height) if point.staff.on in tuple(Part) else None
    return height if isinstance(field.holds, Measure) else None


def _place(built: AsBuilt, tied: TiedPoint, filled: Filled) -> None:
    thing = thing_of(built, tied.tag) if tied.tag else None
    fix, tolerance = tied.fix, tied.tolerance_m
    if thing is None or fix is None or tolerance is None or thing.kind.field("x") is None:
        return
    for name, metres in (("x", fix.x_m), ("y", fix.y_m)):
        filled.setdefault(thing.tag, {})[name] = tuple(
            Held(_metres(metres, tolerance), entry, tie.tie.on, tie.tie.at, tied.basis)
            for tie in tied.ties
            for entry in tie.entries
        )


def _in_hull(thing: Thing) -> bool:
    written = (thing.si(name) is not None for name in ("from_near", "from_left"))
    return thing.text("hull") is not None and all(written)


def not_written(thing: Thing, name: str) -> bool:
    """Return whether a field holds nothing, or only "not recorded"."""
    held = [one.value for one in thing.held(name)]
    return all(isinstance(value, Absent) and value.why is Why.NOT_RECORDED for value in held)


def _metres(metres: float, tolerance_m: float) -> Quantity:
    """Return a worked length to a tenth of a millimetre, its tolerance rounded up to one."""
    si = Decimal(f"{metres:.4f}").normalize()
    tol = Decimal(math.ceil(tolerance_m * 10_000 - 1e-6)).scaleb(-4).normalize()
    text = f"{metres:.3f} m ± {1000 * tolerance_m:.0f} mm"
    return Quantity(si + 0, "m", text, tol + 0)


def _with(built: AsBuilt, filled: Mapping[str, Mapping[str, tuple[Held, ...]]]) -> AsBuilt:
    def more(thing: Thing) -> Thing:
        fields = {**thing.fields, **filled.get(thing.tag, {})}
        parts = tuple(map(more, thing.parts))
        return replace(thing, fields=fields, parts=parts)

    wholes = {tag.partition("/")[0] for tag in filled}
    things = {tag: more(thing) if tag in wholes else thing for tag, thing in built.things.items()}
    return replace(built, things=things)
