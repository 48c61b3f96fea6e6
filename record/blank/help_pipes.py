"""What clears a finding about runs, valves and drains, as blocks to fill in."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from record.blank.form import Ask, Block, Row, gaps
from record.blank.of_kind import ask, row, row_name
from record.checks.finding import Finding
from record.checks.hidden import Hidden
from record.checks.two_ties_and_a_check import WANTED, buried, landmarks
from record.facts import KINDS
from record.facts.pipes import STATION
from record.facts.values import Absent, Level, Why
from record.fold import Thing
from record.place import PlacedStation, tied_points
from record.place.shots import carries_water
from record.readers import View

DIAMETERS = ("outside diameter", "inside diameter")
NEW_STATION = ("x", "y", "level", "ground", "how")


def fields_of(hidden: Hidden | View, thing: Thing, *keys: str) -> Block:
    """Return a block of a thing that asks the fields of it which were not recorded."""
    asks = [
        ask(hidden.built, field)
        for key in keys
        if (field := thing.kind.field(key)) and _open(thing, field.name)
    ]
    return Block(kind=thing.kind, tag=thing.tag, asks=tuple(asks))


def _open(thing: Thing, name: str) -> bool:
    value = thing.value(name)
    return isinstance(value, Absent) and value.why is Why.NOT_RECORDED


def things(finding: Finding, hidden: Hidden, kind: str) -> Sequence[Thing]:
    """Return the things of a kind that a finding rests on."""
    tags = (entry.content.about for entry in finding.entries if entry.content)
    found = [hidden.built.thing(tag.partition("/")[0]) for tag in dict.fromkeys(tags)]
    return [thing for thing in found if thing is not None and thing.kind.word == kind]


def parts(finding: Finding, thing: Thing) -> Sequence[Thing]:
    """Return the parts of a thing that a finding rests on."""
    tags = {entry.content.about for entry in finding.entries if entry.content}
    return [part for part in thing.parts if part.tag in tags]


def stations(finding: Finding, hidden: Hidden) -> Iterator[Block]:
    """Every station levelled: the place or level each lacks, and rows for those that lack."""
    run = hidden.built.things[finding.about]
    placed = hidden.placed(run)
    rows = [_station(hidden, one, lacks) for one in placed if (lacks := _lacks(one))]
    rows += [row(hidden.built, STATION, "", *NEW_STATION) for _ in range(max(0, 2 - len(placed)))]
    asks: tuple[Ask, ...] = ()
    if carries_water(run) and any(_unworked(one) for one in placed):
        asks = fields_of(hidden, run, *DIAMETERS).asks
    yield Block(kind=run.kind, tag=run.tag, asks=asks, rows=tuple(rows))


def _lacks(one: PlacedStation) -> tuple[str, ...]:
    lacks: tuple[str, ...] = ()
    if one.x is None or one.y is None:
        lacks += ("from near", "from left") if one.thing.text("hull") else ("x", "y")
    if not isinstance(one.thing.value("level"), Level):
        lacks += ("level",)
    return lacks


def _unworked(one: PlacedStation) -> bool:
    return isinstance(one.thing.value("level"), Level) and one.invert_m is None


def _station(hidden: Hidden, one: PlacedStation, keys: Sequence[str]) -> Row:
    return row(hidden.built, STATION, row_name(one.thing), *keys)


def levels_again(finding: Finding, hidden: Hidden) -> Iterator[Block]:
    """The levels of stations that lie wrong, once the pipe is relaid or shot again."""
    run = hidden.built.things[finding.about]
    rows = [row(hidden.built, STATION, row_name(part), "level") for part in parts(finding, run)]
    note = (
        "The levels as shot again, or as relaid. Where the book was wrong, take the rows out and "
        "mend the entry: `asburied amend`."
    )
    yield Block(kind=run.kind, tag=run.tag, notes=(note,), rows=tuple(rows))


def falls_the_right_way(finding: Finding, hidden: Hidden) -> Iterator[Block]:
    run = hidden.built.things[finding.about]
    if "falls to" in finding.says:
        keys = ", ".join(part.key for part in run.parts)
        asked = Ask(key="falls to", hint=f"the station it falls to: {keys}")
        yield Block(kind=run.kind, tag=run.tag, asks=(asked,))
    else:
        yield from levels_again(finding, hidden)


def falls_enough(finding: Finding, hidden: Hidden) -> Iterator[Block]:
    if finding.shows:
        yield from levels_again(finding, hidden)
    else:
        run = hidden.built.things[finding.about]
        hint = next((line for line in finding.clears if line.startswith("- least fall:")), "")
        asks = (
            Ask(key="least fall", hint=hint.partition(": ")[2]),
            Ask(key="least fall from", hint="whose figure it is"),
        )
        yield Block(kind=run.kind, tag=run.tag, asks=asks)


def drain_at_low_point(finding: Finding, hidden: Hidden) -> Iterator[Block]:
    drains = things(finding, hidden, "drain")
    for drain in drains:
        yield fields_of(hidden, drain, "discharges", "screen", "freeze protection")
    if not drains:
        run = hidden.built.things[finding.about]
        at = [part.key for part in parts(finding, run)]
        yield Block(
            kind=KINDS["drain"],
            asks=(
                Ask(key="serves", said=run.tag),
                Ask(key="at station", said=at[0] if at else ""),
                Ask(key="discharges", hint="where it lets the water go"),
                *gaps("screen", "freeze protection"),
            ),
        )


def check_valve_at_low_end(finding: Finding, hidden: Hidden) -> Iterator[Block]:
    run = hidden.built.things[finding.about]
    valves = things(finding, hidden, "valve")
    for valve in valves:
        untyped = valve.text("type") is None
        key = "type" if untyped else "at station"
        yield Block(kind=valve.kind, tag=valve.tag, asks=gaps(key))
    if not valves:
        yield Block(
            kind=KINDS["valve"],
            asks=(
                *gaps("type"),
                Ask(key="on run", said=run.tag),
                Ask(key="at station", hint=", ".join(part.key for part in run.parts)),
                *gaps("normal position", "reached by", "looks like"),
            ),
        )


def can_be_found_again(finding: Finding, hidden: Hidden) -> Iterator[Block]:
    yield fields_of(hidden, hidden.built.things[finding.about], "tracer wire", "marker tape")


def drain_kept_open(finding: Finding, hidden: Hidden) -> Iterator[Block]:
    yield fields_of(hidden, hidden.built.things[finding.about], "screen", "freeze protection")


def valve_can_be_worked(finding: Finding, hidden: Hidden) -> Iterator[Block]:
    yield fields_of(hidden, hidden.built.things[finding.about], "normal position", "reached by")


def valve_turned_right(finding: Finding, hidden: Hidden) -> Iterator[Block]:
    valve = hidden.built.things[finding.about]
    hint = "inward or outward, as its arrow points now"
    yield Block(kind=valve.kind, tag=valve.tag, asks=(Ask(key="flow", hint=hint),))


def outlet_clear_of_frost(finding: Finding, hidden: Hidden) -> Iterator[Block]:
    drain = hidden.built.things[finding.about]
    hint = 'what keeps it open, or "n/a, " and why it cannot freeze'
    asks = (Ask(key="freeze protection", hint=hint),)
    yield Block(kind=drain.kind, tag=drain.tag, asks=asks)


def sealed_inside_and_out(finding: Finding, hidden: Hidden) -> Iterator[Block]:
    hole = hidden.built.things[finding.about]
    side = "inside" if "seal inside" in finding.says else "outside"
    yield Block(kind=hole.kind, tag=hole.tag, asks=gaps(f"sealed {side}"))


def two_ties_and_a_check(finding: Finding, hidden: Hidden) -> Iterator[Block]:
    places = next(places for thing, _, places in buried(hidden) if thing.tag == finding.about)
    tag, _, key = places[0].partition("/")
    point = Ask(key="point", said=key or "middle of it")
    rows = WANTED - len(landmarks(tied_points(hidden.built), places))
    row: Row = (*gaps("landmark"), point, *gaps("distance", "side"))
    yield Block(kind=KINDS["position tied"], tag=tag, rows=(row,) * rows)


def trunk_large_enough(finding: Finding, hidden: Hidden) -> Iterator[Block]:
    for run in things(finding, hidden, "run"):
        if run.si("inside_diameter") is None and run.si("size") is None:
            yield fields_of(hidden, run, "inside diameter")
