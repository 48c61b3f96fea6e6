"""Hulls against groundwater: when an empty one floats in the pit, and what lifts it later."""

from __future__ import annotations

from collections.abc import Iterator

from record.figures.feeding import derived, field, nothing, perhaps, reading
from record.figures.worked import Fed, Missing, Part, Worked, work
from record.fold import Happening, Thing
from record.place import is_round
from record.readers import View
from record.units import Dimension

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
            needed: tuple[Part, ...] = water or (nothing("a groundwater level", WHERE_WATER),)
            size = (*_diameter(hull), *_length(hull))
            yield work("uplift-round", hull.tag, (*shared, *size, grade, *needed), notes=notes)
        else:
            parts = (*shared, *_plan(hull), *roof(hull), grade, *water, *_ratios(hull))
            yield work("uplift", hull.tag, parts, notes=notes)


def _plan(hull: Thing) -> Parts:
    def area(m: dict[str, float]) -> float:
        plates = 2 * m["steel_thickness"]
        return (m["inside_length"] + plates) * (m["inside_width"] + plates)

    return derived("plan", hull, BOX, area, "outside: inside length and width, a plate each side")


def _underside(hull: Thing) -> Parts:
    return derived(
        "underside",
        hull,
        ("floor_level", "steel_thickness"),
        lambda m: m["floor_level"] - m["steel_thickness"],
        "a plate under the floor level",
    )


def roof(hull: Thing) -> Parts:
    """Return the level of the outside top of a hull as an input, or what is missing for it."""
    high = "inside_diameter" if is_round(hull) else "inside_height"
    return derived(
        "top",
        hull,
        ("floor_level", high, "steel_thickness"),
        lambda m: m["floor_level"] + m[high] + m["steel_thickness"],
        "floor level, inside height and a plate",
    )


def _diameter(hull: Thing) -> Parts:
    return derived(
        "diameter", hull, ROUND, lambda m: m["inside_diameter"] + 2 * m["steel_thickness"],
        "inside, and a plate each side",
    )  # fmt: skip


def _length(hull: Thing) -> Parts:
    return derived(
        "length",
        hull,
        ("inside_length", "steel_thickness"),
        lambda m: m["inside_length"] + 2 * m["steel_thickness"],
        "inside, and a plate each end",
    )


def soil(view: View) -> Parts:
    """Return the unit weights of the site's earth, above the water and below it."""
    site = view.built.site_thing()
    if site is None:
        return (nothing("the site", '"## site …"'),)
    how = f"from {site.words('soil_from')}"
    return (
        field(site, "soil_moist", "moist", how=how),
        field(site, "soil_saturated", "saturated", how=how),
    )


def _ratios(hull: Thing) -> Iterator[Part]:
    """Yield the ratio somebody set, and always the one at which it begins to lift."""
    by = f"set by {hull.words('uplift_factor_by')}"
    factor = perhaps(hull, "uplift_factor", "ratio", how=by)
    if factor is not None:
        yield factor
        yield Fed(key="ratio", value=1.0, how="where it begins to lift", usual=True)


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
        by = f"alarm level of {pipe.tag}, {pipe.words('alarm_level_from')}"
        alarm = perhaps(pipe, "alarm_level", "water", how=by)
        if alarm is None:
            notes.append(f"alarm level of dip pipe {pipe.tag}: {pipe.words('alarm_level')}")
        else:
            found.append(alarm)
    if not found:
        notes.append("no groundwater level is recorded")
    return tuple(found), tuple(notes)


def _unread(view: View, pipe: Thing, read: int) -> Iterator[str]:
    """Yield that nothing was read in a dip pipe, or how often what was read is no one level."""
    told = sum(1 for one in view.built.about(pipe.tag, "reading taken") if _of_level(one, pipe))
    if not told:
        yield f"dip pipe {pipe.tag}: no reading of its water level is recorded"
    elif told > read:
        yield f"dip pipe {pipe.tag}: {told - read} readings are in words, and not in this"


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
        yield "newest reading and highest", newest
    else:
        yield "newest reading", newest
        yield "highest reading", highest
