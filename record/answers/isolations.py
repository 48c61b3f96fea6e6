"""What to shut or switch off before a panel is opened or drilled."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from record.accounts.left import BY_ITSELF, position
from record.answers.behind_values import Isolation
from record.answers.hazards import is_electric
from record.answers.saying import value
from record.fold import Thing, natural
from record.place import Shape
from record.readers import View
from record.words import tell, term

#: Machines that may keep a wire live by themselves; the others only use what a breaker gives them.
SOURCES = ("air unit", "generator", "battery", "charger")
NO_ISOLATION = ("alarm", "radio", "lighting")  # to switch one off leaves the wires live
PLACES = ("hull", "from_near", "from_left", "level", "bottom", "above_floor", "x", "y")
SAID = {
    "from_near": "from near",
    "from_left": "from left",
    "level": "level",
    "bottom": "bottom at level",
    "above_floor": "above the floor",
}


def isolations(view: View, panel: Thing, shapes: Iterable[Shape]) -> tuple[Isolation, ...]:
    """Return the valves of each run met, by hand first, and what may feed any wire met, by tag."""
    things = {shape.thing.tag: shape.thing for shape in shapes}
    runs = {tag for tag, thing in things.items() if thing.kind.word == "run"}
    runs |= {tag for thing in things.values() for tag in _run_of(thing)}
    found: list[Isolation] = []
    for run in sorted(runs, key=natural):
        found.extend(_valves(view, run))
    wired = [thing for thing in things.values() if is_electric(thing)]
    if wired:
        found.extend(_power(view, panel, wired))
    return tuple(found)


def _valves(view: View, run: str) -> Iterator[Isolation]:
    built = view.built
    valves = [v for v in built.of_kind("valve") if run in _run_of(v)]
    by_hand = [valve for valve in valves if valve.text("type") not in BY_ITSELF]
    yield from (_isolation(view, run, valve) for valve in by_hand)
    if not by_hand and not _dry(built.thing(run)):
        yield _nothing(run, tell("answers.no_valve_on_recorded"))
    # It opens again by itself: it is told, as it lies there, and isolates nothing for good.
    for valve in valves:
        if valve not in by_hand:
            one = _isolation(view, run, valve)
            yield replace(one, kind=f"{one.kind}, {tell('answers.works_by_itself')}")


def _dry(run: Thing | None) -> bool:
    return run is not None and run.text("carries") in ("power", "signal", "spare")


def _run_of(thing: Thing) -> tuple[str, ...]:
    """Return the run something sits on; both, where two statements differ."""
    held = (*thing.held("on_run"), *thing.held("serves"))
    if thing.kind.word not in ("valve", "drain"):
        return ()
    return tuple(h.value for h in held if isinstance(h.value, str))


def _power(view: View, panel: Thing, wired: list[Thing]) -> Iterator[Isolation]:
    built = view.built
    hull, of = panel.text("hull"), ", ".join(thing.tag for thing in wired)
    met = {thing.tag for thing in wired}
    feeding = met | {panel.tag}
    yield from (
        _breaker(cable)
        for cable in built.of_kind("cable")
        if cable.tag in met or feeding & set(cable.tags("isolates"))
    )
    found = [
        machine
        for machine in built.of_kind("equipment")
        if (machine.tag in met and machine.text("type") not in NO_ISOLATION)
        or (
            machine.text("type") in (None, *SOURCES)
            and hull in (machine.text("hull"), *_served(machine))
        )
    ]
    for machine in found:
        one = _isolation(view, of, machine)
        source = machine.tag not in met
        yield replace(one, kind=f"{one.kind}, {tell('answers.may_feed')}") if source else one
    yield _nothing(of, tell("answers.switch_off_where_fed"))


def _served(machine: Thing) -> tuple[str, ...]:
    return tuple(tag.strip() for tag in (machine.text("serves") or "").split(","))


def where(thing: Thing) -> str:
    """Return in words where something is, as recorded."""
    said = []
    for name in PLACES:
        if thing.held(name):
            words = value(thing.kind, name, thing.value(name))
            said.append(f"{term(SAID.get(name, name))} {words}")
    if (station := thing.text("at_station")) is not None:
        said.append(tell("answers.at_station", station=station))
    return ", ".join(said) or tell("answers.place_not_recorded")


def _isolation(view: View, of: str, thing: Thing) -> Isolation:
    def words(name: str) -> str:
        return thing.words(name) if thing.kind.field(name) else term("n/a")

    return Isolation(
        of=of,
        tag=thing.tag,
        kind=", ".join(filter(None, (thing.kind.word, thing.text("type")))),
        where=where(thing),
        normal_position=words("normal_position"),
        left_as=_left_as(view, thing),
        turns_to_close=words("turns_to_close"),
        closes=words("closes"),
        isolates=words("isolates"),  # of a machine n/a: what it serves is not made safe by it
        reached_by=words("reached_by"),
        looks_like=words("looks_like"),
        entries=tuple(entry.number for entry in thing.entries()),
    )


def _breaker(cable: Thing) -> Isolation:
    """Return where a cable is switched off; what its breaker feeds beside it goes dead too."""
    rating = cable.text("breaker_rating")
    return Isolation(
        of=cable.tag,
        tag=cable.tag,
        kind=tell("answers.breaker", breaker=cable.words("breaker"))
        + (f", {rating}" if rating else ""),
        where=cable.words("breaker_at"),
        normal_position=term("n/a"),
        left_as=term("not recorded"),
        turns_to_close=term("n/a"),
        closes=term("n/a"),
        isolates=cable.words("isolates"),
        reached_by=term("not recorded"),
        looks_like=term("not recorded"),
        entries=tuple(entry.number for entry in cable.entries()),
    )


def _left_as(view: View, thing: Thing) -> str:
    """Return how it was last left, in whatever was written of it, and whether that still holds."""
    last = position(view, thing)
    if last.left is None or last.left_words is None:
        return term("not recorded")
    said = f"{last.left_words}, {last.left.moment}"
    return tell("answers.left_not_known", said=said) if last.state == "not known" else said


def _nothing(of: str, why: str) -> Isolation:
    return Isolation(
        of=of,
        tag="",
        kind=why,
        where=term("not recorded"),
        normal_position=term("n/a"),
        left_as=term("n/a"),
        turns_to_close=term("n/a"),
        closes=term("n/a"),
        isolates=term("n/a"),
        reached_by=term("n/a"),
        looks_like=term("n/a"),
        entries=(),
    )
