"""Hulls against groundwater: when an empty one floats in the pit, and what lifts it later."""

from __future__ import annotations

from collections.abc import Iterator

from record.figures.feeding import derived, field, nothing, perhaps, reading
from record.figures.worked import Fed, Missing, Part, Worked, work
from record.fold import Happening, Thing
from record.place import is_round
from record.readers import View
from record.units import Dimension
from record.words import tell

BOX = ("inside_length", "inside_width", "steel_thickness")
ROUND = ("inside_diameter", "steel_thickness")
Parts = tuple[Fed | Missing, ...]


def of_float_levels(view: View) -> Iterator[Worked]:
    """Yield the float level of every box; its formula is for upright sides."""
    for hull in view.built.of_kind("hull"):
        if not is_round(hull):
            mass = field(hull, "mass", "mass")
            yield work("float-level", hull.tag, (mass, *_plan(hull), *_underside(hull)))


def of_uplift(view: View) -> Iterator[Worked]:
    water, notes = water_levels(view)
    for hull in view.built.of_kind("hull"):
        shared = (field(hull, "mass", "mass"), *_underside(hull), *soil(view))
        grade = field(hull, "ground_level", "grade")
        if is_round(hull):
            needed: tuple[Part, ...] = water or (
                nothing(tell("figures.groundwater_level"), WHERE_WATER),
            )
            size = (*_diameter(hull), *_length(hull))
            yield work("uplift-round", hull.tag, (*shared, *size, grade, *needed), notes=notes)
        else:
            parts = (*shared, *_plan(hull), *roof(hull), grade, *water, *_ratios(hull))
            yield work("uplift", hull.tag, parts, notes=notes)


def _plan(hull: Thing) -> Parts:
    def area(m: dict[str, float]) -> float:
        plates = 2 * m["steel_thickness"]
        return (m["inside_length"] + plates) * (m["inside_width"] + plates)

    return derived("plan", hull, BOX, area, tell("figures.outside_inside_length_and"))


def _underside(hull: Thing) -> Parts:
    return derived(
        "underside",
        hull,
        ("floor_level", "steel_thickness"),
        lambda m: m["floor_level"] - m["steel_thickness"],
        tell("figures.plate_under_floor_level"),
    )


def roof(hull: Thing) -> Parts:
    """Return the level of the outside top of a hull as an input, or what is missing for it."""
    high = "inside_diameter" if is_round(hull) else "inside_height"
    return derived(
        "top",
        hull,
        ("floor_level", high, "steel_thickness"),
        lambda m: m["floor_level"] + m[high] + m["steel_thickness"],
        tell("figures.floor_level_inside_height"),
    )


def _diameter(hull: Thing) -> Parts:
    return derived(
        "diameter",
        hull,
        ROUND,
        lambda m: m["inside_diameter"] + 2 * m["steel_thickness"],
        tell("figures.inside_and_plate_each"),
    )


def _length(hull: Thing) -> Parts:
    return derived(
        "length",
        hull,
        ("inside_length", "steel_thickness"),
        lambda m: m["inside_length"] + 2 * m["steel_thickness"],
        tell("figures.inside_and_plate_each_end"),
    )


def soil(view: View) -> Parts:
    """Return the unit weights of the site's earth, above the water and below it."""
    site = view.built.site_thing()
    if site is None:
        return (nothing(tell("figures.site"), '"## site …"'),)
    how = tell("figures.from", soil_from=site.words("soil_from"))
    return (
        field(site, "soil_moist", "moist", how=how),
        field(site, "soil_saturated", "saturated", how=how),
    )


def _ratios(hull: Thing) -> Iterator[Part]:
    """Yield the ratio somebody set, and always the one at which it begins to lift."""
    by = tell("figures.set_by", uplift_factor_by=hull.words("uplift_factor_by"))
    factor = perhaps(hull, "uplift_factor", "ratio", how=by)
    if factor is not None:
        yield factor
        yield Fed(key="ratio", value=1.0, how=tell("figures.where_begins_to_lift"), usual=True)


WHERE_WATER = '"## reading taken" of a dip pipe, or "- alarm level: …" under "## dip pipe …"'


def water_levels(view: View) -> tuple[tuple[Fed | Missing, ...], tuple[str, ...]]:
    """Return newest and highest reading of every dip pipe and its alarm level, and notes."""
    found: list[Fed | Missing] = []
    notes: list[str] = []
    for pipe in view.built.of_kind("dip pipe"):
        read = readings(view, pipe)
        notes += _unread(view, pipe, len(read))
        for word, one in _newest_and_highest(read):
            how = f"{pipe.tag}, {word}, {one[0].on}"
            fed = Fed(key="water", value=one[1], rests=one[0].held("reading"), how=how)
            found.append(fed)
        by = tell(
            "figures.alarm_level", tag=pipe.tag, alarm_level_from=pipe.words("alarm_level_from")
        )
        alarm = perhaps(pipe, "alarm_level", "water", how=by)
        if alarm is None:
            notes.append(
                tell(
                    "figures.alarm_level_dip_pipe",
                    tag=pipe.tag,
                    alarm_level=pipe.words("alarm_level"),
                )
            )
        else:
            found.append(alarm)
    if not found:
        notes.append(tell("figures.no_groundwater_level_recorded"))
    return tuple(found), tuple(notes)


def _unread(view: View, pipe: Thing, read: int) -> Iterator[str]:
    """Yield that nothing was read in a dip pipe, or how often what was read is no one level."""
    told = sum(1 for one in view.built.about(pipe.tag, "reading taken") if _of_level(one, pipe))
    if not told:
        yield tell("figures.dip_pipe_no_reading", tag=pipe.tag)
    elif told > read:
        yield tell("figures.dip_pipe_readings_are", tag=pipe.tag, told=told - read)


def _of_level(one: Happening, pipe: Thing) -> bool:
    return one.about == pipe.tag and "level" in one.words("what").casefold()


Read = tuple[Happening, float]


def readings(view: View, pipe: Thing) -> tuple[Read, ...]:
    """Return the water levels read in a dip pipe, in order; a reading in words is none."""
    return tuple(
        (one, level)
        for one in view.built.about(pipe.tag, "reading taken")
        if _of_level(one, pipe)
        and (level := reading(one.text("reading"), Dimension.LENGTH)) is not None
    )


def _newest_and_highest(read: tuple[Read, ...]) -> Iterator[tuple[str, Read]]:
    if not read:
        return
    newest, highest = read[-1], max(read, key=lambda one: one[1])
    if newest is highest:
        yield tell("figures.newest_reading_and_highest"), newest
    else:
        yield tell("figures.newest_reading"), newest
        yield tell("figures.highest_reading"), highest
