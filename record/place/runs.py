"""A run's stations → chainages, levels of every part of the pipe, and how sure they are."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from record.facts.values import Absent, Level, Part, Why
from record.fold import Thing
from record.place.accuracy import Accuracy, accuracy
from record.place.frames import HullFrame, Vector

INSULATION_M = 0.05  # round a run, where it is not recorded whether there is any, or how thick


@dataclass(frozen=True, slots=True)
class PlacedStation:
    """
    One station on the site grid, metres. None is "not recorded", never zero.

    ``hull`` names the frame it was measured in ("" is the site grid). Levels are of the
    inside bottom (invert), the axis, and the outside top (crown).
    """

    key: str
    name: str
    x: float | None
    y: float | None
    hull: str
    chainage_m: float | None
    invert_m: float | None
    centre_m: float | None
    crown_m: float | None
    ground_m: float | None
    accuracy: Accuracy
    thing: Thing

    @property
    def cover_m(self) -> float | None:
        """Ground to the outside top of the pipe."""
        if self.ground_m is None or self.crown_m is None:
            return None
        return self.ground_m - self.crown_m

    def point(self) -> Vector | None:
        """Return the axis on the site grid, where all three measures are there."""
        if self.x is None or self.y is None or self.centre_m is None:
            return None
        return (self.x, self.y, self.centre_m)


def outside_radius_m(run: Thing) -> tuple[float, bool]:
    """Return the greatest outside radius, insulation included, and whether it is assumed."""
    bare, assumed = bare_radius_m(run)
    insulation, guessed = _insulation_m(run)
    return bare + insulation, assumed or guessed


def bare_radius_m(run: Thing) -> tuple[float, bool]:
    """Return the outside radius of the pipe alone, and whether it is assumed."""
    outside, size = run.si("outside_diameter"), run.si("size")
    if outside is not None:
        return float(outside) / 2, False
    if size is not None:
        # Nominal sizes run below the outside: 1/2 in pipe is 21.3 mm across (ASME B36.10).
        return (float(size) * 1.15 + 0.010) / 2, True
    return 0.15, True


def _insulation_m(run: Thing) -> tuple[float, bool]:
    """Return the thickness of a run's insulation, and whether it is assumed."""
    measured = run.si("insulation_thickness")
    if measured is not None:
        return float(measured), False
    for name in ("insulation_thickness", "insulation"):
        value = run.value(name)
        if isinstance(value, Absent) and value.why in (Why.NONE, Why.NOT_APPLICABLE):
            return 0.0, False
    return INSULATION_M, True


def stations(run: Thing, hulls: Mapping[str, HullFrame]) -> tuple[PlacedStation, ...]:
    """
    Return a run's stations in their order, with chainage along the plan from the first.

    A chainage is None from the first station on whose place is not recorded.
    """
    placed: list[PlacedStation] = []
    before: tuple[float, float] | None = None
    chainage: float | None = 0.0
    for part in run.parts:
        x, y, hull = _plan(part, hulls)
        if x is None or y is None:
            chainage = None
        elif before is not None and chainage is not None:
            chainage += math.dist(before, (x, y))
        before = (x, y) if x is not None and y is not None else None
        invert, centre, crown = _levels(run, part)
        ground = part.si("ground")
        name = part.text("station") or part.key
        placed.append(
            PlacedStation(
                key=part.key,
                name=name.partition(" ")[2] or name,
                x=x,
                y=y,
                hull=hull,
                chainage_m=chainage,
                invert_m=invert,
                centre_m=centre,
                crown_m=crown,
                ground_m=None if ground is None else float(ground),
                accuracy=accuracy(part),
                thing=part,
            )
        )
    return tuple(placed)


def _plan(part: Thing, hulls: Mapping[str, HullFrame]) -> tuple[float | None, float | None, str]:
    hull = part.text("hull")
    if hull and hull in hulls:
        a, across = part.si("from_near"), part.si("from_left")
        if a is not None and across is not None:
            x, y, _ = hulls[hull].to_site(float(a), float(across), 0.0)
            return x, y, hull
    grid_x, grid_y = part.si("x"), part.si("y")
    if grid_x is None or grid_y is None:
        return None, None, ""
    return float(grid_x), float(grid_y), ""


def _levels(run: Thing, part: Thing) -> tuple[float | None, float | None, float | None]:
    """Return invert, centre and crown, each worked from the one level that was taken."""
    level = part.value("level")
    if not isinstance(level, Level):
        return None, None, None
    taken = float(level.height.si)
    outside, inside = run.si("outside_diameter"), run.si("inside_diameter")
    if outside is None:
        return (
            taken if level.part is Part.INVERT else None,
            taken if level.part is Part.CENTRE else None,
            taken if level.part is Part.CROWN else None,
        )
    radius = float(outside) / 2
    bore = None if inside is None else float(inside) / 2
    if level.part is Part.INVERT:
        centre = None if bore is None else taken + bore
    elif level.part is Part.CROWN:
        centre = taken - radius
    else:
        centre = taken
    if centre is None:
        return taken, None, None
    return (None if bore is None else centre - bore), centre, centre + radius
