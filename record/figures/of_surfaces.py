"""Inside surfaces through what was built: how cold they get, and what keeps them dry."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from record.figures.feeding import field, lacks, nothing, numbers
from record.figures.of_ground import months
from record.figures.of_hulls import roof
from record.figures.worked import Fed, Missing, Part, Worked, work
from record.fold import Held, Thing
from record.readers import View

#: A film of paint thinner than this keeps no warmth that can be told.
FILM_M = 0.001
STEEL_W_MK = 50.0
AS_COLD = "the earth at its coldest where the roof lies"


@dataclass(frozen=True, slots=True)
class Keeps:
    """A layer that keeps warmth: how thick, its conductivity, what it is, what that rests on."""

    thickness_m: float
    conductivity_w_mk: float
    words: str
    rests: tuple[Held, ...]

    def fed(self) -> Fed:
        row = {"thickness": self.thickness_m, "conductivity": self.conductivity_w_mk}
        return Fed(key="layer", value=row, rests=self.rests, how=self.words)


def of_roof_ground(view: View, climate: tuple[Part, ...]) -> Iterator[Worked]:
    """Yield how cold the earth gets where the roof of every hull lies."""
    for hull in view.built.of_kind("hull"):
        yield _ground(hull, climate)


def _ground(hull: Thing, climate: tuple[Part, ...]) -> Worked:
    grade, top = field(hull, "ground_level", "depth"), roof(hull)
    depth: tuple[Part, ...] = (grade, *top) if isinstance(grade, Missing) else top
    if isinstance(grade, Fed) and isinstance(top[0], Fed):
        value = round(grade.value - top[0].value, 9)
        rests = (*grade.rests, *top[0].rests)
        depth = (Fed(key="depth", value=value, rests=rests, how="grade less the top of its roof"),)
    missing = tuple(one for one in depth if isinstance(one, Missing))
    return work("ground", hull.tag, (*climate, *(missing or depth)), what="at its roof")


def of_surfaces(view: View, climate: tuple[Part, ...]) -> Iterator[Worked]:
    """Yield the inside surface of every room's lining, and the least insulation for it."""
    for room in view.built.of_kind("room"):
        hull = view.built.thing(room.text("hull"))
        built = view.built.thing(room.text("build-up"))
        if hull is None or built is None:
            continue
        shared = (*_inside(room), *_outside(hull, climate))
        layers = tuple(_layers(view, hull, built))
        notes = (f"design climate by {room.words('design_climate_from')}", *_films(built))
        yield work("surface", room.tag, (*shared, *map(_told, layers)), notes=notes)
        yield work("least-insulation", room.tag, (*shared, *_best(layers)), notes=notes[:1])


def _inside(room: Thing) -> tuple[Fed | Missing, ...]:
    return (
        field(room, "design_temperature", "inside"),
        field(room, "design_humidity", "humidity"),
    )


def _outside(hull: Thing, climate: tuple[Part, ...]) -> tuple[Fed | Missing, ...]:
    found = _ground(hull, climate)
    if not found.figures:
        return found.missing or (nothing(f"the earth about hull {hull.tag}", found.refused),)
    rests = found.rests
    return (Fed(key="outside", value=found.number("coldest there"), rests=rests, how=AS_COLD),)


def _told(one: Keeps | Missing) -> Part:
    return one if isinstance(one, Missing) else one.fed()


def _best(layers: tuple[Keeps | Missing, ...]) -> Iterator[Part]:
    missing = [one for one in layers if isinstance(one, Missing)]
    yield from missing
    keeps = [one for one in layers if isinstance(one, Keeps)]
    if not missing and keeps:
        best = min(keeps, key=lambda one: one.conductivity_w_mk)
        value = best.conductivity_w_mk
        yield Fed(key="conductivity", value=value, rests=best.rests, how=best.words)


def _layers(view: View, hull: Thing, built: Thing) -> Iterator[Keeps | Missing]:
    """Yield the layers of a lining that keep warmth, from the room outward, then the shell."""
    for layer in reversed(built.parts):
        if not _is_shell(layer) and not _is_film(layer):
            yield from _layer(view, layer)
    steel = field(hull, "steel_thickness", "layer")
    if isinstance(steel, Missing):
        yield steel
    else:
        words = f"shell of {hull.tag}; carbon steel, {STEEL_W_MK:g} W/mK usual"
        yield Keeps(steel.value, STEEL_W_MK, words, steel.rests)


def _is_shell(layer: Thing) -> bool:
    return "shell" in (layer.text("layer") or "").casefold()


def _is_film(layer: Thing) -> bool:
    thick = layer.si("thickness")
    return thick is not None and thick < FILM_M


