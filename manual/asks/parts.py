"""Parts and lots: what a maker's number leads to, for the day something is called back."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from manual.asks.asking import Answer, Told
from manual.languages import term
from record.facts.values import NOT_RECORDED
from record.fold import Happening, Thing, natural
from record.readers import View

NAMED = ("maker's part", "serial", "lot")
DESCRIBED = ("product", "maker", "made", "expires")
#: Work that builds a lot in; what was only delivered is built into nothing yet.
ON_WORK = ("coat applied", "used", "backfilled", "filled", "weld inspected", "repaired")
LOTS = (
    "lot",
    "lots",
    "packing_lot",
    "joint_lot",
    "seal_lot",
    "filler_lot",
    "consumables_lot",
    "filler_lots",
)


@dataclass(frozen=True, slots=True)
class Part:
    """One thing with its maker's numbers; empty where its kind has no such number."""

    tag: str
    what: str
    part: Told | str
    serial: Told | str
    lot: Told | str


def parts(view: View) -> Iterator[Part]:
    """Yield every thing of which somebody wrote a maker's part, a serial or a lot, by tag."""
    for thing in sorted(view.built.things.values(), key=lambda one: natural(one.tag)):
        keys = [key for key in NAMED if thing.kind.field(key)]
        answer = Answer(thing)
        if thing.kind.word not in ("lot", "expected") and any(answer.has(key) for key in keys):
            part, serial, lot = (answer[key] if key in keys else "" for key in NAMED)
            yield Part(thing.tag, _what(thing), part, serial, lot)


def _what(thing: Thing) -> str:
    named = [name for name in ("type", "name") if thing.kind.field(name) and thing.text(name)]
    said = [thing.words(name) for name in named]
    return ", ".join(filter(None, (term(thing.kind.word), *said)))


@dataclass(frozen=True, slots=True)
class Lot:
    """One lot: what is said of it, where it has an entry of its own, and what names it."""

    number: str
    product: Told
    maker: Told
    made: Told
    expires: Told
    used_on: str


def lots(view: View) -> Iterator[Lot]:
    """Yield every lot that is recorded or named, with the tags it was built into."""
    found = _named(view)
    for number in sorted({*found, *(lot.tag for lot in view.built.of_kind("lot"))}, key=natural):
        thing = view.built.thing(number)
        tags = {*found.get(number, ()), *(thing.tags("used_on") if thing else ())}
        answer = Answer(thing) if thing and thing.kind.word == "lot" else None
        unsaid = Told(NOT_RECORDED, None)  # named by what it was built into, and by nothing else
        told = (answer[key] if answer else unsaid for key in DESCRIBED)
        product, maker, made, expires = told
        where = ", ".join(sorted(tags - {number, view.built.site}, key=natural))
        yield Lot(number, product, maker, made, expires, where)


def _named(view: View) -> dict[str, set[str]]:
    """Return which tags name a lot: of things by what they are, of work by what it was on."""
    found: dict[str, set[str]] = {}
    for thing in view.built.things.values():
        for one in (thing, *thing.parts):
            for lot in _lots_of(one):
                found.setdefault(lot, set()).add(thing.tag)
    for happening in view.built.happened(*ON_WORK):
        for lot in _lots_of(happening):
            found.setdefault(lot, set()).update(happening.concerns())
    return found


def _lots_of(stated: Thing | Happening) -> Iterator[str]:
    for name in LOTS:
        if stated.kind.field(name):
            said = stated.tags(name) or (stated.text(name) or "").split(", ")
            yield from filter(None, said)
