"""Cranks: what turning them takes, by their sheet and against the way as built, and in turns."""

from __future__ import annotations

from collections.abc import Iterator

from record.figures.feeding import field, perhaps
from record.figures.of_units import CRANK, UNIT, machines
from record.figures.of_ways import way_at
from record.figures.worked import Fed, Missing, Part, Worked, work
from record.fold import Thing
from record.readers import View
from record.words import tell

Crank = tuple[Thing, Thing | None]  # a crank, or a unit with one, and the unit it is part of
SHEET, BUILT = "by its sheet", "against its way as built"
TURN_S, ROUNDS = 900.0, 2


def cranks(view: View) -> Iterator[Crank]:
    """Yield every crank with its unit, and every unit that states how fast it is cranked."""
    found = list(machines(view, CRANK))
    turned = {part for crank in found for part in crank.tags("part_of")}
    for crank in found:
        yield crank, next((view.built.thing(tag) for tag in crank.tags("part_of")), None)
    for unit in machines(view, UNIT):
        if unit.held("crank_rate") and unit.tag not in turned:
            yield unit, None


def of_cranks(view: View) -> Iterator[Worked]:
    """Yield what cranking takes at the recorded rate: by its sheet, and at the way as built."""
    for crank, unit in cranks(view):
        able = _able(view)
        yield _by_sheet(crank, unit, able)
        yield as_built(view, crank, unit, able)


def _by_sheet(crank: Thing, unit: Thing | None, able: Part) -> Worked:
    pressure = _either(crank, unit, "pressure_at_flow", "pressure")
    return work("crank", crank.tag, (*_shared(crank, unit), pressure, able), what=SHEET)


def as_built(view: View, crank: Thing, unit: Thing | None, able: Part = None) -> Worked:
    """Return the crank at what the runs, filters and valves take at its flow."""
    shared = _shared(crank, unit)
    flow = shared[0]
    assert isinstance(flow, Fed | Missing)
    way = way_at(view, crank.tag, flow)
    pressure: tuple[Part, ...] = way.missing
    if way.figures:
        how = tell("figures.what_its_way_takes")
        value = way.number("way takes")
        pressure = (Fed(key="pressure", value=value, rests=way.rests, how=how),)
    notes = (*way.notes, *filter(None, (way.refused,)))
    return work("crank", crank.tag, (*shared, *pressure, able), what=BUILT, notes=notes)


def _shared(crank: Thing, unit: Thing | None) -> tuple[Part, ...]:
    return (
        _either(crank, unit, "flow", "flow"),
        _either(crank, unit, "crank_rate", "turned"),
        _either(crank, unit, "crank_radius", "radius"),
        _efficiency(crank, unit),
    )


def _able(view: View) -> Part:
    site = view.built.site_thing()
    return None if site is None else perhaps(site, "able_to_crank", "able")


def _either(crank: Thing, unit: Thing | None, name: str, key: str) -> Fed | Missing:
    """Return a field of the crank, else of the unit it is part of."""
    if crank.held(name) or unit is None or not unit.held(name):
        return field(crank, name, key)
    return field(unit, name, key, how=tell("figures.of_3", tag=unit.tag))


def _efficiency(crank: Thing, unit: Thing | None) -> Part:
    holder = unit if unit is not None and not crank.held("efficiency") else crank
    return perhaps(holder, "efficiency", "efficiency")


def of_holds(view: View) -> Iterator[Worked]:
    """Yield what was published of holding the power that each crank takes."""
    for crank, unit in cranks(view):
        for one in (_by_sheet(crank, unit, None), as_built(view, crank, unit)):
            power: tuple[Part, ...] = one.missing
            if one.figures:
                value = one.number("at the crank")
                power = (
                    Fed(key="power", value=value, rests=one.rests, how=tell("figures.in_crank")),
                )
            if one.figures or one.missing:
                yield work("crank-hold", crank.tag, power, what=one.what)


def of_rotas(view: View) -> Iterator[Worked]:
    """Yield two rounds at the crank, for as many as are recorded as able."""
    site = view.built.site_thing()
    if site is None or not list(cranks(view)):
        return
    able = field(site, "able_to_crank", "able")
    if isinstance(able, Missing):
        yield work("rota", site.tag, (able,))
        return
    whole = Fed(
        key="total",
        value=TURN_S * ROUNDS * max(able.value, 1),
        usual=True,
        how=tell("figures.two_rounds_to_show"),
    )
    yield work("rota", site.tag, (able, whole))
