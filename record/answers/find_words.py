"""The answer to "where do I dig for it?", for somebody in snow with two tapes."""

from __future__ import annotations

from collections.abc import Iterator

from record.answers.find_values import Depth, Find, FromFace, Spot, Tape, Tapes
from record.answers.saying import depth, length, section, wrapped


def find_words(found: Find) -> list[str]:
    """Return the answer in lines of plain text."""
    lines = [f"FIND {found.tag}, {found.kind}. This is what was recorded, not a clearance to dig."]
    if found.as_of:
        lines.append(f"As it stood on {found.as_of}.")
    if not found.spots:
        lines.extend(
            ("", "No station of it is recorded: it may lie anywhere. That is not nowhere.")
        )
    for spot in found.spots:
        lines.extend(("", *wrapped(f"{spot.tag}, {spot.words}", 0, 2)))
        lines.extend(line for text in _spot(found, spot) for line in wrapped(text))
    lines.extend(section("BETWEEN STATIONS, not measured:", found.between))
    gone = [f"{each}: not to be measured from" for each in found.lost]
    lines.extend(section("LANDMARKS THAT ARE LOST:", gone))
    lines.extend(section("BEFORE ANY DIGGING:", found.before_digging))
    lines.extend(("", found.further_entries))
    return lines


def _spot(found: Find, spot: Spot) -> Iterator[str]:
    if spot.tapes is not None:
        yield from _pull(spot.tapes)
    elif spot.x_m is not None:
        yield (
            "FEWER THAN TWO LANDMARKS ARE LEFT to tape it from. Its place on the site grid is "
            f"{_at(spot.x_m, spot.y_m or 0.0)}: have it set out from the site's own points."
        )
    if spot.as_written:
        yield (
            f"As it was written, from its hull's walls: {spot.as_written}. Not all measures of "
            f"{spot.hull} are recorded, so where that is on the site grid cannot be told."
        )
    if spot.from_faces:
        said = "; ".join(map(_face, spot.from_faces))
        yield f"Inside hull {spot.hull}: {said}, from the inside of the plate and no lining."
        if spot.hull_round and any(each.face in ("left", "right") for each in spot.from_faces):
            yield (
                f"Hull {spot.hull} is round: left and right are from its widest inside, level with "
                "its axis, held plumb; not from the shell at that height."
            )
    for place in spot.either:
        yield f"It may be at {_at(*place)}: its ties leave two places and do not say which."
    yield from _not_recorded(spot)
    yield from _circle(found, spot)
    if spot.depth is not None:
        yield from _depth(spot.depth)
    yield _sure(spot)
    yield from (f"Its ties: {each}." for each in spot.doubts)


def _at(x: float, y: float) -> str:
    return f"x {length(x)}, y {length(y)}"


def _pull(pulled: Tapes) -> Iterator[str]:
    yield f"Hook one tape on {_mark(pulled.first)}, pull {length(pulled.first.length_m)}."
    yield f"Hook the other on {_mark(pulled.second)}, pull {length(pulled.second.length_m)}."
    line = f"the line from {pulled.first.landmark} to {pulled.second.landmark}"
    yield (
        f"Hold both level. They meet {pulled.side} of {line}: on your {pulled.turn} as you walk "
        f"from {pulled.first.landmark} to {pulled.second.landmark}."
    )
    if pulled.weak:
        yield (
            f"They meet at {pulled.angle_deg:.0f}° only, outside 30° to 150°: a little on a tape "
            "is much on the ground."
        )
    if pulled.check is not None:
        yield f"Check: {_mark(pulled.check)} is {length(pulled.check.length_m)} from there."
    else:
        yield "There is no third landmark to check by: one tape read wrong will not show."


def _mark(tape: Tape) -> str:
    known = "" if tape.state != "not recorded" else ", whether it still stands is not recorded"
    return f"{tape.landmark} ({tape.what}{known})"


def _face(one: FromFace) -> str:
    face, metres = one.face, one.length_m
    if face == "walking floor":
        what = f"{one.to} " if one.to else ""
        side = "above" if metres >= 0 else "BELOW"
        return f"{what}{length(abs(metres))} {side} the walking floor"
    end = "end" if face in ("near", "far") else "wall"
    return f"{length(metres)} from the {face} {end}" + (f" to {one.to}" if one.to else "")


def _not_recorded(spot: Spot) -> Iterator[str]:
    if "place" in spot.not_recorded and not spot.either and not spot.as_written:
        yield "Its place is NOT RECORDED. That does not mean that it is not there."
    if "depth" in spot.not_recorded:
        yield "Its depth is NOT RECORDED: expect it from the surface down."


def _circle(found: Find, spot: Spot) -> Iterator[str]:
    if spot.within_m is None:
        return
    said = f"Probe and dig in a circle of {length(spot.within_m)} round that point"
    legal = found.dig_tolerance_m
    if legal is not None and legal > spot.within_m:
        said += f"; by hand only within {found.dig_tolerance} of it, which is wider"
    yield f"{said}."


def _depth(deep: Depth) -> Iterator[str]:
    if deep.depth_m is None or not deep.surface_on:
        yield f"Its {deep.of} is at {deep.level_m:.3f} m; how deep is not recorded."
    else:
        under = "below" if deep.depth_m >= 0 else "ABOVE"
        yield (
            f"Its {deep.of} is {length(abs(deep.depth_m))} {under} the ground as it was on "
            f"{deep.surface_on} ({deep.ground_m:.3f} m), ± {depth(deep.tolerance_m)}. The ground "
            "may have been raised or lowered since."
        )
    for since in deep.measured_since:
        yield f"Cover there: {since}."
    if deep.basis:
        yield f"Level: {deep.basis}."


def _sure(spot: Spot) -> str:
    said = "how it was placed is not recorded" if spot.basis == "not known" else spot.basis
    if spot.position_tolerance_m is not None:
        said += f"; the place ± {depth(spot.position_tolerance_m)}"
        said += ", assumed" if spot.assumed else ""
    numbers = f" ({', '.join(spot.entries)})" if spot.entries else ""
    return f"How sure: {said}; written: {spot.cover}{numbers}."
