"""The page for the fire service: what they ask within sixty seconds, and nothing they may not see.

It is made of the responder's own view whoever the copy is for: the owner posts it by the door.
"""

from __future__ import annotations

import html
import math
import re
from collections.abc import Iterator
from dataclasses import dataclass, replace

from markupsafe import Markup

from manual.asks.asking import Answer
from manual.asks.emergency import NOT_RECORDED
from manual.asks.emergency_page import NO_PLAN, SET, Words
from manual.drawings.ink import Drawing
from manual.drawings.lettering import width_em
from manual.drawings.site_plan import site_plan as draw_plan
from manual.languages import say, term
from manual.plans.drawn import site_plan
from manual.plans.floor import into_fill, may_be_filled
from manual.plans.ways import maybe_out, openings_out
from record.facts.kind import OWNER
from record.facts.pipes import AIR
from record.fold import Thing
from record.readers import View, look

RESPONDER = "responder"
FOAM = re.compile(r"\b(foam|polyurethane|polystyrene)\b", re.I)
# The sheet as the theme sets it (A4; manual.css, "@page fire" and ".fire"), in mm.
HIGH_MM = (78.0, 68.0, 58.0, 48.0, 38.0)  # of the ground on the plan, the first that fits
SHEET_MM, AROUND_MM = 259.0, 60.0  # what stands around table and plan, in a long language too
MOST_MM = 104.0  # of the whole plan: higher, the theme would make its letters smaller
ASKS_MM, SAYS_MM = 50.0, 118.0  # the columns of the table
EM_MM, LINE_MM, ROW_MM = 3.88, 4.85, 1.4


@dataclass(frozen=True, slots=True)
class Line:
    """One question of sixty seconds, and what the record answers; several pieces are a list."""

    asks: str
    says: tuple[Words, ...]


@dataclass(frozen=True, slots=True)
class FirePage:
    """The page: its lines, worst first, and its one plan."""

    lines: tuple[Line, ...]
    plan: Markup


def fire_page(view: View) -> FirePage | None:
    """Return the page, or None in the copy of a reader who has no business with it."""
    if view.reader not in (OWNER, RESPONDER):
        return None
    seen = view if view.reader == RESPONDER else look(view.built.entries, RESPONDER)
    if seen.built.site_thing() is None:
        return None
    lines = tuple(_lines(seen))
    spare = SHEET_MM - AROUND_MM - sum(map(_high_mm, lines))
    return FirePage(lines, _plan(seen, min(spare, MOST_MM)))


def _high_mm(line: Line) -> float:
    """Return how high a line of the table is, guessed on the safe side."""
    columns = ((line.asks, ASKS_MM, True), ("; ".join(map(str, line.says)), SAYS_MM, False))
    rows = (math.ceil(width_em(words, bold=bold) * SET * EM_MM / mm) for words, mm, bold in columns)
    return max(rows) * LINE_MM + ROW_MM


def _lines(view: View) -> Iterator[Line]:
    site = view.built.site_thing()
    assert site is not None
    told = Answer(site)
    yield Line(say("fire.most_people"), (told["people"],))
    yield Line(say("fire.ways"), tuple(_ways(view)) or (NOT_RECORDED,))
    yield Line(say("fire.forced_entry"), tuple(_doors(view)) or (NOT_RECORDED,))
    yield Line(say("fire.air"), tuple(_air(view)) or (NOT_RECORDED,))
    yield Line(say("fire.loads"), tuple(_loads(view)) or (NOT_RECORDED,))
    yield Line(say("fire.can_bury"), tuple(_fills(view)) or (NOT_RECORDED,))
    yield Line(say("fire.can_drown"), tuple(_water(view)) or (NOT_RECORDED,))
    yield Line(say("fire.can_burn"), tuple(_foam(view)) or (NOT_RECORDED,))
    yield Line(say("fire.can_shock"), tuple(_power(view)))
    yield Line(say("fire.builder"), (told["builder contact"],))


def _ways(view: View) -> Iterator[Words]:
    for opening in openings_out(view):
        yield _joined(opening, ("name", "leads_to"), reached="reached_by")
    yield from maybe_out(view)


