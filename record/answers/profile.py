"""A run from the side: its levels, falls, low points, cover, and what lies in frost."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from record.answers.behind_panel import further
from record.answers.find import between_stations
from record.answers.found import find_thing
from record.answers.network import titled
from record.answers.profile_values import (
    InFrost,
    LowPoint,
    Pond,
    Profile,
    ProfileLength,
    ProfileStation,
)
from record.answers.refused import CannotAnswer
from record.answers.unsettled import unsettled
from record.calc.falls import low_points, sags
from record.calc.frost_zone import shallow
from record.fold import Thing
from record.place import PlacedStation, stations
from record.place.shots import falls_to, label, levelled, levels, said_not_to_fall, stretches
from record.readers import View
from record.words import tell


def profile(view: View, tag: str) -> Profile:
    """
    Return a run seen from the side. Raises NotFound, and CannotAnswer for what is no run.
    """
    run = find_thing(view, tag.partition("/")[0])
    if run.kind.word != "run":
        raise CannotAnswer(f"{run.tag} is a {run.kind.word}, not a run")
    placed = stations(run, view.hulls)
    site = view.built.site_thing()
    frost = site.si("frost_depth") if site else None
    depth = None if frost is None else float(frost)
    covers = [(s.cover_m, label(s)) for s in placed if s.cover_m is not None]
    least = min(covers, default=None)
    return Profile(
        tag=run.tag,
        words=titled(run),
        falls_to=run.words("falls_to"),
        stations=tuple(_station(view, run, one) for one in placed),
        lengths=tuple(_lengths(run, placed)),
        low_points=tuple(_low_points(view, run, placed)),
        ponds=tuple(_ponds(placed)),
        least_cover=None if least is None else (least[1], least[0]),
        frost_depth_m=depth,
        frost_depth_from=site.words("frost_depth_from") if site else "not recorded",
        in_frost=_in_frost(placed, depth),
        between=tuple(between_stations(view, run)),
        not_recorded=tuple(_not_recorded(placed, depth)),
        disagreements=tuple(one.words for one in unsettled(view.built, run.tag)),
        reader=view.reader,
        as_of=view.built.as_of,
        further_entries=further(view),
    )


def _station(view: View, run: Thing, one: PlacedStation) -> ProfileStation:
    ground = max(one.thing.held("ground"), key=lambda held: held.on, default=None)
    on = ground.on if ground and one.ground_m is not None else ""
    return ProfileStation(
        key=one.key,
        name=one.name,
        chainage_m=one.chainage_m,
        ground_m=one.ground_m,
        ground_on=on,
        crown_m=one.crown_m,
        centre_m=one.centre_m,
        invert_m=one.invert_m,
        cover_m=one.cover_m,
        tolerance_m=one.accuracy.vertical_m,
        not_settled=tuple(one.thing.unsettled()),
        assumed=one.accuracy.assumed,
        basis=one.accuracy.worked or one.accuracy.basis,
        measured_since=tuple(_since(view, run, one, on)),
        entries=tuple(entry.number for entry in one.thing.entries()),
    )


def _since(view: View, run: Thing, one: PlacedStation, on: str) -> Iterator[str]:
    for measured in view.built.about(run.tag, "cover measured"):
        point = (measured.text("point") or "").removeprefix(run.tag).strip(" /")
        if point.partition(" ")[0] == one.key and measured.on >= on:
            yield f"{measured.words('cover')} on {measured.on} ({measured.entry.number})"


def _lengths(run: Thing, placed: Sequence[PlacedStation]) -> Iterator[ProfileLength]:
    low = None if said_not_to_fall(run) else falls_to(run, placed)
    for one in stretches(placed, low):
        yield ProfileLength(
            from_key=one.here.key,
            to_key=one.there.key,
            length_m=one.length_m,
            drop_m=one.drop_m,
            slope=one.slope,
            tolerance_m=one.fall.tolerance_m,
            verdict=one.verdict,
            words=one.words,
        )


def _low_points(view: View, run: Thing, placed: Sequence[PlacedStation]) -> Iterator[LowPoint]:
    shots = levelled(placed)
    if len(shots) < 2:
        return
    line = levels(shots)
    by_chainage = {at.chainage_m: (shot, at) for shot, at in zip(shots, line, strict=True)}
    for low in low_points(line):
        shot, at = by_chainage[low]
        yield LowPoint(
            chainage_m=low,
            station=label(shot),
            invert_m=at.invert_m,
            drained=drained(view, run, shot),
        )


def drained(view: View, run: Thing, shot: PlacedStation) -> str:
    """Return what takes the water at a station of a run, or that nothing is recorded."""
    for drain in view.built.of_kind("drain"):
        at = (drain.text("at_station") or "").partition(" ")[0]
        if drain.text("serves") == run.tag and at == shot.key:
            return tell("answers.takes", tag=drain.tag, discharges=drain.words("discharges"))
    last = stations(run, view.hulls)[-1]
    if shot.key == last.key and run.text("outlet") and not _air(run):
        return tell("answers.leaves_by_outlet", outlet=run.words("outlet"))
    return tell("answers.no_drain_there_recorded")


def _air(run: Thing) -> bool:
    return (run.text("carries") or "").endswith("air")


def _ponds(placed: Sequence[PlacedStation]) -> Iterator[Pond]:
    shots = levelled(placed)
    for sag in sags(levels(shots)) if len(shots) > 1 else ():
        yield Pond(
            from_m=sag.from_m,
            to_m=sag.to_m,
            deepest_at_m=sag.chainage_m,
            depth_m=sag.depth_m,
            level_m=sag.pond_level_m,
        )


def _in_frost(placed: Sequence[PlacedStation], frost_m: float | None) -> tuple[InFrost, ...] | None:
    """Return which lengths lie in frost; None while a cover or the frost depth is not recorded."""
    points = [
        (one.chainage_m, one.cover_m)
        for one in placed
        if one.chainage_m is not None and one.cover_m is not None
    ]
    if frost_m is None or len(points) < 2 or len(points) != len(placed):
        return None
    kept: list[tuple[float, float]] = []
    for chainage, cover in points:
        if kept and chainage <= kept[-1][0]:
            # Two stations above one another: the shallower counts.
            kept[-1] = (kept[-1][0], min(cover, kept[-1][1]))
        else:
            kept.append((chainage, cover))
    if len(kept) < 2:
        return None
    return tuple(
        InFrost(from_m=one.from_m, to_m=one.to_m, length_m=one.length_m)
        for one in shallow(kept, frost_m)
    )


TOLD_BY = {"level": "a level", "ground": "the ground", "x": "its place", "y": "its place"}


def _not_recorded(placed: Sequence[PlacedStation], frost_m: float | None) -> Iterator[str]:
    if len(placed) < 2:
        yield "two stations: it lies nobody knows how"
    for one in placed:
        lacking = [
            name
            for name, value in (
                ("its place", one.chainage_m),
                ("a level", one.centre_m or one.invert_m or one.crown_m),
                ("its invert", one.invert_m),
                ("the ground", one.ground_m),
            )
            if value is None
        ]
        if "a level" in lacking:
            lacking.remove("its invert")
        # What is told in two ways is recorded, and stands among what is not settled.
        twice = [said for name, said in TOLD_BY.items() if name in one.thing.unsettled()]
        lacking = [name for name in lacking if name not in twice]
        if lacking:
            yield f"station {label(one)}: {', '.join(lacking)}"
    if frost_m is None:
        yield "the frost depth of the site"
