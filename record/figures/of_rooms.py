"""Rooms: carbon dioxide in each, for whom the air is enough, and pressure in the far room."""

from __future__ import annotations

import re
from collections.abc import Iterator

from record.figures.feeding import derived, field, nothing, numbers, reading
from record.figures.of_air import site_altitude
from record.figures.of_units import NO_UNIT, flows, machines, measured
from record.figures.worked import Fed, Missing, Worked, work
from record.fold import Happening, Held, Thing
from record.readers import View
from record.units import Dimension
from record.words import tell

LOOKED_AT = Fed(key="after", value=3600.0, usual=True, how="a time to look at, no time to stay")
NOT_EMPTY = "what stands in the room takes of its air, and it goes faster than this"
MODES = ("motor and crank", "motor", "crank")  # the longest first
EXPONENT = 0.65  # of a leak, where nobody measured it at two pressures
TIGHT = re.compile(r"tight|leak")


def of_co2(view: View) -> Iterator[Worked]:
    """Yield carbon dioxide in every room with all the people in it: closed, and by each unit."""
    site = view.built.site_thing()
    if site is None:
        return
    people = field(site, "people", "people")
    for room in view.built.of_kind("room"):
        if room.text("hull"):
            shared = (*_volume(room), people, LOOKED_AT)
            yield work("co2", room.tag, shared, what="closed", notes=(NOT_EMPTY,))
            for unit, flow in flows(view):
                what = tell("figures.at_flow", unit=unit) if unit else "ventilated"
                yield work("co2", room.tag, (*shared, flow), what=what, notes=(NOT_EMPTY,))


def _volume(room: Thing) -> tuple[Fed | Missing, ...]:
    return derived(
        "volume",
        room,
        ("length", "width", "height"),
        lambda m: m["length"] * m["width"] * m["height"],
        tell("figures.length_by_width_by"),
    )


def of_served(view: View) -> Iterator[Worked]:
    """Yield for how many people the air is enough, in each mode that was measured or recorded."""
    site = view.built.site_thing()
    units = [*machines(view, "air unit"), *machines(view, "hand crank")]
    if site is None:
        return
    rows: list[Fed | Missing] = []
    for unit in units:
        found = [_mode(fed, what) for what, fed in measured(view, unit)]
        known = {row.value["by"] for row in rows if isinstance(row, Fed)}
        if found or (unit.text("type") == "hand crank" and "crank" in known):
            rows += found
        elif unit.held("flow") or unit.text("type") == "air unit":
            rows.append(_recorded(unit))
    yield work("people-served", site.tag, rows or (NO_UNIT,))


def _recorded(unit: Thing) -> Fed | Missing:
    flow = field(unit, "flow", "flow", how=tell("figures.recorded_not_measured"))
    if isinstance(flow, Missing):
        return flow
    return _mode(flow, "crank" if unit.text("type") == "hand crank" else "other")


def _mode(flow: Fed, said: str) -> Fed:
    """Return a measured flow as a row, its mode by the words of the test."""
    by = next((mode for mode in MODES if mode in said.casefold()), "other")
    return Fed(
        key="mode",
        value={"by": by, "flow": flow.value},
        rests=flow.rests,
        how=f"{said}; {flow.how}",
    )


def of_far_rooms(view: View) -> Iterator[Worked]:
    """Yield the pressure in the hull of the air unit, and in that of the overpressure valve."""
    valve = next((v for v in _valves(view) if v.text("hull")), None)
    unit = next((u for u in machines(view, "air unit") if u.text("hull")), None)
    if valve is None or unit is None or valve.text("hull") == unit.text("hull"):
        return
    near, far = view.built.thing(unit.text("hull")), view.built.thing(valve.text("hull"))
    if near is None or far is None:
        return
    parts = (
        _supply(view, unit),
        *_leak(view, near, "near-leak"),
        *_leak(view, far, "far-leak"),
        *_between(view, near, far),
        *_relief(valve),
        site_altitude(view),
    )
    what = tell("figures.with_with", tag=near.tag, tag_2=unit.tag, tag_3=far.tag, tag_4=valve.tag)
    notes = (tell("figures.every_door_between_them"),)
    yield work("far-room", far.tag, parts, what=what, notes=notes)


