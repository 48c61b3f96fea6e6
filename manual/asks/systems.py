"""Each system by itself, told in the order that operation and maintenance manuals are asked for.

The order is informed by UFGS 01 78 23 (operation and maintenance data). A system of which nothing
is recorded in a copy has no pages in it; what a system lacks is a blank in its own row.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from manual.asks.asking import Answer, Told
from manual.asks.cards import Card
from manual.asks.emergency_page import Page
from manual.asks.tables import TriedRow
from manual.languages import say, term
from record.accounts.left import BY_ITSELF
from record.facts.looks import LOOKS
from record.facts.pipes import AIR, DRAINAGE
from record.facts.values import Absent, Why
from record.fold import Thing
from record.fold.looks import found
from record.readers import View

Tried = Callable[[str], Sequence[TriedRow]]
CLEANING = ("drain-clearing", "drain-flush", "coating-look", "filter-change", "trap-fill")
EVERYDAY = "normal working"
START = "start a stay"


@dataclass(frozen=True, slots=True)
class Members:
    """What belongs to a system: runs by what they carry, equipment by type, and whole kinds."""

    carries: tuple[str, ...] = ()
    types: tuple[str, ...] = ()
    kinds: tuple[str, ...] = ()


SYSTEMS: Mapping[str, Members] = {
    "air": Members(
        AIR, ("air unit", "filter set", "hand crank", "fan", "heater", "gas filter", "alarm")
    ),
    "drains": Members(DRAINAGE, ("pump", "sump"), ("drain",)),
    "power": Members(("power",), ("generator", "battery", "charger", "lighting"), ("cable",)),
    "water": Members(("drinking water",), ("water tank", "toilet")),
    "doors": Members((), ("door",), ("door",)),
    "way_out": Members((), (), ("way out", "concealed entry")),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One piece of a system, as it is known, and how it stands when nothing is wrong."""

    tag: str
    looks: Told | str
    what: str
    normal: Told | str


@dataclass(frozen=True, slots=True, kw_only=True)
class Led:
    """Words that lead somewhere: the sign of a trouble to its page, a task to its card."""

    words: Told | str
    to: str  # the id of the place
    at: str  # what stands there


@dataclass(frozen=True, slots=True, kw_only=True)
class SystemTold:
    """A system as its section prints it; an empty row is a blank."""

    name: str
    title: str
    signal: str
    danger: str
    parts: tuple[Part, ...]
    rows: tuple[tuple[str, tuple[str, ...]], ...]
    tasks: tuple[Led, ...]
    cleaning: tuple[Led, ...]
    troubles: tuple[Led, ...]
    readings: tuple[str, ...]  # headings of its operating log

    @property
    def tags(self) -> tuple[str, ...]:
        return tuple(part.tag for part in self.parts)


def systems(
    view: View, pages: Sequence[Page], cards: Sequence[Card], tried: Tried
) -> Iterator[SystemTold]:
    """Yield every system of which this reader sees something, in a fixed order."""
    for name, members in SYSTEMS.items():
        things = tuple(_things(view, members))
        if things:
            yield _system(view, name, things, pages, cards, tried)


def _things(view: View, members: Members) -> Iterator[Thing]:
    built = view.built
    runs = [run for run in built.of_kind("run") if run.text("carries") in members.carries]
    yield from runs
    tags = {run.tag for run in runs}
    yield from (v for v in built.of_kind("valve") if tags & set(v.tags("on_run")))
    yield from (e for e in built.of_kind("equipment") if e.text("type") in members.types)
    for kind in members.kinds:
        yield from built.of_kind(kind)


def _system(
    view: View,
    name: str,
    things: Sequence[Thing],
    pages: Sequence[Page],
    cards: Sequence[Card],
    tried: Tried,
) -> SystemTold:
    tags = {thing.tag for thing in things}
    tasks = [card for card in cards if any(one.about in tags for one in card.dues)]
    troubles = [(n, page) for n, page in enumerate(pages, start=1) if _touches(page, tags)]
    return SystemTold(
        name=name,
        title=say(f"system.{name}.title"),
        signal=say(f"system.{name}.signal"),
        danger=say(f"system.{name}.danger"),
        parts=tuple(map(_part, things)),
        rows=tuple(_rows(view, name, things, pages, tasks, tried)),
        tasks=tuple(Led(words="", to=c.task.page, at=c.task.title) for c in tasks),
        cleaning=tuple(
            Led(words="", to=c.task.page, at=c.task.title) for c in tasks if c.task.word in CLEANING
        ),
        troubles=tuple(
            Led(words=page.sign, to=f"emergency-{n}", at=page.heading)
            for n, page in troubles
            if page.event != START
        ),
        readings=tuple(dict.fromkeys(c.task.reading for c in tasks if c.task.reading))[:3],
    )


