"""The layers from the earth to the room, as strips of words with a hatch each."""

from __future__ import annotations

from collections.abc import Iterator

from manual.drawings.both import both
from manual.drawings.cut import Fill
from manual.drawings.strips import Layer, Strip, Strips
from manual.languages import say, say_how_many, term
from record.answers.behind_values import Layer as Told
from record.answers.layers import build_up, layers_behind
from record.answers.saying import FURTHER, LACKING, value
from record.facts.kind import OWNER
from record.facts.values import Absent, Why, in_words
from record.fold import Happening, Thing
from record.place import HullFrame, face_frame
from record.readers import View

FILLS = {
    "lining": Fill.LINING,
    "void": Fill.VOID,
    "shell": Fill.STEEL,
    "outside": Fill.OUTSIDE,
    "earth": Fill.EARTH,
}


def hull_layers(view: View, tag: str) -> Strips | None:
    """Return the layers of a hull, or None while a measure of the hull is not recorded."""
    hull, frame = view.built.thing(tag), view.hulls.get(tag)
    if hull is None or frame is None:
        return None
    return Strips(
        name=say("cut.layers_of", tag=tag, name=hull.text("name") or ""),
        strips=tuple(hull_strips(view, hull, frame)),
        notes=(*further_words(view),),
    )


def further_words(view: View) -> Iterator[str]:
    """Yield what a copy says of what it does not show."""
    if view.lacking:
        yield term(LACKING)
    elif view.reader != OWNER:
        yield term(FURTHER)


def hull_strips(view: View, hull: Thing, frame: HullFrame) -> Iterator[Strip]:
    """Yield the layers of every kind of wall, of the bare shell, of the seams, and of the fill."""
    walls = _by_layers(view, hull, frame)
    for told, tags in walls.items():
        yield Strip(_title(tags), tuple(_layer(each) for each in reversed(told)))
    if not walls:
        yield Strip(say("cut.shell_of", tag=hull.tag), tuple(_bare(view, hull)))
    for layers, seams in _seams(view, hull).items():
        yield Strip(
            say("cut.outside_of_seams", seams=", ".join(seams)),
            (Layer(Fill.EARTH, say("cut.earth")), *layers, Layer(Fill.STEEL, say("cut.weld"))),
        )
    lifts = tuple(_lifts(view, hull))
    unknown = (Layer(Fill.UNKNOWN, say("cut.fill_not_recorded")),)
    yield Strip(say("cut.fill_round_it"), lifts or unknown)


def _by_layers(view: View, hull: Thing, frame: HullFrame) -> dict[tuple[Told, ...], dict[str, int]]:
    """Layers that are told alike → the faces they are on, with how many panels of each."""
    found: dict[tuple[tuple[str, str, str], ...], tuple[tuple[Told, ...], dict[str, int]]] = {}
    for panel in view.built.of_kind("panel"):
        if panel.text("hull") != hull.tag:
            continue
        layers = layers_behind(view.built, panel, face_frame(panel, frame))
        alike = tuple((each.side, each.what, each.thickness) for each in layers)
        faces = found.setdefault(alike, (layers, {}))[1]
        face = panel.stored("face")
        faces[face] = faces.get(face, 0) + 1
    return dict(found.values())


def _title(faces: dict[str, int]) -> str:
    said = (
        say_how_many("cut.face_panels", count, face=term(face)) for face, count in faces.items()
    )
    return say("cut.from_earth_to_room", faces=", ".join(said))


def _layer(told: Told) -> Layer:
    if told.side == "earth":
        return Layer(Fill.EARTH, say("cut.earth"))
    unknown = told.side == "outside" and told.thickness == in_words(Absent(Why.NOT_RECORDED))
    fill = Fill.UNKNOWN if unknown else FILLS.get(told.side, Fill.UNKNOWN)
    return Layer(fill, f"{told.what}: {told.thickness}")


def _bare(view: View, hull: Thing) -> Iterator[Layer]:
    yield Layer(Fill.EARTH, say("cut.earth"))
    yield from (_layer(each) for each in reversed(build_up(view.built, hull, None)))
    plate = value(hull.kind, "steel_thickness", hull.value("steel_thickness"))
    yield Layer(Fill.STEEL, say("cut.plate", thickness=plate))
    yield Layer(Fill.UNKNOWN, say("cut.no_panel"))


def _seams(view: View, hull: Thing) -> dict[tuple[Layer, ...], list[str]]:
    """Layers outside a weld, outermost first → the seams of this hull that must get them."""
    found: dict[tuple[Layer, ...], list[str]] = {}
    for seam in view.built.of_kind("seam"):
        if seam.text("hull") == hull.tag:
            said = say("cut.seam", tag=seam.tag, joins=seam.words("joins"))
            found.setdefault(tuple(_on_weld(view, seam)), []).append(said)
    return found


def _on_weld(view: View, seam: Thing) -> Iterator[Layer]:
    """Yield every layer a seam must get, a step that leaves no film too, as it is written."""
    build = view.built.thing(seam.text("build-up"))
    if build is None or not build.parts:
        yield Layer(Fill.UNKNOWN, say("cut.build_up_not_recorded"))
        return
    for part in reversed(build.parts):
        thick = value(part.kind, "thickness", part.value("thickness"))
        coats = part.words("coats")
        said = say("cut.coats", material=part.words("material"), coats=coats, thickness=thick)
        yield Layer(Fill.OUTSIDE, said)


def _lifts(view: View, hull: Thing) -> Iterator[Layer]:
    """Yield the lifts of fill by what they are told to reach, the highest first."""
    works = [c.tag for c in view.built.of_kind("covering") if hull.tag in c.tags("hides")]
    lifts = [lift for lift in view.built.happened("backfilled") if lift.about in (hull.tag, *works)]
    for lift in sorted(lifts, key=_reaches, reverse=True):
        yield Layer(Fill.EARTH, _lift_words(lift))


def _reaches(lift: Happening) -> float:
    level = lift.si("to_level")
    return -1e9 if level is None else float(level)


def _lift_words(lift: Happening) -> str:
    level = lift.si("to_level")
    to = say("cut.level_not_recorded") if level is None else both(float(level))
    return say(
        "cut.lift",
        lift=lift.words("lift"),
        side=lift.words("side"),
        material=lift.words("material"),
        to=to,
        on=lift.on,
    )
