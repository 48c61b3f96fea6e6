"""Whether what an answer rests on was written of a thing before it was covered."""

from __future__ import annotations

from collections.abc import Iterator

from record.entry import Entry
from record.fold import AsBuilt, Happening, Held, Thing, sight
from record.place import Shape

BEFORE, AFTER, UNKNOWN, OPEN = "before cover", "after cover", "order not known", "not covered"

#: The fields that say where a thing is; others may be stated later without moving it.
PLACING = (
    "x",
    "y",
    "hull",
    "face",
    "from_near",
    "from_left",
    "level",
    "bottom",
    "above_floor",
    "along",
    "across",
    "width",
    "height",
    "at_station",
    "from_station",
    "to_station",
    "follows",
    "in_run",
    "above_pipe",
    "in",
    "floor_level",
    "section_along",
    "section_across",
    "fill_from",
    "fill_to",
)


def cover_state(built: AsBuilt, shape: Shape) -> str:
    """
    Return when a shape's place was seen: before cover, after cover, order not known, not covered.

    The latest statement about the place decides, against every time the thing was covered:
    one made after any of them is "after cover" for ever. That it was is proved where its writer
    had seen the covering recorded, on an earlier sheet, whatever day it claims. Else days decide,
    and on one day times; where either has none, or both are the same, the order is not known.
    That it was made before is never proved, only claimed.
    """
    covers = list(coverings(built, shape))
    if not covers:
        return OPEN
    orders = {_surely(built, held, cover) for held in _placing(shape) for cover in covers}
    return next((state for state in (AFTER, UNKNOWN) if state in orders), BEFORE)


def _tags(shape: Shape) -> tuple[str, ...]:
    """What follows a run lies with it; so does what is placed by a station of one."""
    thing = shape.thing
    along = (*thing.tags("follows"), *thing.tags("in_run"))
    if thing.kind.word == "insulation" or shape.hull == "":
        along = (*along, *thing.tags("on_run"), *thing.tags("serves"))
    return (thing.tag, *along)


def coverings(built: AsBuilt, shape: Shape) -> Iterator[Happening]:
    """Yield each time that something was covered which hides a shape."""
    tags = _tags(shape)
    for covered in built.happened("covered"):
        hides = set(covered.tags("tags")) or _hides(built.thing(covered.about))
        if hides & set(tags):
            yield covered


def _hides(covering: Thing | None) -> set[str]:
    found: set[str] = set()
    for held in covering.held("hides") if covering else ():
        found.update(held.value if isinstance(held.value, tuple) else ())
    return found


def _placing(shape: Shape) -> Iterator[Held]:
    rests_on = {entry.hash for entry in shape.entries}
    for stated in (shape.thing, *shape.thing.parts):
        for name in PLACING:
            yield from (held for held in stated.held(name) if held.entry.hash in rests_on)


def _surely(built: AsBuilt, held: Held, covered: Happening) -> str:
    claimed = _order(held, covered)
    return AFTER if claimed != AFTER and _had_seen(built, held.entry, covered.entry) else claimed


def _had_seen(built: AsBuilt, said: Entry, covered: Entry) -> bool:
    """Return whether whoever wrote ``said`` had the covering before them, on an earlier sheet."""
    if said.link.writer == covered.link.writer:
        return said.link.seq > covered.link.seq and not _one_sheet(said, covered)
    return sight(built.entries).saw(said, covered)


def _one_sheet(one: Entry, other: Entry) -> bool:
    """Return whether two entries were posted together: their order on the sheet is no order."""
    if one.link.recorded != other.link.recorded:
        return False
    sheets = {e.content.source.get("sheet") for e in (one, other) if e.content and e.content.source}
    return len(sheets) < 2


def _order(held: Held, covered: Happening) -> str:
    if held.on != covered.on:
        return BEFORE if held.on < covered.on else AFTER
    if held.at is None or covered.at is None or held.at == covered.at:
        return UNKNOWN
    return BEFORE if held.at < covered.at else AFTER
