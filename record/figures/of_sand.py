"""The sand of every filled way out: how much it is, and how it would lie on the floor inside."""

from __future__ import annotations

from collections.abc import Iterator

from record.figures.feeding import field, lacks, lengths_in, nothing, numbers
from record.figures.worked import Fed, Missing, Worked, work
from record.fold import Thing
from record.readers import View
from record.words import tell

SECTION = (
    ("section_along", "along"),
    ("section_across", "across"),
    ("fill_from", "from"),
    ("fill_to", "to"),
)


def of_sand(view: View) -> Iterator[Worked]:
    """Yield volume and mass, then the heap, of every way out that is filled with sand."""
    for way in view.built.of_kind("way out"):
        if "sand" in (way.text("fill") or "").casefold():
            parts = tuple(field(way, name, key) for name, key in SECTION)
            sand = work("sand", way.tag, parts)
            yield sand
            yield _heap(view, way, sand)
            if way.held("grain_size"):
                yield _flow(way, sand)


def _heap(view: View, way: Thing, sand: Worked) -> Worked:
    volume: tuple[Fed | Missing, ...] = sand.missing
    if sand.figures:
        how = tell("figures.section_by_height_above")
        volume = (Fed(key="volume", value=sand.number("volume"), rests=sand.rests, how=how),)
    clear = _clear(way)
    notes = [] if clear else [tell("figures.keep_clear_no_one", keep_clear=way.words("keep_clear"))]
    notes += [sand.refused] if sand.refused else []
    return work("heap", way.tag, (*volume, _width(view, way), clear), notes=notes)


def _flow(way: Thing, sand: Worked) -> Worked:
    """Return how fast it could run out of the hatch; the law is for openings small beside it."""
    sides, rests, lacking = numbers(way, ("hatch_width", "hatch_height"))
    opening: tuple[Fed | Missing, ...] = lacking
    if not lacking:
        how = tell("figures.lesser_side_its_hatch")
        opening = (Fed(key="opening", value=min(sides.values()), rests=rests, how=how),)
    narrow = min(SECTION[:2], key=lambda pair: float(way.si(pair[0]) or 0))
    mass: tuple[Fed | Missing, ...] = sand.missing
    if sand.figures:
        value = sand.number("mass, dry")
        mass = (Fed(key="mass", value=value, rests=sand.rests, how=tell("figures.above")),)
    parts = (
        *opening,
        field(way, "grain_size", "grain"),
        field(way, narrow[0], "shaft"),
        *mass,
    )
    return work("sand-flow", way.tag, parts)


def _width(view: View, way: Thing) -> Fed | Missing:
    """Return the width of the floor that receives the sand, wall to wall."""
    tag = way.text("receives_fill")
    if tag is None:
        return lacks(way, "receives_fill")
    room = view.built.thing(tag)
    if room is None:
        return nothing(
            tell("figures.room_that_receives_sand", tag=tag), tell("figures.room_2", tag=tag)
        )
    return field(room, "width", "width", how=tell("figures.that_receives", tag=tag))


def _clear(way: Thing) -> Fed | None:
    """Return how far must be kept clear: the one length in its words, if there is just one."""
    said = way.text("keep_clear")
    found = lengths_in(said or "")
    if said is None or len(found) != 1:
        return None
    how = tell("figures.one_length_in", said=said)
    return Fed(key="clear", value=found[0], rests=way.held("keep_clear"), how=how)
