"""Earth over a hull: the least measured cover against its design, and the most it weighs."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from record.figures.feeding import field, lacks, nothing
from record.figures.of_hulls import Read, readings, roof, soil
from record.figures.worked import Fed, Missing, Part, Worked, work
from record.fold import Happening, Thing
from record.readers import View
from record.words import tell


def of_cover(view: View) -> Iterator[Worked]:
    for hull in view.built.of_kind("hull"):
        points = newest(view, hull)
        notes = (tell("figures.design_cover_by", design_cover_by=hull.words("design_cover_by")),)
        parts = (*map(_point, points), *_none(hull, points), field(hull, "design_cover", "design"))
        yield work("cover", hull.tag, parts, notes=notes)


def newest(view: View, hull: Thing) -> tuple[Happening, ...]:
    """Return the newest measuring of cover at every point of a hull, by the point's name."""
    found: dict[str, Happening] = {}
    for one in view.built.about(hull.tag, "cover measured"):
        if one.about == hull.tag:
            found[one.words("point").casefold()] = one
    return tuple(found.values())


def _point(one: Happening) -> Fed | Missing:
    return field(one, "cover", "point", how=f"{one.words('point')}, {one.on}")


def _none(hull: Thing, points: tuple[Happening, ...]) -> Iterator[Missing]:
    if not points:
        tag = hull.tag
        yield nothing(
            tell("figures.measured_cover_hull", tag=tag),
            tell("figures.cover_measured_point_by", tag=tag),
        )


def of_cover_load(view: View) -> Iterator[Worked]:
    """Yield the weight of the earth at the deepest measured point of every hull."""
    for hull in view.built.of_kind("hull"):
        points = newest(view, hull)
        parts = (*_none(hull, points), *_layer(view, points), *_water(view, hull))
        notes = (tell("figures.one_soil_all_way"), *_dry(view, hull))
        yield work("cover-load", hull.tag, parts, notes=notes)


def _layer(view: View, points: tuple[Happening, ...]) -> Iterator[Fed | Missing]:
    weights = soil(view)
    missing = [one for one in weights if isinstance(one, Missing)]
    missing += [lacks(one, "cover") for one in points if one.si("cover") is None]
    yield from missing
    deep = max(points, key=lambda one: one.si("cover") or 0, default=None)
    if missing or deep is None:
        return
    row = {"thickness": float(deep.si("cover") or 0)}
    rests = deep.held("cover")
    for one in weights:
        assert isinstance(one, Fed)
        row[one.key] = one.value
        rests += one.rests
    yield Fed(
        key="layer",
        value=row,
        rests=rests,
        how=tell("figures.its_deepest_measured_point", point=deep.words("point"), on=deep.on),
    )


def _highest(view: View) -> Read | None:
    read = [one for pipe in view.built.of_kind("dip pipe") for one in readings(view, pipe)]
    return max(read, key=lambda one: one[1], default=None)


def _water(view: View, hull: Thing) -> Iterator[Part]:
    """Yield the groundwater below grade where the highest reading stood above the roof."""
    highest = _highest(view)
    for top in roof(hull) if highest else ():
        if isinstance(top, Missing):
            yield top
        elif highest and highest[1] > top.value:
            yield from _below_grade(hull, highest)


def _below_grade(hull: Thing, highest: Read) -> Iterator[Part]:
    how = tell("figures.grade_less_highest_reading", about=highest[0].about, on=highest[0].on)
    grade = field(hull, "ground_level", "water-depth", how=how)
    if isinstance(grade, Fed):
        rests = (*grade.rests, *highest[0].held("reading"))
        grade = replace(grade, value=round(grade.value - highest[1], 9), rests=rests)
    yield grade


def _dry(view: View, hull: Thing) -> Iterator[str]:
    highest = _highest(view)
    if highest is None:
        yield tell("figures.without_groundwater_no_level")
        return
    above = any(isinstance(top, Fed) and highest[1] > top.value for top in roof(hull))
    if not above:
        yield tell("figures.highest_groundwater_read_not", reading=highest[0].words("reading"))