def _touches(page: Page, tags: set[str]) -> bool:
    return any(one.tag in tags for one in page.touched)


def _part(thing: Thing) -> Part:
    answer, kind = Answer(thing), thing.kind
    sort = next((f for f in ("type", "carries") if kind.field(f) and thing.text(f)), "")
    what = [term(thing.text(sort) or "")] if sort else []
    what += [thing.text("name") or ""] if kind.field("name") else []
    return Part(
        tag=thing.tag,
        looks=answer["looks like"] if kind.field("looks like") else "",
        what=", ".join(filter(None, [term(kind.word), *what])),
        normal=answer["normal position"] if kind.field("normal position") else "",
    )


def _rows(
    view: View,
    name: str,
    things: Sequence[Thing],
    pages: Sequence[Page],
    tasks: Sequence[Card],
    tried: Tried,
) -> Iterator[tuple[str, tuple[str, ...]]]:
    """Yield what is said of a system, row by row, up to its operating log and after it."""
    tags = {thing.tag for thing in things}
    yield "hazards", _of(things, "hazard")
    yield "normal", tuple(_steps(view, EVERYDAY, tags)) or _of(things, "rated", "flow")
    yield "start", tuple(_steps(view, START, tags))
    yield "hand", _of(things, "hand operation")
    yield "shut", tuple(_shutting(things))
    yield (
        "after",
        tuple(
            f"{page.heading}: {page.afterwards}"
            for page in pages
            if page.afterwards and _touches(page, tags)
        ),
    )
    yield "faults", tuple(_faults(view, things))
    yield "reach", _of(things, "reached by", "comes off", "release from inside", "breaker at")
    yield "spares", _of(things, "consumables", "spares")
    tools = dict.fromkeys(tool for card in tasks for tool in card.task.tools)
    yield "tools", (", ".join(tools),) if tools else ()
    yield (
        "tests",
        tuple(
            f"{thing.tag}, {row.when}: {row.words} ({row.entries})"
            for thing in things
            for row in list(tried(thing.tag))[-1:]
        ),
    )
    yield "warranty", _of(things, "warranty", "warranty until", "installed", "in use from")
    yield "contacts", tuple(_contacts(view, name))


def _faults(view: View, things: Sequence[Thing]) -> Iterator[str]:
    for thing in things:
        for look in view.built.about(thing.tag, *LOOKS):
            if look.text("result") == "failed":
                yield say(
                    "system.fault",
                    tag=thing.tag,
                    moment=look.moment,
                    words=found(look),
                    number=look.entry.number,
                )


def _of(things: Sequence[Thing], *keys: str) -> tuple[str, ...]:
    """Return what was written of each thing under these keys, those with nothing left out."""
    every = []
    for thing in things:
        said = [
            f"{f'{term(key)} ' if len(keys) > 1 else ''}{Answer(thing)[key]}"
            for key in keys
            if thing.kind.field(key) and not isinstance(thing.value(key.replace(" ", "_")), Absent)
        ]
        if said:
            every.append(f"{thing.tag}: {', '.join(said)}")
    return tuple(every)


def _steps(view: View, event: str, tags: set[str]) -> Iterator[str]:
    """Yield the steps of the drills for an event that touch a system, the caution before each."""
    for drill in view.built.of_kind("procedure"):
        if drill.text("event") == event:
            for step in drill.parts:
                if tags & set(step.tags("touches")):
                    caution = step.text("caution")
                    first = (
                        say("system.first", caution=caution.rstrip(".")) + " " if caution else ""
                    )
                    yield f"{first}{step.words('do')}"


def _shutting(things: Sequence[Thing]) -> Iterator[str]:
    for valve in things:
        if valve.kind.word != "valve" or valve.text("type") in BY_ITSELF:
            continue
        known = all(_told(valve, name) for name in ("closes", "turns_to_close"))
        if known:
            answer = Answer(valve)
            yield say(
                "system.shut",
                looks=valve.text("looks_like") or term("valve"),
                closes=str(answer["closes"]),
                turns=str(answer["turns to close"]),
                tag=valve.tag,
            )


def _told(thing: Thing, name: str) -> bool:
    value = thing.value(name)
    return not (isinstance(value, Absent) and value.why in (Why.NOT_RECORDED, Why.NOT_SETTLED))


#: Whom to ask besides the builder, as the site names them.
ASK = {
    "power": ("electrician",),
    "drains": ("engineer of record",),
    "way_out": ("engineer of record",),
    "doors": ("building official",),
}


def _contacts(view: View, name: str) -> Iterator[str]:
    site = view.built.site_thing()
    if site is None:
        return
    for key in ("builder contact", *ASK.get(name, ())):
        if words := site.text(key.replace(" ", "_")):
            yield f"{term(key)}: {words}"
