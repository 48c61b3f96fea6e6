"""A kind of fact, and perhaps a thing → its block: what is known as hints, the rest as gaps."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from record.blank.form import Ask, Block, Row, gaps
from record.facts import Kind, Sort
from record.facts.fields import Field
from record.facts.named import TagOf, TagsOf
from record.facts.sizes import Measure
from record.facts.values import Absent, Why, in_words
from record.fold import AsBuilt, Stated, Thing
from record.units import Dimension

EMPTY_ROWS = 3
OFFERED = 8  # tags that are offered for a field

#: Columns of a new table that most crews need; the others may be added by whoever has them.
USUAL = {"station": ("station", "x", "y", "level", "ground", "how")}
#: Two ways to say where a thing is: who has said it the one way is not asked the other.
PLACES = (("x", "y"), ("from near", "from left"))

#: Words that only a surveyor would know, and what goes there.
MEANS = {
    "datum": "what levels count from, such as BM1, bolt in the plinth, is 50.000 m",
    "grid": "where x and y count from, and which way each runs",
}

#: Kinds that nobody fills in, and what to do instead.
NO_FORM = {
    "photographed": 'a picture is a line of its own in any block: "![wide, what it is, rule in '
    'view, shows TAG](file.jpg)"',
    "sheet posted": "the program writes that itself, when a sheet is posted",
    "edition issued": "the program writes that itself: `asburied manual issue`",
}


def of_kind(built: AsBuilt, kind: Kind, tag: str = "") -> Block:
    """
    Return the block of a kind, for the thing of that tag or for a new one.

    What the record holds of the thing is in it as hints, never to be stated again; where two
    statements differ, a hint says so. A happening asks all it may say.
    """
    thing = built.thing(tag) if kind.sort is Sort.THING else None
    asks = tuple(_asks(built, kind, thing))
    rows = tuple(_rows(built, kind, thing)) if kind.rows else ()
    notes = [] if thing is None else [f"{kind.word} {tag} is recorded; what is known is not asked."]
    notes += [_part_words(part) for part in (thing.parts if thing else ())]
    if kind.word == "withdrawn":
        asks = (Ask(key="mends", hint="the number of the entry that was never so"),)
        asks += gaps("because")
    return Block(kind=kind, tag=tag, notes=tuple(notes), asks=asks, rows=rows)


def _asks(built: AsBuilt, kind: Kind, thing: Thing | None) -> Iterator[Ask]:
    if kind.sort is Sort.HAPPENING:
        yield Ask(key="at", hint="a time of day, such as 14:10")
    for field in kind.fields:
        known = _known(thing, field)
        if known:
            yield Ask(key=field.key, known=known)
        elif thing is None or not _placed_otherwise(thing, field):
            yield replace(ask(built, field), needed=field.needed and thing is None)


def ask(built: AsBuilt, field: Field) -> Ask:
    """Return a gap for a field; one that takes a tag offers those there are."""
    if isinstance(field.holds, TagOf | TagsOf):
        kinds = field.holds.kinds
        tags = [tag for word in kinds for tag in (thing.tag for thing in built.of_kind(word))]
        shown = ", ".join(tags[:OFFERED]) + (", …" if len(tags) > OFFERED else "")
        return Ask(key=field.key, hint=f"{field.holds.says}: {shown}" if shown else "")
    return Ask(key=field.key, hint=MEANS.get(field.key, ""))


def _known(stated: Stated | None, field: Field) -> str:
    """Return what is known of a field, with its entries; nothing where it was not recorded."""
    if stated is None:
        return ""
    value = stated.value(field.name)
    if isinstance(value, Absent) and value.why is Why.NOT_RECORDED:
        return ""
    if isinstance(value, Absent) and value.why is Why.NOT_SETTLED:
        return f"told in two ways, and to be mended: {value.reason}"
    numbers = ", ".join(held.entry.number for held in stated.held(field.name))
    return f"{in_words(value)} ({numbers})"


def _placed_otherwise(thing: Stated, field: Field) -> bool:
    """Return whether a field is the other way to say a place that is known already."""
    for keys, others in (PLACES, PLACES[::-1]):
        if field.key in keys or (field.key == "hull" and keys == PLACES[1]):
            return all(thing.quantity(name.replace(" ", "_")) is not None for name in others)
    return False


def _part_words(part: Thing) -> str:
    told = [
        f"{field.key} {known}"
        for field in part.kind.fields
        if field.key != part.kind.key and (known := _known(part, field))
    ]
    return f"{row_name(part)}: {'; '.join(told) or 'nothing else'}"


def row_name(part: Thing) -> str:
    """Return a part's own words, as the first cell of its row has them."""
    return part.text(part.kind.key) or part.key


def _rows(built: AsBuilt, kind: Kind, thing: Thing | None) -> Iterator[Row]:
    row_kind = kind.rows
    assert row_kind is not None
    columns = _columns(row_kind, thing)
    for part in thing.parts if thing else ():
        lacks = [
            field
            for field in columns
            if not _known(part, field) and not _placed_otherwise(part, field)
        ]
        if lacks:
            yield row(built, part.kind, row_name(part), *(field.key for field in lacks))
    for _ in range(EMPTY_ROWS):
        yield row(built, row_kind, "", *(field.key for field in columns[1:]))


def _columns(row_kind: Kind, thing: Thing | None) -> list[Field]:
    """Return the columns this thing's rows use already, else those that are usual."""
    used = {name for part in (thing.parts if thing else ()) for name in part.fields}
    usual = USUAL.get(row_kind.key)
    return [
        field
        for field in row_kind.fields
        if field.needed or (field.name in used if used else usual is None or field.key in usual)
    ]


def row(built: AsBuilt, kind: Kind, name: str, *keys: str) -> Row:
    """Return one row of a table: its name (a gap where empty), and a gap for each other column."""
    return (Ask(key=kind.key, said=name), *(Ask(key=column(built, kind, key)) for key in keys))


def column(built: AsBuilt, kind: Kind, key: str) -> str:
    """Return a column's heading: lengths with the unit the site works in, where it says so."""
    field = kind.field(key)
    site = built.site_thing()
    unit = {"metres": "m", "feet": "ft"}.get((site.text("units") if site else None) or "")
    measured = field is not None and isinstance(field.holds, Measure)
    if unit and measured and field is not None and field.holds == Measure(Dimension.LENGTH):
        return f"{key} [{unit}]"
    return key
