"""Where to look for a hidden thing: what to tape it from, how deep it is, and how sure that is."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import replace

from record.answers.behind_panel import further
from record.answers.covers import OPEN, cover_state
from record.answers.digging import before_digging
from record.answers.find_depths import depth_of_hull, depth_of_station, depth_of_thing
from record.answers.find_tapes import lost, tapes
from record.answers.find_values import Depth, Find, FromFace, Spot, Tapes
from record.answers.found import find_thing
from record.answers.isolations import where
from record.answers.refused import CannotAnswer
from record.calc.combine import root_sum_square
from record.fold import Thing
from record.place import PlacedStation, TiedPoint, stations, tied_points
from record.place.accuracy import Accuracy, accuracy
from record.place.by_length import by_length
from record.place.run_shapes import doubt
from record.place.shots import label
from record.place.solids import Capsule, Shape, called
from record.place.strays import strays
from record.readers import View
from record.words import tell, term

WALKING_FLOOR, MIDDLE = "walking floor", "middle"

WITHOUT_A_SPOT = ("site", "room", "covering", "build-up", "procedure", "batch", "panel")


def find(view: View, tag: str) -> Find:
    """
    Return where to look for a thing, each station of a run, or one of them (``AIR-IN/2``).

    Raises NotFound where nothing the reader may see has that tag, CannotAnswer where a thing of
    its kind lies nowhere.
    """
    thing = find_thing(view, tag)
    whole = view.built.things[tag.partition("/")[0]]
    if whole.kind.word in WITHOUT_A_SPOT:
        raise CannotAnswer(f"{tag} is a {whole.kind.word}: it is not in one spot to be dug for")
    ties = {tied.tag: tied for tied in tied_points(view.built) if tied.tag}
    site = view.built.site_thing()
    tolerance = site.quantity("dig_tolerance") if site else None
    return Find(
        tag=tag,
        kind=whole.kind.word,
        spots=tuple(_spots(view, whole, thing, ties)),
        lost=tuple(f"{mark}: {words}" for mark, words in lost(view.built).items()),
        between=tuple(between_stations(view, whole)) if whole.kind.word == "run" else (),
        dig_tolerance=site.words("dig_tolerance") if site else term("not recorded"),
        dig_tolerance_m=None if tolerance is None else float(tolerance.si),
        before_digging=tuple(before_digging(site)),
        reader=view.reader,
        as_of=view.built.as_of,
        further_entries=further(view),
    )


def _spots(view: View, whole: Thing, thing: Thing, ties: Mapping[str, TiedPoint]) -> Iterator[Spot]:
    if whole.kind.word == "run":
        for station in stations(whole, view.hulls):
            if thing is whole or station.thing.tag == thing.tag:
                yield _station(view, whole, station, ties.get(station.thing.tag))
        return
    yield _thing(view, whole, ties.get(whole.tag))


def _station(view: View, run: Thing, station: PlacedStation, tied: TiedPoint | None) -> Spot:
    across = doubt(station, "", view.hulls)[0]
    at = None if station.x is None or station.y is None else (station.x, station.y)
    part = station.thing
    top = station.crown_m
    return _spot(
        view,
        part,
        tell(
            "answers.station_carries",
            station=label(station),
            run=called(run),
            carries=run.words("carries"),
        ),
        at,
        across,
        station.accuracy,
        tied,
        depth=depth_of_station(view, run, station, "crown", top) if top is not None else None,
        cover=_cover(view, run, part),
    )


def _thing(view: View, thing: Thing, tied: TiedPoint | None) -> Spot:
    run = view.built.thing(thing.text("on_run") or thing.text("serves"))
    at = _on_grid(thing)
    key = (thing.text("at_station") or "").partition(" ")[0]
    by_run = thing.si("along_run") is not None
    if at is None and run is not None and key and not by_run and not _in_a_hull(thing):
        for station in stations(run, view.hulls):
            if station.key == key:
                spot = _station(view, run, station, tied)
                of = tell("answers.station_2", station=label(station), tag=run.tag)
                words = tell(
                    "answers.no_place_its_own", thing=called(thing), of=of, run=called(run)
                )
                return replace(spot, tag=thing.tag, words=words)
    along = by_length(thing, 0.0, view.built, view.hulls) if at is None else None
    if isinstance(along, Shape) and not thing.text("hull"):
        return _along(view, thing, along, tied)
    sure = accuracy(thing)
    words = f"{called(thing)}, {along}" if isinstance(along, str) else called(thing)
    if thing.kind.word == "hull":
        words = tell("answers.corner_of_hull", hull=words)
    return _spot(
        view,
        thing,
        words,
        at,
        sure.horizontal_m,
        sure,
        tied,
        depth=depth_of_hull(view, thing) or depth_of_thing(thing),
        cover=_cover(view, thing, thing),
    )


def _in_a_hull(thing: Thing) -> bool:
    """A place from the walls of its hull is its own: nobody is to dig at its run's station."""
    measured = (thing.si("from_near"), thing.si("from_left"))
    return thing.text("hull") is not None and any(one is not None for one in measured)


def _along(view: View, thing: Thing, shape: Shape, tied: TiedPoint | None) -> Spot:
    """Return the spot of a thing placed by its length along a run."""
    form, hull = shape.form, view.hulls.get(shape.hull)
    ends = (form.start, form.end) if isinstance(form, Capsule) else (form.low, form.high)
    # Where its side is not recorded: between both, and as sure as half their distance.
    half = math.dist(*ends) / 2
    x, y, z = ((a + b) / 2 for a, b in zip(*ends, strict=True))
    across, up = shape.horizontal_m, shape.vertical_m
    if hull is not None:
        x, y, z = hull.to_site(x, y, z)
        across = root_sum_square(across, hull.horizontal_m, hull.turned_m)
        up = root_sum_square(up, hull.vertical_m)
    depth = Depth(
        of=MIDDLE,
        level_m=z,
        ground_m=None,
        depth_m=None,
        tolerance_m=up,
        surface_on="",
        basis="",
        measured_since=(),
    )
    sure = replace(accuracy(thing), basis=shape.basis, worked="", assumed=shape.assumed)
    return _spot(
        view,
        thing,
        shape.words,
        (x, y),
        across + half,
        sure,
        tied,
        depth=None if shape.missing else depth,
        cover=_cover(view, thing, thing),
    )


