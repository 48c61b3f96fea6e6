"""What a crew calls a thing → the kind it is written as. Only told: nothing is read as another."""

from __future__ import annotations

from functools import cache

from record.facts import KINDS
from record.facts.faults import plain
from record.facts.fields import OneOf

#: Kinds whose types are what people call the thing itself: "fan" is an equipment of type fan.
TYPED = ("equipment", "door", "fitting", "marker", "valve")

#: A crew's word → the kind. Common practice, no source.
CALLED = {
    "run": "pipe, air pipe, drain pipe, drain line, duct, conduit, line, air line, water line, "
    "power line, intake, exhaust, air intake, trunk",
    "panel": "wall, board, wall panel, lining, cladding",
    "seam": "joint, weld seam",
    "equipment": "blower, ventilator, air handler, machine, filter, light, lamp, tank, co alarm, "
    "carbon monoxide alarm, smoke alarm, air monitor, generator set, motor",
    "valve": "check valve, backflow valve, relief valve, overpressure valve, shut-off valve, "
    "shutoff, shut-off, ball valve, gate valve, stopcock",
    "drain": "floor drain, weep",
    "fitting": "elbow, vent, vent cap, cowl",
    "penetration": "sleeve, wall sleeve, hole, pipe sleeve",
    "cable": "wire, circuit, breaker, switch",
    "landmark": "corner, house corner, post",
    "benchmark": "peg, nail, bm, bench mark",
    "covering": "cover plan, backfill plan",
    "way out": "exit, escape, emergency exit, escape shaft, shaft",
    "store": "locker, storage, cupboard, shelf",
    "room": "chamber, area",
    "delivered": "delivery, delivery note",
    "levelled": "survey, level, levels, level book",
    "position tied": "tie, ties, taped, measured",
    "cover measured": "cover, depth, cover depth",
    "covered": "covered over, closed up",
    "backfilled": "backfill, fill, earth",
    "pressure tested": "pressure test, leak test, air test",
    "weld inspected": "weld, weld check",
    "tested": "test, smoke test, water test",
    "inspected": "inspection, check, checked, look, looked",
    "coat applied": "coat, primer, paint, tar, tarred, foam, foamed, sealer, wrap, wrapped",
    "reading taken": "reading, water level, float mark, gauge",
    "remark": "note, notes, comment, weather, trench, dig, visit",
    "serviced": "service, upkeep, maintenance",
    "temporary": "plug, prop, strap",
    "befell": "event, flood, storm, accident",
    "expected": "order, ordered, plan",
}
PICTURE = (
    'A picture needs no heading: under the thing it is of, write "![wide, what it is, rule in '
    'view](file.jpg)" on a line of its own.'
)


def told(words: str) -> str:
    """
    Return what to write for a crew's word; nothing where this list does not know it.

    >>> told("Duct")
    'Write "## run TAG" for that.'
    >>> told("fan")
    'Write "## equipment TAG" for that, with "- type: fan" under it.'
    """
    word = plain(words)
    if word in ("photo", "photos", "picture", "pictures", "image"):
        return PICTURE
    kind, of_type = _called().get(word, ("", ""))
    if not kind:
        return ""
    tag = "" if KINDS[kind].tagless else " TAG"
    more = f', with "- type: {of_type}" under it' if of_type else ""
    return f'Write "## {kind}{tag}" for that{more}.'


@cache
def _called() -> dict[str, tuple[str, str]]:
    found = {
        of_type: (word, of_type)
        for word in reversed(TYPED)
        for field in KINDS[word].fields
        if field.key == "type" and isinstance(field.holds, OneOf)
        for of_type in field.holds.words
        if of_type not in KINDS and of_type != "other"
    }
    found |= {name: (kind, "") for kind, names in CALLED.items() for name in names.split(", ")}
    return found
