"""Where a hidden thing is found again: two tapes and a check, or faces of its hull and boards.

What is asked is the record's own answer to "where do I dig for it?", set out in columns.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from manual.asks.schedules import FaceTold
from manual.languages import say, term
from record.answers import CannotAnswer
from record.answers.covers import OPEN
from record.answers.find import find
from record.answers.find_values import Depth, Spot, Tape
from record.answers.saying import depth, length
from record.fold import Thing, natural
from record.place.accuracy import BASES
from record.readers import View

#: What lies in the ground and may be looked for; the rest stands in a room or is found with these.
BURIED = ("run", "valve", "drain", "fitting", "penetration", "marker", "fit-out", "dip pipe")
OWNERS = ("way out", "store", "concealed entry")  # told besides, to whoever may see them
#: What is behind a board and is no part of the wall itself.
BOARDED = (*BURIED, *OWNERS, "cable")


@dataclass(frozen=True, slots=True)
class Edges:
    """Where a thing lies behind one panel: metres from its edges, and how deep."""

    tag: str
    words: str
    looks: tuple[str, ...]
    panel: str
    anchor: Markup
    across: str
    up: str
    deep: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SpotTold:
    """One place to look: empty words where something is not recorded, and ``gaps`` says what."""

    tag: str
    ties: tuple[str, ...]  # two, else none
    meet: str
    check: str
    depth: str
    circle: str
    sure: str
    gaps: tuple[str, ...]
    entries: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Hidden:
    """One thing in the ground: what it looks like when it is reached, and every place to look."""

    tag: str
    kind: str
    looks: tuple[str, ...]
    spots: tuple[SpotTold, ...]
    between: tuple[str, ...]


def spots_told(view: View, tag: str) -> tuple[SpotTold, ...]:
    """Return the places to tape out for a thing; none for what stands inside a hull."""
    thing = view.built.things[tag]
    return () if _inside(thing) else tuple(map(_told, _found(view, thing)))


def behind_boards(view: View, faces: Sequence[FaceTold]) -> dict[str, tuple[Edges, ...]]:
    """Return, for each thing that is recorded to lie behind boards, where it does, by its tag."""
    found: dict[str, list[Edges]] = {}
    for face in faces:
        for panel in face.panels:
            for item in panel.items:
                tag = item.tag.partition("/")[0]
                thing = view.built.thing(tag)
                if thing is None or item.near or item.kind not in BOARDED:
                    continue
                edges = Edges(
                    tag=tag,
                    words=item.words,
                    looks=tuple(_looks(view, thing)),
                    panel=panel.tag,
                    anchor=panel.anchor,
                    across=item.across,
                    up=item.up,
                    deep=item.deep,
                )
                found.setdefault(tag, []).append(edges)
    return {tag: tuple(found[tag]) for tag in sorted(found, key=natural)}


def in_the_ground(view: View) -> Iterator[Hidden]:
    """Yield every thing that is looked for from outside, kind by kind, by tag."""
    for word in (*BURIED, *OWNERS):
        for thing in view.built.of_kind(word):
            found = _found(view, thing)
            if _buried(thing, found):
                yield Hidden(
                    tag=thing.tag,
                    kind=term(word),
                    looks=tuple(_looks(view, thing)),
                    spots=tuple(map(_told, found)),
                    between=tuple(find(view, thing.tag).between) if word == "run" else (),
                )


def _found(view: View, thing: Thing) -> tuple[Spot, ...]:
    try:
        return find(view, thing.tag).spots
    except CannotAnswer:
        return ()


def _inside(thing: Thing) -> bool:
    return bool(thing.kind.field("hull") and thing.text("hull")) and thing.kind.word != "way out"


def _buried(thing: Thing, spots: Sequence[Spot]) -> bool:
    """Return whether it is on the grid, and neither in a room nor in the open."""
    if thing.kind.word in ("run", "dip pipe", "way out"):
        return bool(spots)
    return not _inside(thing) and any(spot.cover != OPEN for spot in spots)


def _looks(view: View, thing: Thing) -> Iterator[str]:
    """Yield what is seen when it is reached, in the words of whoever put it there."""
    for name in ("looks_like", "what", "material", "outside_diameter", "insulation"):
        if thing.kind.field(name) and thing.held(name) and (words := thing.words(name)):
            yield say(f"where.looks.{name}", words=words)
    for marker in view.built.of_kind("marker"):
        if thing.tag in marker.tags("follows"):
            above = marker.words("above_pipe")
            yield say("where.marker", type=term(marker.text("type") or "marker"), above=above)
    for name in ("marker_tape", "tracer_wire"):
        if thing.kind.field(name):
            yield say(f"where.looks.{name}", words=thing.words(name))


def _told(spot: Spot) -> SpotTold:
    pulled = spot.tapes
    ties = (_tape(pulled.first), _tape(pulled.second)) if pulled else ()
    return SpotTold(
        tag=spot.tag,
        ties=ties,
        meet=say("where.meet", side=spot.tapes.side) if spot.tapes else "",
        check=_tape(pulled.check) if pulled and pulled.check else "",
        depth=_depth(spot.depth) if spot.depth else "",
        circle=length(spot.within_m) if spot.within_m is not None else "",
        sure="; ".join(_sure(spot)),
        gaps=tuple(_gaps(spot, ties)),
        entries=", ".join(spot.entries),
    )


def _tape(tape: Tape) -> str:
    return say("where.tape", landmark=tape.landmark, length=length(tape.length_m))


def _depth(deep: Depth) -> str:
    if deep.depth_m is None or not deep.surface_on:
        return say("where.level", of=term(deep.of), level=f"{deep.level_m:.3f}")
    way = "below" if deep.depth_m >= 0 else "above"
    return say(
        f"where.{way}_ground",
        of=term(deep.of),
        depth=length(abs(deep.depth_m)),
        tolerance=depth(deep.tolerance_m),
        on=deep.surface_on,
    )


def _sure(spot: Spot) -> Iterator[str]:
    known = BASES.get(spot.basis) != "NOTKNOWN"
    yield term(spot.basis) if known else say("where.not_known")
    if spot.position_tolerance_m is not None:
        yield say("where.place", tolerance=depth(spot.position_tolerance_m))
    if spot.assumed:
        yield say("where.assumed")
    yield term(spot.cover)
    yield from spot.doubts


def _gaps(spot: Spot, ties: Sequence[str]) -> Iterator[str]:
    if not ties:
        yield say("where.no_ties")
    elif not (spot.tapes and spot.tapes.check):
        yield say("where.no_check")
    if spot.depth is None:
        yield say("where.no_depth")
