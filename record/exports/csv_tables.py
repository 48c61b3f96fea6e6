"""A CSV table (RFC 4180) of each kind of thing and happening, as the record stands.

A spreadsheet takes a cell that begins with a sign of a sum for one; such a cell gets an apostrophe
before it, unless all of it is a number.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence

from record.exports.items import Item, about, items
from record.facts import Kind
from record.fold import Happening
from record.fold.state import Stated
from record.readers import View

_SUM = ("=", "+", "-", "@", "\t", "\r")
_NUMBER = re.compile(r"[+-]?[0-9]+(\.[0-9]+)?")
Row = Mapping[str, str]


def csv_tables(view: View) -> dict[str, bytes]:
    """Return file names and what they hold; ``about.csv`` says of what and for whom."""
    tables = {"about.csv": _table(("what", "said"), [_pair(*each) for each in about(view)])}
    things: dict[Kind, list[Row]] = {}
    for item in items(view):
        things.setdefault(item.thing.kind, []).append(_thing(item))
        for part in item.thing.parts:
            things.setdefault(part.kind, []).append(_part(part.tag, part))
    for kind, rows in things.items():
        tables[f"{kind.stored}.csv"] = _table(_columns(("tag",), kind, rows, LAST), rows)
    happened: dict[Kind, list[Row]] = {}
    for happening in view.built.happenings:
        happened.setdefault(happening.kind, []).append(_happening(happening))
    for kind, rows in happened.items():
        tables[f"{kind.stored}.csv"] = _table(_columns(HEAD, kind, rows, ("entry",)), rows)
    return dict(sorted(tables.items()))


LAST = ("x_m", "y_m", "bottom_m", "top_m", "tolerance_m", "tolerance_up_m", "entries")
HEAD = ("about", "on", "at")


def _pair(what: str, said: str) -> Row:
    return {"what": what, "said": said}


def _columns(
    first: Sequence[str], kind: Kind, rows: Sequence[Row], last: Sequence[str]
) -> list[str]:
    """Return the columns: every field of the kind, measured ones in SI too where one is."""
    used = {name for row in rows for name in row}
    named: list[str] = []
    for field in kind.fields:
        told = _free(field.name, (*first, *last))
        named += [told, *(f"{told}_{end}" for end in ("si", "unit") if f"{told}_{end}" in used)]
    more = sorted(used - {*first, *named, *last})
    return [*first, *named, *more, *last]


def _free(name: str, taken: Iterable[str]) -> str:
    return f"{name}_said" if name in taken else name


def _fields(stated: Stated, taken: Sequence[str]) -> Iterator[tuple[str, str]]:
    for name in stated.fields:
        told = _free(name, taken)
        yield told, stated.words(name)
        quantity = stated.quantity(name)
        if quantity is not None:
            yield f"{told}_si", str(quantity.si)
            yield f"{told}_unit", quantity.unit


def _thing(item: Item) -> Row:
    row = dict(_fields(item.thing, ("tag", *LAST)))
    if item.middle:
        row["x_m"], row["y_m"] = (f"{value:.3f}" for value in item.middle)
    if item.solids:
        bottoms = [solid.bottom_m for solid in item.solids if solid.bottom_m is not None]
        tops = [solid.top_m for solid in item.solids if solid.top_m is not None]
        row |= {"bottom_m": f"{min(bottoms):.3f}"} if bottoms else {}
        row |= {"top_m": f"{max(tops):.3f}"} if tops else {}
        row["tolerance_m"] = f"{max(solid.tolerance_m for solid in item.solids):.3f}"
        row["tolerance_up_m"] = f"{max(solid.tolerance_up_m for solid in item.solids):.3f}"
    return {"tag": item.tag, **row, "entries": ", ".join(item.entries)}


def _part(tag: str, part: Stated) -> Row:
    numbers = ", ".join(entry.number for entry in part.entries())
    return {"tag": tag, **dict(_fields(part, ("tag", *LAST))), "entries": numbers}


def _happening(happening: Happening) -> Row:
    return {
        "about": happening.about,
        "on": happening.on,
        "at": happening.at or "",
        **dict(_fields(happening, (*HEAD, "entry"))),
        "entry": happening.entry.number,
    }


def _table(names: Sequence[str], rows: Iterable[Row]) -> bytes:
    out = io.StringIO(newline="")
    writer = csv.writer(out)
    writer.writerow(names)
    writer.writerows([_cell(row.get(name, "")) for name in names] for row in rows)
    return out.getvalue().encode("utf-8")


def _cell(text: str) -> str:
    return f"'{text}" if text.startswith(_SUM) and not _NUMBER.fullmatch(text) else text
