"""A table → drafts, one a row: parts of a thing, or the same happening several times."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

from record.facts import Kind, Sort
from record.facts.values import Value
from record.sheets.blocks import RawTable
from record.sheets.draft import Draft, first_words
from record.sheets.gaps import has_gap
from record.sheets.headings import said_key
from record.sheets.lines import Piece
from record.sheets.reading import Column, Reading, column_of, field_of, read_cell, unknown_key

UNIT = re.compile(r"^(?P<key>.*?)\s*\[(?P<unit>[^\]]+)\]$")
ROW = re.compile(r"[A-Za-z0-9][A-Za-z0-9.]*(?:-[A-Za-z0-9.]+)*")  # what names a row: 2, 2b, top


def row_drafts(reading: Reading, base: Draft, table: RawTable) -> Iterator[Draft]:
    kind = base.kind.rows or base.kind
    if base.kind.rows is None and base.kind.sort is Sort.THING:
        reading.fault(
            table.head[0], f"a {base.kind.word} has no table", 'Write its fields as "- key: value".'
        )
        return
    columns = _columns(reading, kind, table)
    if not columns:
        return
    named: set[str] = set()
    for row in table.rows:
        for draft in _row(reading, base, kind, columns, row):
            if kind.key and draft.about in named:
                reading.fault(
                    row[0],
                    f'two rows are named "{row[0].text.split()[0]}"',
                    "Give every row a name of its own.",
                )
            named.add(draft.about)
            yield draft


def _columns(reading: Reading, kind: Kind, table: RawTable) -> list[Column | None]:
    """Return the columns; None for one that cannot be read, so that the others still are."""
    columns: list[Column | None] = []
    for cell in table.head:
        parted = UNIT.match(cell.text)
        named = Piece(parted["key"] if parted else cell.text, cell.line, cell.column)
        key = said_key(named)
        field = field_of(kind, key)
        if field is None:
            unknown_key(reading, kind, named, key, table.otherwise)
            columns.append(None)
        elif any(column is not None and column.field is field for column in columns):
            reading.fault(named, f'"{field.key}" has two columns', "Leave one of them.")
            columns.append(None)
        else:
            columns.append(column_of(field, key, parted["unit"] if parted else None, named))
    first = columns[0]
    if first is not None and kind.key and first.field.key != kind.key:
        reading.fault(
            table.head[0],
            f'the first column of this table is "{kind.key}"',
            f'Put "{kind.key}" first: it names the row.',
        )
        return []
    return columns


def _row(
    reading: Reading, base: Draft, kind: Kind, columns: list[Column | None], row: tuple[Piece, ...]
) -> Iterator[Draft]:
    body: dict[str, Value] = {}
    spots: dict[str, Piece] = {}
    for column, cell in zip(columns, row, strict=True):
        value = read_cell(reading, column, cell) if column else None
        if column and value is not None:
            body[column.field.name], spots[column.field.name] = value, cell
    about = base.about
    if kind.key:
        key = (row[0].text.split() or [""])[0]
        if has_gap(row[0].text):
            return
        if not ROW.fullmatch(key):
            reading.fault(row[0], f'"{key}" cannot name a row', "Start it with a number or a word.")
            return
        about = f"{base.about}/{key}"
        if base.mends and row[0].text == key:
            # It only says which row is mended; the row's own words are not.
            body.pop(kind.key, None)
    else:
        body = {**body, **{name: v for name, v in base.body.items() if name not in body}}
        spots = {**base.spots, **spots}
    yield replace(
        base,
        kind=kind,
        about=about,
        body=body,
        spots={**{k: v for k, v in base.spots.items() if k.startswith("#")}, **spots},
        heading=row[0],
        lines=(row[0].line,) if kind.key else (*base.lines, row[0].line),
        key="" if kind.key and not base.mends else first_words(kind, body, base.mends),
    )
