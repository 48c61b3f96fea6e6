"""Each buried valve, drain outlet and hatch is tied from two landmarks, and once more to check."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import chain

from record.checks.check_valve_at_low_end import inside
from record.checks.finding import CERTAIN, Finding, Rule
from record.checks.hidden import Hidden
from record.checks.outlet_clear_of_frost import outlet
from record.entry import Entry
from record.facts.pipes import DRAINAGE
from record.fold import Thing
from record.place import TiedPoint, tied_points
from record.place.shots import label

EARTH = ("backfill", "fill", "turf", None)
WANTED = 3


def find(hidden: Hidden) -> Iterator[Finding]:
    """Find what earth will hide that fewer than three landmarks were taped to."""
    if hidden.covering.text("what") not in EARTH:
        return
    tied = tied_points(hidden.built)
    for thing, words, places in buried(hidden):
        marks = landmarks(tied, places)
        if len(marks) < WANTED:
            known = f"tied from {', '.join(marks)} only" if marks else "not tied from any landmark"
            yield RULE.finding(
                thing.tag,
                f"{words} is {known}; two ties find it again, a third proves them",
                clears=(
                    f"## position tied {places[0].partition('/')[0]}",
                    "| landmark | point | distance | side |",
                    "|---|---|---|---|",
                    "and a row for each of three landmarks",
                ),
                entries=(*thing.entries(), *ties(tied, places)),
                sure=CERTAIN,
                stops=thing.kind.word != "run",
            )


Buried = tuple[Thing, str, tuple[str, ...]]  # what it is, in words, tags its ties may be under


def buried(hidden: Hidden) -> Iterator[Buried]:
    """Yield each valve, drain outlet and hatch that earth will hide, and what its ties are of."""
    yield from chain(_valves(hidden), _outlets(hidden), _hatches(hidden))


def _valves(hidden: Hidden) -> Iterator[Buried]:
    for valve in hidden.valves:
        run = hidden.built.thing(next(iter(valve.tags("on_run")), None))
        said = (valve.text("at_station") or "").casefold()
        placed = hidden.placed(run) if run else ()
        at = next((s for s in placed if said in (s.key.casefold(), label(s).casefold())), None)
        within = valve.text("hull") is not None
        if run is not None and at is not None and not within:
            within = inside(hidden, run, placed, at) is True
        if not within:
            places = (valve.tag, *((at.thing.tag,) if at else ()))
            yield valve, f"its place ({valve.words('type')} valve)", places


def _outlets(hidden: Hidden) -> Iterator[Buried]:
    """A drain's own outlet, or the run's that carries it off."""
    for drain in (*hidden.drains, *hidden.runs):
        if drain.kind.word == "run" and drain.text("carries") not in DRAINAGE:
            continue
        at = outlet(hidden, drain)
        if at is None or at[2] is True:
            continue
        run, station, _ = at
        if drain.kind.word == "drain" and run in hidden.runs and drain.tags("through"):
            continue  # told of the run itself
        yield (
            drain,
            f"its outlet, {run.tag} station {label(station)},",
            (
                station.thing.tag,
                drain.tag,
            ),
        )


def _hatches(hidden: Hidden) -> Iterator[Buried]:
    """Ways out and their lids, where it is earth that goes over them and not their own fill."""
    if hidden.covering.text("what") == "fill":
        return
    ways = {way.tag for way in hidden.built.of_kind("way out")}
    for thing in hidden.everything():
        way = thing.kind.word == "way out"
        if way or (thing.text("type") in ("hatch", "lid") and ways & set(thing.tags("in"))):
            yield thing, "its top" if way else "its place", (thing.tag, *thing.tags("in"))


def landmarks(tied: tuple[TiedPoint, ...], places: tuple[str, ...]) -> list[str]:
    """Return the landmarks that a place was taped from, once each."""
    marks = (tie.landmark.tag for point in tied if point.tag in places for tie in point.ties)
    return list(dict.fromkeys(marks))


def ties(tied: tuple[TiedPoint, ...], places: tuple[str, ...]) -> Iterator[Entry]:
    """Yield the entries of every tie to a place."""
    return (
        entry
        for point in tied
        if point.tag in places
        for tie in point.ties
        for entry in tie.tie.entries()
    )


RULE = Rule(
    word="two ties and a check tie",
    why=(
        "Whoever looks for a valve, an outlet or a lid in snow or in tall grass has a tape and two "
        "landmarks. Two ties cross in one place even if one of them is wrong; only the third says "
        "so, and after the fill none can be taken. (Common practice, no source.)"
    ),
    find=find,
)
