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
from record.words import tell

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
        depth = (
            Fed(key="depth", value=value, rests=rests, how=tell("figures.grade_less_top_its")),
        )
    missing = tuple(one for one in depth if isinstance(one, Missing))
    return work(
        "ground", hull.tag, (*climate, *(missing or depth)), what=tell("figures.at_its_roof")
    )


def of_surfaces(view: View, climate: tuple[Part, ...]) -> Iterator[Worked]:
    """Yield the inside surface of every room's lining, and the least insulation for it."""
    for room in view.built.of_kind("room"):
        hull = view.built.thing(room.text("hull"))
        built = view.built.thing(room.text("build-up"))
        if hull is None or built is None:
            continue
        shared = (*_inside(room), *_outside(hull, climate))
        layers = tuple(_layers(view, hull, built))
        notes = (
            tell(
                "figures.design_climate_by", design_climate_from=room.words("design_climate_from")
            ),
            *_films(built),
        )
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
        return found.missing or (
            nothing(tell("figures.earth_about_hull", tag=hull.tag), found.refused),
        )
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
        words = tell("figures.shell_carbon_steel_w", tag=hull.tag, steel_w_mk=f"{STEEL_W_MK:g}")
        yield Keeps(steel.value, STEEL_W_MK, words, steel.rests)


def _is_shell(layer: Thing) -> bool:
    return "shell" in (layer.text("layer") or "").casefold()


def _is_film(layer: Thing) -> bool:
    thick = layer.si("thickness")
    return thick is not None and thick < FILM_M


def _films(built: Thing) -> Iterator[str]:
    films = [one.text("layer") or one.key for one in built.parts if _is_film(one)]
    if films:
        yield tell("figures.films_thinner_than_mm", films=", ".join(films))


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
        where = tell("figures.conductivity_under_lot_whose", material=material)
        yield nothing(tell("figures.conductivity_layer", material=material, tag=layer.tag), where)
    elif len(known) != 1:
        yield from (lacks(lot, "conductivity") for lot in lots if lot not in known.values())
        if known:
            told = ", ".join(lot.tag for lot in known.values())
            words = tell("figures.which_conductivity_holds_for", tag=layer.tag, told=told)
            yield Missing(words=words, record=tell("figures.one_product_for_each"))
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
    notes = (
        [tell("figures.other_layers_lie_on", several=", ".join(o.tag for o in several))]
        if several
        else []
    )
    return work("pipe-insulation", run.tag, parts, what=layer.tag, notes=notes)


def _coldest_air(view: View) -> Fed | Missing:
    """Return the mean air of the coldest month: the ground only warms it on its way."""
    found = months(view)
    missing = next((one for one in found if isinstance(one, Missing)), None)
    if missing is not None:
        return missing
    rows = [one for one in found if isinstance(one, Fed)]
    least = min(rows, key=lambda one: float(one.value["air"]))
    how = tell("figures.air_month_coldest_ground", how=least.how)
    return Fed(key="pipe", value=least.value["air"], rests=least.rests, how=how)


def _room(view: View) -> tuple[Fed | Missing, ...]:
    """Return the dampest air that a room is meant for."""
    rooms = [one for one in view.built.of_kind("room") if one.held("design_temperature")]
    if not rooms:
        words = tell("figures.design_temperature_and_design")
        return (nothing(words, tell("figures.design_temperature_and_design_humidity")),)
    room = max(rooms, key=lambda one: float(one.si("design_humidity") or 0))
    how = tell("figures.of_3", tag=room.tag)
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
        what = tell(
            "figures.coat_2", layer=coat.words("layer"), coat=coat.words("coat"), moment=coat.moment
        )
        notes = [tell("figures.dew_point_recorded", dew_point=coat.words("dew_point"))] * bool(
            coat.held("dew_point")
        )
        parts = (field(coat, "air", "air"), field(coat, "humidity", "humidity"), surface)
        yield work("dew-point", coat.about, parts, what=what, notes=notes)
