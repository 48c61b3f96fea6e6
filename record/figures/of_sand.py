"""The sand of every filled way out: how much it is, and how it would lie on the floor inside."""

from __future__ import annotations

import re
from collections.abc import Iterator

from record.figures.feeding import field, lacks, nothing
from record.figures.worked import Fed, Missing, Worked, work
from record.fold import Thing
from record.readers import View
from record.units import Dimension, UnitFault, read_quantity

SECTION = (
    ("section_along", "along"),
    ("section_across", "across"),
    ("fill_from", "from"),
    ("fill_to", "to"),
)
#: One length with its unit within words; feet and inches belong together.
LENGTH = re.compile(
    r"(?<![\w.])[0-9]+(?:\.[0-9]+)?\s?(?:m|mm|cm|ft|in|yd)\b"
    r"|[0-9]+'(?:\s?[0-9]+(?:[- ][0-9]+/[0-9]+)?\")?"
)


def of_sand(view: View) -> Iterator[Worked]:
    """Yield volume and mass, then the heap, of every way out that is filled with sand."""
    for way in view.built.of_kind("way out"):
        if "sand" in (way.text("fill") or "").casefold():
            parts = tuple(field(way, name, key) for name, key in SECTION)
            sand = work("sand", way.tag, parts)
            yield sand
            yield _heap(view, way, sand)


def _heap(view: View, way: Thing, sand: Worked) -> Worked:
    volume: tuple[Fed | Missing, ...] = sand.missing
    if sand.figures:
        how = "section by height, as above"
        volume = (Fed(key="volume", value=sand.number("volume"), rests=sand.rests, how=how),)
    clear = _clear(way)
    notes = [] if clear else [f"keep clear: {way.words('keep_clear')}; no one length in it"]
    notes += [sand.refused] if sand.refused else []
    return work("heap", way.tag, (*volume, _width(view, way), clear), notes=notes)


def _width(view: View, way: Thing) -> Fed | Missing:
    """Return the width of the floor that receives the sand, wall to wall."""
    tag = way.text("receives_fill")
    if tag is None:
        return lacks(way, "receives_fill")
    room = view.built.thing(tag)
    if room is None:
        return nothing(f"the room {tag} that receives the sand", f'"## room {tag}"')
    return field(room, "width", "width", how=f"of {tag}, that receives it")


def _clear(way: Thing) -> Fed | None:
    """Return how far must be kept clear: the one length in its words, if there is just one."""
    said = way.text("keep_clear")
    found = lengths_in(said or "")
    if said is None or len(found) != 1:
        return None
    how = f'the one length in "{said}"'
    return Fed(key="clear", value=found[0], rests=way.held("keep_clear"), how=how)


def lengths_in(words: str) -> tuple[float, ...]:
    """
    Return every length with its unit in a sentence, in metres.

    >>> lengths_in("from the wall to the third joint, 1.60 m"), lengths_in("2 people, 3 m, 1 ft")
    ((1.6,), (3.0, 0.3048))
    """
    return tuple(_lengths(words))


def _lengths(words: str) -> Iterator[float]:
    for found in LENGTH.finditer(words):
        try:
            yield float(read_quantity(found[0], Dimension.LENGTH).si)
        except UnitFault:
            continue
