"""Air units: what flow is recorded of each, by its plate and as last measured."""

from __future__ import annotations

from collections.abc import Iterator

from record.figures.feeding import field, nothing, reading
from record.figures.worked import Fed, Missing, Worked, work
from record.fold import Thing
from record.readers import View
from record.units import Dimension
from record.words import tell

UNIT, CRANK = "air unit", "hand crank"
NO_UNIT = nothing(
    "an air unit with its flow", '"- flow: …" under "## equipment …" of type air unit'
)


def machines(view: View, *types: str) -> Iterator[Thing]:
    for thing in view.built.of_kind("equipment"):
        if thing.text("type") in types:
            yield thing


def flows(view: View) -> Iterator[tuple[str, Fed | Missing]]:
    """Yield every air unit's tag and its recorded flow; once without a tag where there is none."""
    units = list(machines(view, UNIT))
    for unit in units:
        yield unit.tag, field(unit, "flow", "flow")
    if not units:
        yield "", NO_UNIT


def of_people(view: View) -> Iterator[Worked]:
    """Yield each person's share of the air, by what is recorded of a unit and as last measured."""
    site = view.built.site_thing()
    people = (
        nothing(tell("figures.site"), '"## site …"')
        if site is None
        else field(site, "people", "people")
    )
    found = [*machines(view, UNIT), *(one for one in machines(view, CRANK) if one.held("flow"))]
    for unit in found:
        flow = field(unit, "flow", "flow", how=tell("figures.recorded"))
        yield work("supply", unit.tag, (flow, people), what=tell("figures.by_its_recorded_flow"))
        for what, flow in measured(view, unit):
            yield work("supply", unit.tag, (flow, people), what=what)
    if not found and site is not None:
        yield work("supply", site.tag, (NO_UNIT, people))


def measured(view: View, unit: Thing) -> Iterator[tuple[str, Fed]]:
    """Yield the newest flow measured of a unit, under each title it was measured under."""
    newest: dict[str, tuple[str, Fed]] = {}
    for one in view.built.about(unit.tag, "tested", "flow tested", "reading taken"):
        name = "flow" if one.si("flow") is not None else "reading"
        value = one.si("flow") or reading(one.text("reading"), Dimension.FLOW)
        if one.about == unit.tag and value is not None:
            title = one.text("test") or one.text("what") or one.kind.word
            how = tell("figures.read", words=one.words(name))
            fed = Fed(key="flow", value=float(value), rests=one.held(name), how=how)
            newest[title.casefold()] = (f"{title}, {one.on}", fed)
    yield from newest.values()
