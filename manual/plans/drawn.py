"""The record → the plain values that the drawings take."""

from __future__ import annotations

from collections.abc import Iterator

from manual.drawings import plan, section
from manual.drawings.both import both
from manual.languages import say, term
from record.answers.find_tapes import lost
from record.calc.falls import low_points, sags
from record.fold import Thing
from record.place import HullFrame, PlacedStation, TiedPoint, stations, tied_points
from record.place.shots import falls_to, levelled, levels, said_not_to_fall, stretches
from record.readers import View


def run_section(view: View, run: Thing) -> section.LongSection | None:
    """Return the long section of a run, or None with fewer than two stations levelled."""
    placed = [s for s in stations(run, view.hulls) if s.chainage_m is not None]
    shots = levelled(placed)
    if len(shots) < 2:
        return None
    low_end = falls_to(run, placed)
    worked = levels(shots)
    outside = run.si("outside_diameter")
    site = view.built.site_thing()
    frost = site.si("frost_depth") if site else None
    falling = low_end is not None and not said_not_to_fall(run)
    return section.LongSection(
        name=" · ".join(
            filter(None, (run.tag, run.text("name") or term(run.text("carries") or "")))
        ),
        stations=tuple(_station(s) for s in placed),
        outside_diameter_m=None if outside is None else float(outside),
        falls=tuple(
            section.Fall(
                from_m=one.fall.from_m,
                to_m=one.fall.to_m,
                words=fall_words(one.slope, one.drop_m),
                wrong_way=falling and one.drop_m < 0,
            )
            for one in stretches(placed, low_end)
        ),
        sags=tuple(
            section.Sag(
                from_m=sag.from_m, to_m=sag.to_m, pond_level_m=sag.pond_level_m, depth_m=sag.depth_m
            )
            for sag in sags(worked)
        ),
        low_points=tuple(
            section.LowPoint(
                chainage_m=at, words=say("drawn.low_point_at_m", at=both(at, places=2))
            )
            for at in low_points(worked)
        ),
        fittings=tuple(_fittings(view, run, placed)),
        frost_depth_m=None if frost is None else float(frost),
    )


def fall_words(slope: float, drop_m: float) -> str:
    if drop_m < 0:
        return say("drawn.rises_m", it=both(-drop_m))
    return say("drawn.fall", slope=f"{slope * 100:.3f}")


def _station(placed: PlacedStation) -> section.Station:
    assert placed.chainage_m is not None
    return section.Station(
        key=placed.key,
        name=placed.name,
        chainage_m=placed.chainage_m,
        invert_m=placed.invert_m,
        crown_m=placed.crown_m,
        ground_m=placed.ground_m,
        tolerance_m=placed.accuracy.vertical_m,
        measured=placed.accuracy.basis == "measured",
    )


def sort_of(valve: Thing) -> str:
    """Return what sort of valve it is, such as "check valve"."""
    sort = valve.text("type")
    if sort in (None, "other"):
        return term("valve")
    return term(sort) if "valve" in sort else say("drawn.valve", sort=term(sort))


def _fittings(view: View, run: Thing, placed: list[PlacedStation]) -> Iterator[section.Fitting]:
    at = {s.key: s.chainage_m for s in placed}
    for valve in view.built.of_kind("valve"):
        chainage = at.get(valve.text("at_station") or "")
        if run.tag in valve.tags("on_run") and chainage is not None:
            yield section.Fitting(chainage_m=chainage, tag=valve.tag, kind=sort_of(valve))
    for drain in view.built.of_kind("drain"):
        chainage = at.get(drain.text("at_station") or "")
        if run.tag in drain.tags("serves") and chainage is not None:
            yield section.Fitting(chainage_m=chainage, tag=drain.tag, kind=term("drain"))


def site_plan(view: View) -> plan.SitePlan | None:
    """Return the plan of the site, or None while it has no hull with all its measures."""
    hulls = {tag: hull for tag, hull in view.hulls.items() if view.built.thing(tag)}
    if not hulls:
        return None
    return plan.SitePlan(
        name=view.built.site_name(),
        outlines=tuple(
            plan.Outline(tag=tag, name=_name(view, hull), points_m=hull.outline())
            for tag, hull in sorted(hulls.items())
        ),
        landmarks=tuple(_spots(view, "landmark")),
        routes=tuple(_routes(view)),
        spots=tuple(_spots(view, "dip pipe")),
        ties=tuple(_ties(view)),
    )


def _ties(view: View) -> Iterator[plan.Tie]:
    """Yield the tapes in use, each to the point as it is placed; one placed nowhere has no line."""
    gone = lost(view.built)
    for point in tied_points(view.built):
        place = _placed(view, point)
        for taped in point.ties if place else ():
            tag = taped.landmark.tag
            yield plan.Tie(
                from_tag=say("drawn.lost", tag=tag) if tag in gone else tag,
                to_words=point.words,
                from_m=(taped.x, taped.y),
                to_m=place or (0.0, 0.0),
                distance_m=taped.length_m,
            )


def _placed(view: View, point: TiedPoint) -> tuple[float, float] | None:
    """Return where a tied point is recorded on the grid, else where its ties put it."""
    whole = view.built.thing(point.tag.partition("/")[0])
    if whole is not None and whole.kind.word == "run":
        for station in stations(whole, view.hulls):
            if station.thing.tag == point.tag and station.x is not None and station.y is not None:
                return station.x, station.y
    if whole is not None and whole.kind.field("x") and whole.kind.field("y"):
        x, y = whole.si("x"), whole.si("y")
        if x is not None and y is not None:
            return float(x), float(y)
    return (point.fix.x_m, point.fix.y_m) if point.fix else None


def _name(view: View, hull: HullFrame) -> str:
    thing = view.built.thing(hull.tag)
    name = (thing.text("name") if thing else None) or "hull"
    # On plan a round hull that lies is a box like any other.
    return (
        say("drawn.round_m_across_inside", name=name, width=f"{hull.width_m:.2f}")
        if hull.round
        else name
    )


def _spots(view: View, kind: str) -> Iterator[plan.Spot]:
    gone = lost(view.built)
    for thing in view.built.of_kind(kind):
        x, y = thing.si("x"), thing.si("y")
        if x is not None and y is not None:
            what = thing.text("what") or term(kind)
            # Where a lost landmark stood still tells what the old ties were taken from.
            tag = say("drawn.lost", tag=thing.tag) if thing.tag in gone else thing.tag
            yield plan.Spot(tag=tag, name=what.partition(",")[0], x_m=float(x), y_m=float(y))


def _routes(view: View) -> Iterator[plan.Route]:
    for run in view.built.of_kind("run"):
        points = [
            (s.x, s.y) for s in stations(run, view.hulls) if s.x is not None and s.y is not None
        ]
        if len(points) >= 2:
            yield plan.Route(
                tag=run.tag, name=term(run.text("carries") or "run"), points_m=tuple(points)
            )