def _valves(view: View) -> Iterator[Thing]:
    for valve in view.built.of_kind("valve"):
        if valve.text("type") == "overpressure":
            yield valve


def _supply(view: View, unit: Thing) -> Fed | Missing:
    """Return the newest flow that was measured of a unit, else the one recorded of it."""
    newest = list(measured(view, unit))
    if newest:
        what, fed = newest[-1]
        return Fed(key="supply", value=fed.value, rests=fed.rests, how=f"{what}; {fed.how}")
    return field(unit, "flow", "supply", how=tell("figures.recorded_not_measured"))


def _leak(view: View, hull: Thing, key: str) -> Iterator[Fed | Missing]:
    """Yield what a hull lost in its newest test of tightness, and at which pressure."""
    for one in reversed(tuple(view.built.about(hull.tag, "tested", "flow tested"))):
        if one.about != hull.tag or not TIGHT.search((one.text("test") or "").casefold()):
            continue
        found = _lost(one)
        if found is not None:
            row, rests = found
            how = tell(
                "figures.exponent_usual", test=one.text("test"), on=one.on, exponent=f"{EXPONENT:g}"
            )
            yield Fed(key=key, value={**row, "exponent": EXPONENT}, rests=rests, how=how)
            return
    words = tell("figures.what_hull_alone_lost", tag=hull.tag)
    yield nothing(words, tell("figures.tested_with_test_tightness", tag=hull.tag))


def _lost(one: Happening) -> tuple[dict[str, float], tuple[Held, ...]] | None:
    if one.kind.word == "flow tested":
        found, rests, missing = numbers(one, ("flow", "pressure_difference"))
        if missing:
            return None
        return {"flow": found["flow"], "tested-at": found["pressure_difference"]}, rests
    said = one.text("reading") or ""
    flow, at = reading(said, Dimension.FLOW), reading(said.partition(" at ")[2], Dimension.PRESSURE)
    if flow is None or at is None:
        return None
    return {"flow": flow, "tested-at": at}, one.held("reading")


def _between(view: View, near: Thing, far: Thing) -> Iterator[Fed | Missing]:
    """Yield the area of the smallest opening that leads from either hull to the other."""
    found = [
        one
        for one in view.built.of_kind("opening")
        for own, other in ((near, far), (far, near))
        if one.text("hull") == own.tag and _names(one.text("leads_to"), other.tag)
    ]
    if not found:
        words = tell("figures.opening_between_hull_and", tag=near.tag, tag_2=far.tag)
        yield nothing(words, tell("figures.opening_in_one_that", tag=far.tag))
        return
    least = min(found, key=lambda one: float(one.si("width") or 0) * float(one.si("height") or 0))
    yield from derived(
        "opening",
        least,
        ("width", "height"),
        lambda m: m["width"] * m["height"],
        tell("figures.width_by_height_least", tag=least.tag, found=len(found)),
    )


def _names(said: str | None, tag: str) -> bool:
    return said is not None and re.search(rf"(?<!\w){re.escape(tag)}(?!\w)", said) is not None


def _relief(valve: Thing) -> Iterator[Fed | Missing]:
    names = ("opens_at", "rated_flow", "pressure_at_rated_flow")
    found, rests, missing = numbers(valve, names)
    yield from missing
    if not missing:
        row = {
            "opens": found["opens_at"],
            "flow": found["rated_flow"],
            "over": found["pressure_at_rated_flow"],
        }
        yield Fed(
            key="relief", value=row, rests=rests, how=tell("figures.by_its_sheet", tag=valve.tag)
        )