def _films(built: Thing) -> Iterator[str]:
    films = [one.text("layer") or one.key for one in built.parts if _is_film(one)]
    if films:
        yield f"films thinner than 1 mm are left out: {', '.join(films)}"


def _layer(view: View, layer: Thing) -> Iterator[Keeps | Missing]:
    found, rests, missing = numbers(layer, ("thickness",))
    lots = _lots(view, layer.text("material") or "")
    yield from missing
    if layer.text("material") is None:
        yield lacks(layer, "material")
        return
    known = {lot.si("conductivity"): lot for lot in lots if lot.si("conductivity") is not None}
    if not lots:
        material = layer.words("material")
        where = f'"- conductivity: …" under a "## lot …" whose product is {material}'
        yield nothing(f"conductivity of {material}, layer {layer.tag}", where)
    elif len(known) != 1:
        yield from (lacks(lot, "conductivity") for lot in lots if lot not in known.values())
        if known:
            told = ", ".join(lot.tag for lot in known.values())
            words = f"which conductivity holds for layer {layer.tag}: {told} differ"
            yield Missing(words=words, record="one product for each, by its own name")
    elif not missing:
        ((value, lot),) = known.items()
        held = (*rests, *layer.held("material"), *lot.held("conductivity"))
        words = f"{layer.words('material')}; {lot.tag}, {lot.words('conductivity_from')}"
        yield Keeps(found["thickness"], float(value or 0), words, held)


def _lots(view: View, material: str) -> list[Thing]:
    """Return the lots of a material, by the words of their product."""
    plain = material.casefold()
    lots = view.built.of_kind("lot")
    return [lot for lot in lots if (lot.text("product") or "").casefold() == plain]


def of_pipes(view: View) -> Iterator[Worked]:
    """Yield whether insulation keeps a cold air pipe dry in the room it passes through."""
    for layer in view.built.of_kind("insulation"):
        for tag in layer.tags("on_run"):
            run = view.built.thing(tag)
            if run is not None and run.text("carries") == "supply air":
                yield _pipe(view, run, layer)


def _pipe(view: View, run: Thing, layer: Thing) -> Worked:
    several = [
        one
        for one in view.built.of_kind("insulation")
        if run.tag in one.tags("on_run") and one.count("order") not in (None, 1)
    ]
    parts = (
        field(run, "outside_diameter", "outside-diameter"),
        _coldest_air(view),
        *_room(view),
        field(layer, "conductivity", "conductivity", how=layer.words("conductivity_from")),
        field(layer, "thickness", "thickness"),
    )
    notes = [f"other layers lie on it too: {', '.join(o.tag for o in several)}"] if several else []
    return work("pipe-insulation", run.tag, parts, what=layer.tag, notes=notes)


def _coldest_air(view: View) -> Fed | Missing:
    """Return the mean air of the coldest month: the ground only warms it on its way."""
    found = months(view)
    missing = next((one for one in found if isinstance(one, Missing)), None)
    if missing is not None:
        return missing
    rows = [one for one in found if isinstance(one, Fed)]
    least = min(rows, key=lambda one: float(one.value["air"]))
    how = f"air of month {least.how}, the coldest; the ground warms it on its way"
    return Fed(key="pipe", value=least.value["air"], rests=least.rests, how=how)


def _room(view: View) -> tuple[Fed | Missing, ...]:
    """Return the dampest air that a room is meant for."""
    rooms = [one for one in view.built.of_kind("room") if one.held("design_temperature")]
    if not rooms:
        words = "design temperature and design humidity of a room"
        return (nothing(words, '"- design temperature: …" and "- design humidity: …" of a room'),)
    room = max(rooms, key=lambda one: float(one.si("design_humidity") or 0))
    how = f"of {room.tag}"
    return (
        field(room, "design_temperature", "air", how=how),
        field(room, "design_humidity", "humidity", how=how),
    )


def of_dew_points(view: View) -> Iterator[Worked]:
    """Yield the dew point, and the steel against it, wherever a coat's air was read."""
    for coat in view.built.happened("coat applied"):
        if coat.si("air") is None or coat.si("humidity") is None:
            continue
        surface: Part = field(coat, "surface", "surface") if coat.held("surface") else None
        what = f"{coat.words('layer')}, coat {coat.words('coat')}, {coat.moment}"
        notes = [f"dew point as recorded: {coat.words('dew_point')}"] * bool(coat.held("dew_point"))
        parts = (field(coat, "air", "air"), field(coat, "humidity", "humidity"), surface)
        yield work("dew-point", coat.about, parts, what=what, notes=notes)