def _on_grid(thing: Thing) -> tuple[float, float] | None:
    x, y = thing.si("x"), thing.si("y")
    if x is not None and y is not None:
        return float(x), float(y)
    return None


def _spot(
    view: View,
    thing: Thing,
    words: str,
    at: tuple[float, float] | None,
    across_m: float,
    sure: Accuracy,
    tied: TiedPoint | None,
    *,
    depth: Depth | None,
    cover: str,
) -> Spot:
    pulled = tapes(view.built, at, thing.tag) if at is not None else None
    faces = tuple(_faces(view, thing))
    hull = view.hulls.get(thing.text("hull") or "")
    placed = at is not None or len(faces) > 1
    missing = [name for name, here in (("place", placed), ("depth", depth or faces)) if not here]
    return Spot(
        tag=thing.tag,
        words=words,
        x_m=None if at is None else at[0],
        y_m=None if at is None else at[1],
        either=_either(tied) if at is None else (),
        position_tolerance_m=across_m if placed else None,
        within_m=None if pulled is None else _within(across_m, pulled),
        basis=sure.worked or sure.basis,
        assumed=sure.assumed,
        cover=cover,
        tapes=pulled,
        hull=thing.text("hull") or "",
        from_faces=faces,
        depth=depth,
        not_recorded=tuple(missing),
        doubts=tied.says if tied else (),
        entries=tuple(entry.number for entry in thing.entries()),
        hull_round=hull is not None and hull.round,
        as_written=where(thing) if hull is None and at is None and _in_a_hull(thing) else "",
    )


def _within(across_m: float, pulled: Tapes) -> float:
    """The place is known to so much, and is set out by two tapes good for so much."""
    return root_sum_square(across_m, pulled.meets_within_m)


def _either(tied: TiedPoint | None) -> tuple[tuple[float, float], ...]:
    if tied is None or len(tied.fixes) < 2:
        return ()
    return tuple((fix.x_m, fix.y_m) for fix in tied.fixes)


def _faces(view: View, thing: Thing) -> Iterator[FromFace]:
    """Yield what is measured inside its hull, from the nearer end and the nearer side."""
    hull = view.hulls.get(thing.text("hull") or "")
    near, left = thing.si("from_near"), thing.si("from_left")
    if hull is None:
        return
    if near is not None:
        yield _nearer(("near", "far"), float(near), hull.length_m, _size(thing, "along"))
    if left is not None:
        yield _nearer(("left", "right"), float(left), hull.width_m, _size(thing, "across"))
    bottom, above = thing.quantity("bottom") or thing.quantity("level"), thing.si("above_floor")
    if bottom is not None and hull.floor_known:
        height = float(bottom.si) - hull.walking_floor_m
        to = tell("answers.its_bottom") if thing.quantity("bottom") else ""
        yield FromFace(face=WALKING_FLOOR, length_m=height, to=to)
    elif above is not None and bottom is None:
        yield FromFace(face=WALKING_FLOOR, length_m=float(above))


def _nearer(faces: tuple[str, str], low_m: float, whole_m: float, size_m: float | None) -> FromFace:
    """
    Return the measure from the nearer of two faces to the edge that is toward it.

    ``low_m`` is from the first face to the edge nearest that. Where nobody wrote how large the
    thing is, its other edge has no place.
    """
    to = "" if size_m == 0 else tell("answers.its_nearer_edge")
    far = None if size_m is None else whole_m - low_m - size_m
    if far is None or low_m <= far:
        return FromFace(face=faces[0], length_m=low_m, to=to)
    return FromFace(face=faces[1], length_m=far, to=to)


def _size(thing: Thing, way: str) -> float | None:
    """Return how large a thing is along its hull or across it; 0 where its middle is placed."""
    name = way
    if not thing.kind.field(way):
        if not thing.kind.field("face"):
            return 0.0
        face = thing.text("face") or ""
        name = {
            "along": {"left": "width", "right": "width", "floor": "width", "ceiling": "width"},
            "across": {"near": "width", "far": "width", "floor": "height", "ceiling": "height"},
        }[way].get(face, "")
    size = thing.si(name) if name else None
    return None if size is None else float(size)


def _cover(view: View, thing: Thing, part: Thing) -> str:
    """Return whether its own place was written before it was covered."""
    shape = next((shape for shape in view.shapes if shape.thing.tag == thing.tag), None)
    if shape is None:
        return OPEN
    return cover_state(view.built, replace(shape, entries=part.entries()))


def between_stations(view: View, run: Thing) -> Iterator[str]:
    """Yield how far a run may lie off the line between each two of its stations."""
    placed = stations(run, view.hulls)
    for one, other, stray in zip(placed, placed[1:], strays(run, placed), strict=False):
        if stray is None:
            yield tell("answers.to_its_way_not", key=one.key, key_2=other.key)
        elif stray.words:
            yield tell("answers.to", key=one.key, key_2=other.key, words=stray.words)
        else:
            apart = math.floor(stray.apart_m * 100 + 0.5) / 100
            yield tell(
                "answers.to_straight_m_no", key=one.key, key_2=other.key, apart=f"{apart:.2f}"
            )