def _doors(view: View) -> Iterator[Words]:
    for piece in view.built.of_kind("equipment"):
        if piece.text("type") == "door":
            yield _joined(piece, ("looks_like", "hand_operation", "normal_position"))
    for door in view.built.of_kind("door"):
        yield _joined(door, ("type", "name", "looks_like", "keep_clear", "hazard"))
    for opening in view.built.of_kind("opening"):
        if opening.text("opens") and opening.text("name") and not into_fill(view, opening):
            yield say("fire.opens", name=opening.words("name"), opens=opening.words("opens"))


def _air(view: View) -> Iterator[Words]:
    for run in view.built.of_kind("run"):
        carries = run.text("carries")
        if carries in AIR:
            outside = "from" if carries == "supply air" else "to"
            yield say(
                "fire.outside_at",
                carries=term(carries),
                name=run.words("name"),
                outside=run.words(outside),
            )


def _loads(view: View) -> Iterator[Words]:
    for hull in view.built.of_kind("hull"):
        name = hull.text("name") or say("emergency.hull", hull=hull.tag)
        yield say("fire.ground_over", name=name, cover=hull.words("design_cover"))


def _fills(view: View) -> Iterator[Words]:
    for way in view.built.of_kind("way out"):
        if may_be_filled(way):
            yield say(
                "fire.never_from_below",
                name=_joined(way, ("name",)),
                fill=way.words("fill"),
                top=way.words("top_below_grade"),
            )


def _water(view: View) -> Iterator[Words]:
    for piece in view.built.of_kind("equipment"):
        if piece.text("type") in ("sump", "pump", "water tank"):
            yield _joined(piece, ("name", "looks_like"))


def _foam(view: View) -> Iterator[Words]:
    found: dict[str, None] = {}
    for kind in ("insulation", "layer", "coat", "covering", "lot"):
        for thing in _of(view, kind):
            for field in ("material", "what", "product"):
                words = thing.text(field) if thing.kind.field(field) else None
                if words and FOAM.search(words):
                    found[words] = None
    yield from found


def _of(view: View, word: str) -> Iterator[Thing]:
    for thing in view.built.things.values():
        for one in (thing, *thing.parts):
            if one.kind.word == word:
                yield one


def _power(view: View) -> Iterator[Words]:
    yield say("fire.every_wire")
    for run in _carrying(view, "power"):
        yield say("fire.buried", name=run.words("name"))
    for cable in view.built.of_kind("cable"):
        if cable.text("carries") == "power":
            yield say(
                "fire.cable",
                voltage=cable.words("voltage"),
                start=cable.words("from"),
                breaker=cable.words("breaker"),
                at=cable.words("breaker_at"),
            )
    for piece in view.built.of_kind("equipment"):
        if piece.text("type") in ("battery", "generator", "charger"):
            yield say("fire.stores_current", name=_joined(piece, ("name", "looks_like")))


def _carrying(view: View, what: str) -> Iterator[Thing]:
    return (run for run in view.built.of_kind("run") if run.text("carries") == what)


def _joined(thing: Thing, fields: tuple[str, ...], *, reached: str = "") -> str:
    said = [words for name in fields if thing.kind.field(name) and (words := thing.text(name))]
    if reached and (way := thing.text(reached)):
        said.append(say("fire.reached_by", way=way))
    return ", ".join(said) or thing.tag


def _plan(view: View, most_mm: float) -> Markup:
    """Return the plan, drawn smaller where it would run over to a second sheet."""
    plan = site_plan(view)
    if plan is None:
        return NO_PLAN
    bare = replace(plan, name=say("fire.plan_name", name=plan.name), ties=())  # nobody tapes here
    tries: list[Drawing] = []
    for high in HIGH_MM:
        tries.append(draw_plan(bare, most_high_mm=high, measured=False))
        if tries[-1].height_mm <= most_mm:
            break
    drawn = min(tries, key=lambda one: one.height_mm)
    label = html.escape(drawn.alt)
    return Markup(f'<figure aria-label="{label}">\n{drawn.svg.strip()}\n</figure>')
