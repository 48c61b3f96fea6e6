"""The record → how people get out, as words: what leads out, and what may."""

from __future__ import annotations

from collections.abc import Iterator

from manual.drawings.floor_map import way_out
from manual.languages import say, term
from manual.plans.floor import floor_plan, into_fill, may_be_filled
from record.fold import Thing
from record.readers import View

LEAVES = ("door", "sliding door", "hatch", "gate")


def openings_out(view: View) -> tuple[Thing, ...]:
    """Return the openings that lead out, as the small plan places them."""
    plan = floor_plan(view, ())
    out = {gap.name for gap in plan.gaps if gap.out == way_out()} if plan else set()
    found = view.built.of_kind("opening")
    return tuple(one for one in found if (one.text("name") or one.tag) in out)


def maybe_out(view: View) -> tuple[str, ...]:
    """
    Return in words what may lead out and has no place on the plan.

    A door somebody will run for in the dark is told although nobody wrote where it leads. What
    leads into a shaft that is filled, or may be, is not: that is told on its own page.
    """
    return tuple(dict.fromkeys(_maybe_out(view)))


def _maybe_out(view: View) -> Iterator[str]:
    placed = {_face(one) for one in view.built.of_kind("opening")}
    drawn = {gap.name for gap in plan.gaps} if (plan := floor_plan(view, ())) else set()
    rooms = (*view.built.of_kind("hull"), *view.built.of_kind("room"))
    inside = {name for room in rooms for name in (room.tag, room.text("name")) if name}
    for one in view.built.of_kind("opening"):
        apart = (one.text("name") or one.tag) in drawn or one.text("leads_to") in inside
        if not apart and not into_fill(view, one):
            yield _told(one, term("opening"), one.text("leads_to"))
    for door in view.built.of_kind("door"):
        leaf = door.text("type") in LEAVES and not door.tags("in")
        if leaf and _face(door) not in placed and not into_fill(view, door):
            yield _told(door, term(door.text("type") or "door"), None)
    for way in view.built.of_kind("way out"):
        if not may_be_filled(way) and _face(way) not in placed:
            yield way.text("name") or way.tag


def _face(thing: Thing) -> tuple[str | None, str | None]:
    return thing.text("hull"), thing.text("face")


def _told(thing: Thing, sort: str, leads: str | None) -> str:
    name = thing.text("name") or f"{sort} {thing.tag}"
    hull, face = _face(thing)
    if hull and face:
        name = say("ways.in_face", name=name, face=term(face), hull=hull)
    return say("ways.leads", name=name, leads=leads) if leads else say("ways.may_lead", name=name)
