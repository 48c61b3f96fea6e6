"""The levels a cut marks: ground, steel, floors, cover, frost, and water."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from manual.drawings.both import level as level_words
from manual.drawings.cut import LevelMark, Mark
from manual.languages import say
from record.answers.saying import length
from record.figures.of_hulls import readings
from record.fold import Happening, Thing
from record.place import HullFrame
from record.readers import View


@dataclass(frozen=True, slots=True)
class Covered:
    """The newest cover measured at one point, and where that is in the hull's frame."""

    seen: Happening
    point: str
    cover_m: float
    along_m: float | None
    across_m: float | None


def covers_of(view: View, hull: HullFrame) -> tuple[Covered, ...]:
    """Return the newest cover at every point that was measured over a hull."""
    newest: dict[str, Covered] = {}
    for one in view.built.happened("cover measured"):
        cover = one.si("cover")
        if one.about != hull.tag or cover is None:
            continue
        x, y, point = one.si("x"), one.si("y"), one.words("point")
        along, across = None, None
        if x is not None and y is not None:
            along, across, _ = hull.to_hull((float(x), float(y), hull.origin[2]))
        held = newest.get(point)
        if held is None or (held.seen.on, held.seen.at or "") <= (one.on, one.at or ""):
            newest[point] = Covered(one, point, float(cover), along, across)
    return tuple(newest.values())


def ground_m(hull: Thing) -> float | None:
    level = hull.si("ground_level")
    return None if level is None else float(level)


def within_m(thing: Thing, field: str) -> float | None:
    """How well a field is known, as its own ± says."""
    quantity = thing.quantity(field)
    return None if quantity is None or quantity.tol is None else float(quantity.tol)


def top_m(frame: HullFrame) -> float:
    """The level of the outside top of the steel."""
    return frame.origin[2] + frame.height_m + frame.plate_m


def hull_levels(view: View, hull: Thing, frame: HullFrame) -> Iterator[LevelMark]:
    """Yield every level of a hull's cut that is recorded."""
    ground = ground_m(hull)
    if ground is not None:
        yield LevelMark(
            ground,
            Mark.GROUND,
            (*level_words(ground, within_m(hull, "ground_level")), _day(hull, "ground_level")),
        )
    yield from limits(view, hull, frame)
    yield _plain(top_m(frame), say("cut.steel_top"), ground)
    if frame.floor_known and frame.walking_floor_m - frame.origin[2] > 0.005:
        yield _plain(frame.walking_floor_m, say("cut.walking_floor"), ground)
    bottom = say("cut.shell_bottom") if frame.round else say("cut.inside_bottom")
    yield _plain(frame.origin[2], bottom, ground)
    yield from waters(view, hull, frame)


def limits(view: View, hull: Thing, frame: HullFrame) -> Iterator[LevelMark]:
    """Yield the least cover somebody set, and how deep frost goes."""
    least, ground = hull.si("design_cover"), ground_m(hull)
    if least is not None:
        level = top_m(frame) + float(least)
        by = hull.words("design_cover_by")
        yield LevelMark(
            level,
            Mark.LIMIT,
            (*level_words(level), say("cut.least_cover", cover=length(float(least)), by=by)),
        )
    site = view.built.site_thing()
    frost = site.si("frost_depth") if site else None
    if site is not None and frost is not None and ground is not None:
        level = ground - float(frost)
        said = say("cut.frost", depth=length(float(frost)), by=site.words("frost_depth_from"))
        yield LevelMark(level, Mark.LIMIT, (*level_words(level), said))


def waters(view: View, hull: Thing, frame: HullFrame) -> Iterator[LevelMark]:
    """Yield the newest and highest water read, the alarm levels, and where a hull floats."""
    floats = hull.si("floats_in_open_pit_at")
    if floats is not None:
        yield LevelMark(
            float(floats),
            Mark.WATER,
            (*level_words(float(floats)), say("cut.floats", tag=hull.tag)),
        )
    for pipe in view.built.of_kind("dip pipe"):
        alarm, read = pipe.si("alarm_level"), readings(view, pipe)
        if alarm is not None:
            by = pipe.words("alarm_level_from")
            words = (
                *level_words(float(alarm), within_m(pipe, "alarm_level")),
                say("cut.alarm", tag=pipe.tag, by=by),
            )
            yield LevelMark(float(alarm), Mark.WATER, words)
        if read:
            one, level = read[-1]
            words = (*level_words(level), say("cut.water_newest", tag=pipe.tag, on=one.on))
            yield LevelMark(level, Mark.WATER, words)
            highest, most = max(read, key=lambda each: each[1])
            if most > level:
                words = (*level_words(most), say("cut.water_highest", tag=pipe.tag, on=highest.on))
                yield LevelMark(most, Mark.WATER, words)


def _plain(level: float, words: str, ground: float | None) -> LevelMark:
    down = () if ground is None else (say("cut.deep", depth=length(ground - level)),)
    return LevelMark(level, Mark.PLAIN, (*level_words(level), words, *down))


def _day(hull: Thing, field: str) -> str:
    held = hull.held(field)
    on = held[-1].on if held else say("legend.not_recorded")
    return say("cut.ground", on=on)
