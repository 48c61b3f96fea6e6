"""What every export tells of a thing: its words, its place on the site grid, what it rests on."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from record.entry.counted import entries_said
from record.exports.reserved import reserved_of, reserved_words
from record.facts.values import Absent, Why
from record.fold import Thing
from record.place import Shape
from record.place.plan import on_site, site_doubt
from record.place.solids import ANY_M, Capsule
from record.readers import View

Point = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Solid:
    """
    One solid of a thing on the site grid, metres: a bar along ``line`` or a box over ``corners``.

    ``bottom_m`` and ``top_m`` are levels on the site datum, None where not recorded. Of a bar they
    are those of its ends' axis, less and more its radius.
    """

    shape: Shape
    line: tuple[tuple[float, float, float], ...] = ()
    corners: tuple[Point, ...] = ()
    radius_m: float = 0.0
    bottom_m: float | None
    top_m: float | None
    tolerance_m: float
    tolerance_up_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """One thing the reader may see, its fields in words, where it is, the entries it rests on."""

    thing: Thing
    fields: tuple[tuple[str, str], ...]
    at: Point | None
    level_m: float | None
    solids: tuple[Solid, ...]
    entries: tuple[str, ...]

    @property
    def tag(self) -> str:
        return self.thing.tag

    @property
    def kind(self) -> str:
        return self.thing.kind.word

    @property
    def placed(self) -> bool:
        return bool(self.solids) or self.at is not None

    @property
    def middle(self) -> Point | None:
        """Its place as told on the grid, else the middle of the first solid it is made of."""
        if self.at is not None or not self.solids:
            return self.at
        corners = self.solids[0].corners or tuple((x, y) for x, y, _ in self.solids[0].line)
        xs, ys = zip(*corners, strict=True)
        return (sum(xs) / len(xs), sum(ys) / len(ys))


def items(view: View) -> Iterator[Item]:
    """Yield everything a reader may see, by tag; what has no place on record is among it."""
    solids: dict[str, list[Solid]] = {}
    for shape in view.shapes:
        solids.setdefault(shape.thing.tag, []).append(solid(shape, view))
    for tag in sorted(view.built.things):
        thing = view.built.things[tag]
        x, y, level = (thing.si(name) for name in ("x", "y", "level"))
        yield Item(
            thing=thing,
            fields=fields_in_words(thing),
            at=None if x is None or y is None else (float(x), float(y)),
            level_m=None if level is None else float(level),
            solids=tuple(solids.get(tag, ())),
            entries=tuple(entry.number for entry in thing.all_entries()),
        )


def fields_in_words(thing: Thing) -> tuple[tuple[str, str], ...]:
    """Return (field, words) for all that was said; what nobody said is left out."""
    told = []
    for name in thing.fields:
        value = thing.value(name)
        if not (isinstance(value, Absent) and value.why is Why.NOT_RECORDED and not value.reason):
            told.append((name, thing.words(name)))
    return tuple(told)


def solid(shape: Shape, view: View) -> Solid:
    """Return a shape on the site grid."""
    frame = view.hulls.get(shape.hull)
    across, up = site_doubt(shape, view.hulls)
    form = shape.form
    if isinstance(form, Capsule):
        line = tuple(on_site(end, frame) for end in (form.start, form.end))
        heights = [end[2] for end in line]
        bottom, top = min(heights) - form.radius_m, max(heights) + form.radius_m + form.rises_m
        corners: tuple[Point, ...] = ()
        radius = form.radius_m
    else:
        low, high, line, radius = form.low, form.high, (), 0.0
        plan = ((low[0], low[1]), (high[0], low[1]), (high[0], high[1]), (low[0], high[1]))
        corners = tuple(on_site((a, b, 0.0), frame)[:2] for a, b in plan)
        bottom, top = (on_site((low[0], low[1], h), frame)[2] for h in (low[2], high[2]))
    return Solid(
        shape=shape,
        line=line,
        corners=corners,
        radius_m=radius,
        bottom_m=_level(bottom),
        top_m=_level(top),
        tolerance_m=across,
        tolerance_up_m=up,
    )


def _level(height: float) -> float | None:
    return None if abs(height) >= ANY_M / 2 else height


def about(view: View) -> Sequence[tuple[str, str]]:
    """Return what stands at the head of every export: of what, for whom, and what it is not."""
    site = view.built.site_thing()
    days = [entry.content.on for entry in view.built.entries if entry.content]
    told = [
        ("site", view.built.site),
        ("name", view.built.site_name()),
        ("copy", f"{view.reader}'s copy"),
        ("recorded to", max(days, default="nothing yet")),
        ("grid", site.words("grid") if site else "not recorded"),
        ("datum", site.words("datum") if site else "not recorded"),
    ]
    if view.partial and view.withheld:
        told.append(("withheld", f"{entries_said(view.withheld)}. {GAPS}"))
    if view.partial:
        told.append(("reserved", f"{reserved_words(reserved_of(view))} {ASK}"))
    told.append(("caution", CAUTION))
    return told


ASK = "Ask the owner before anybody opens, drills or digs there."
GAPS = "Where nothing is shown here, something may lie: a gap is no sign of empty ground."
CAUTION = (
    "Copied from the record on the day it was recorded to; the record is what counts, and entries "
    "may have come since. Places have the tolerances beside them. Ask the record, and look, before "
    "anybody digs, drills or cuts."
)
