"""One block of a sheet → drafts: its fields, its table's rows, its pictures, its remarks."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from difflib import get_close_matches

from record.facts import KINDS, READERS, Kind, Sort
from record.facts.fields import TAG, Clock, Field, PipeLevel, ValueFault
from record.facts.values import Part, Value, in_words
from record.sheets.blocks import RawBlock, RawField, RawPhoto, RawRemark, RawTable
from record.sheets.draft import Draft
from record.sheets.faults import SheetFault
from record.sheets.headings import read_heading, said_key
from record.sheets.lines import Piece, SheetText

COMMON = ("at", "did", "saw", "by", "readers", "mends", "because")
NUMBER = re.compile(r"[a-z][a-z0-9]{0,15}-[1-9][0-9]{0,8}(/[0-9a-f]{4,64})?")
UNIT = re.compile(r"^(?P<key>.*?)\s*\[(?P<unit>[^\]]+)\]$")
KEY = re.compile(r"^[-*]?\s*([A-Za-z' ]{2,30}):")
PARTS = frozenset(Part)  # the words that say which level of a pipe it is
ROW = re.compile(r"[A-Za-z0-9][A-Za-z0-9.]*(?:-[A-Za-z0-9.]+)*")  # what names a row: 2, 2b, top


@dataclass(slots=True)
class _Reading:
    """A block while it is read: what it says so far, and the faults so far."""

    text: SheetText
    faults: list[SheetFault]

    def fault(self, at: Piece, problem: str, remedy: str) -> None:
        self.faults.append(self.text.fault(at, problem, remedy))

    def value(self, field: Field, said: Piece, unit: str | None = None) -> Value | None:
        try:
            return field.read(said.text, unit)
        except ValueFault as fault:
            end = len(said.text) if fault.end is None else fault.end
            at = Piece(said.text[fault.start : end], said.line, said.column + fault.start)
            self.fault(at, f"{field.key}: {fault.problem}", fault.remedy)
            return None


def block_drafts(
    text: SheetText, block: RawBlock, site: str, faults: list[SheetFault]
) -> Iterator[Draft]:
    """Yield the drafts of one block, in the order they stand; faults are added to ``faults``."""
    head = read_heading(text, block.heading, site, faults)
    if head is None:
        return
    kind, tag = head
    reading = _Reading(text, faults)
    base = Draft(kind=kind, about=tag, body={}, heading=block.heading, lines=(block.heading.line,))
    tables = [item for item in block.items if isinstance(item, RawTable)]
    base = _with_fields(reading, base, [i for i in block.items if isinstance(i, RawField)])
    yield from _own(base, bool(tables))
    for table in tables:
        yield from _rows(reading, base, table)
    for item in block.items:
        if isinstance(item, RawPhoto):
            yield _photo(base, item)
        elif isinstance(item, RawRemark):
            yield _remark(reading, base, item)


def _own(base: Draft, has_table: bool) -> Iterator[Draft]:
    """Yield the block's own entry, unless its rows say it all."""
    if base.kind.sort is Sort.HAPPENING and has_table:
        return
    if base.kind.word == "remark" and "text" not in base.body:
        return  # its paragraphs are the remarks
    if has_table and not base.body:
        return
    if base.body or base.mends or base.kind.sort is Sort.THING or not base.kind.tagless:
        yield replace(base, key=_first_words(base.kind, base.body, base.mends))


def _first_words(kind: Kind, body: Mapping[str, Value], mends: tuple[str, ...]) -> str:
    """Return what tells a happening apart from another of the same kind about the same thing."""
    if kind.sort is Sort.HAPPENING:
        for field in kind.fields:
            if field.name in body:
                return in_words(body[field.name])
    return "mends " + ", ".join(mends) if mends else ""


def _with_fields(reading: _Reading, base: Draft, fields: list[RawField]) -> Draft:
    body: dict[str, Value] = {}
    spots: dict[str, Piece] = {}
    lines = list(base.lines)
    common: dict[str, Piece] = {}
    for raw in fields:
        lines.extend(raw.lines)
        key = said_key(raw.key)
        field = _field_of(base.kind, key)
        if field is None and key in COMMON:
            if key in common:
                reading.fault(raw.key, f'"{key}" stands twice', "Leave one of them.")
            common[key] = raw.value
        elif field is None:
            _unknown_key(reading, base.kind, raw.key, key)
        elif field.name in body:
            reading.fault(raw.key, f'"{field.key}" stands twice', "Leave one of them.")
        else:
            value = _cell(reading, _column(field, key), raw.value)
            if value is not None:
                body[field.name], spots[field.name] = value, raw.value
    draft = replace(base, body=body, spots=spots, lines=tuple(lines))
    return _with_common(reading, draft, common)


def _field_of(kind: Kind, key: str) -> Field | None:
    """Return the field a key names; "crown" names the level, and says which."""
    field = kind.field(key)
    if field is None and key in PARTS:
        level = kind.field("level")
        if level is not None and isinstance(level.holds, PipeLevel):
            return level
    return field


def _unknown_key(reading: _Reading, kind: Kind, at: Piece, key: str) -> None:
    names = [field.key for field in kind.fields] + list(COMMON)
    near = get_close_matches(key, names, 1, 0.6)
    known = ", ".join(field.key for field in kind.fields) or "none of its own"
    remedy = f'Did you mean "{near[0]}"?' if near else f"Its fields are {known}."
    reading.fault(at, f'a {kind.word} has no field "{at.text}"', remedy)


def _with_common(reading: _Reading, draft: Draft, common: dict[str, Piece]) -> Draft:
    spots = {**draft.spots, **{f"#{key}": said for key, said in common.items()}}
    words = {key: common[key].text for key in ("did", "saw", "by", "because") if key in common}
    at = reading.value(Field("at", Clock()), common["at"]) if "at" in common else None
    mends = _mends(reading, common["mends"]) if "mends" in common else ()
    if mends and "because" not in common:
        reading.fault(
            common["mends"], "a mend says why", 'Add "- because: " and the reason, in a few words.'
        )
    if draft.kind.word == "withdrawn" and not mends:
        reading.fault(
            draft.heading, "this does not say which entry", 'Add "- mends: ld-16" and "- because:".'
        )
    return replace(
        draft,
        spots=spots,
        at=at if isinstance(at, str) else None,
        did=words.get("did"),
        saw=words.get("saw"),
        by=words.get("by"),
        because=words.get("because"),
        mends=mends,
        readers=_readers(reading, common["readers"]) if "readers" in common else None,
    )


def _mends(reading: _Reading, said: Piece) -> tuple[str, ...]:
    numbers = tuple(piece.strip() for piece in said.text.split(","))
    for number in numbers:
        if not NUMBER.fullmatch(number):
            reading.fault(
                said,
                f'"{number}" is no entry number',
                "Write it as it is shown, such as ld-16.",
            )
    return numbers


def _readers(reading: _Reading, said: Piece) -> tuple[str, ...]:
    readers = tuple(piece.strip().casefold() for piece in said.text.split(","))
    for reader in readers:
        if reader not in READERS:
            reading.fault(said, f'"{reader}" is not a reader', f"Readers are {', '.join(READERS)}.")
    return (
        tuple(sorted({"owner", *readers}, key=READERS.index))
        if set(readers) <= set(READERS)
        else ("owner",)
    )


@dataclass(frozen=True, slots=True)
class _Column:
    field: Field
    unit: str | None
    part: str  # "crown " where the heading says which level of the pipe its cells are


def _column(field: Field, key: str, unit: str | None = None) -> _Column:
    return _Column(field, unit, f"{key} " if field.key != key else "")


def _rows(reading: _Reading, base: Draft, table: RawTable) -> Iterator[Draft]:
    kind = base.kind.rows or base.kind
    if base.kind.rows is None and base.kind.sort is Sort.THING:
        reading.fault(
            table.head[0], f"a {base.kind.word} has no table", 'Write its fields as "- key: value".'
        )
        return
    columns = _columns(reading, kind, table)
    if columns is None:
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


def _columns(reading: _Reading, kind: Kind, table: RawTable) -> list[_Column] | None:
    columns: list[_Column] = []
    sound = True
    for cell in table.head:
        parted = UNIT.match(cell.text)
        named = Piece(parted["key"] if parted else cell.text, cell.line, cell.column)
        key = said_key(named)
        field = _field_of(kind, key)
        if field is None:
            _unknown_key(reading, kind, named, key)
            sound = False
        elif any(column.field is field for column in columns):
            reading.fault(named, f'"{field.key}" has two columns', "Leave one of them.")
            sound = False
        else:
            columns.append(_column(field, key, parted["unit"] if parted else None))
    if sound and kind.key and columns[0].field.key != kind.key:
        reading.fault(
            table.head[0],
            f'the first column of this table is "{kind.key}"',
            f'Put "{kind.key}" first: it names the row.',
        )
        sound = False
    return columns if sound else None


def _row(
    reading: _Reading, base: Draft, kind: Kind, columns: list[_Column], row: tuple[Piece, ...]
) -> Iterator[Draft]:
    body: dict[str, Value] = {}
    spots: dict[str, Piece] = {}
    for column, cell in zip(columns, row, strict=True):
        value = _cell(reading, column, cell)
        if value is not None:
            body[column.field.name], spots[column.field.name] = value, cell
    about = base.about
    if kind.key:
        key = (row[0].text.split() or [""])[0]
        if not ROW.fullmatch(key):
            reading.fault(row[0], f'"{key}" cannot name a row', "Start it with a number or a word.")
            return
        about = f"{base.about}/{key}"
        if base.mends and row[0].text == key:
            # It only says which row is mended; the row's own words are not.
            del body[columns[0].field.name]
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
        key="" if kind.key and not base.mends else _first_words(kind, body, base.mends),
    )


def _cell(reading: _Reading, column: _Column, cell: Piece) -> Value | None:
    if not column.part:
        return reading.value(column.field, cell, column.unit)
    try:
        # The heading's word goes before the cell's, unless the cell states an absence.
        read = column.field.read(cell.text) if _is_absent(cell.text) else None
        return read if read is not None else column.field.read(column.part + cell.text, column.unit)
    except ValueFault as fault:
        shift = 0 if _is_absent(cell.text) else len(column.part)
        start = max(0, fault.start - shift)
        end = len(cell.text) if fault.end is None else max(start + 1, fault.end - shift)
        at = Piece(cell.text[start:end] or " ", cell.line, cell.column + start)
        reading.fault(at, f"{column.part.strip()}: {fault.problem}", fault.remedy)
        return None


def _is_absent(text: str) -> bool:
    from record.facts.fields import read_absent

    try:
        return read_absent(text) is not None
    except ValueFault:
        return True


def _photo(base: Draft, photo: RawPhoto) -> Draft:
    """A picture's caption says how near it is, which way it looks, and what it shows."""
    caption = photo.caption.text
    before, _, shown = caption.partition("shows ")
    pieces = [piece.strip() for piece in before.split(",") if piece.strip()]
    tags = [tag.strip() for tag in shown.split(",") if TAG.fullmatch(tag.strip())]
    body: dict[str, Value] = {
        "file": photo.file.text,
        "caption": caption or "none",
        "shows": tuple(dict.fromkeys([base.about, *tags])),
    }
    for piece in pieces:
        if piece in ("wide", "close"):
            body["view"] = piece
        elif piece.startswith("looking "):
            body["looking"] = piece.removeprefix("looking ")
        elif "in view" in piece:
            body["scale"] = piece
    spots = {"file": photo.file, "caption": photo.caption, "shows": photo.caption}
    return replace(
        base,
        kind=KINDS["photographed"],
        body=body,
        mends=(),
        because=None,
        key=photo.file.text,
        spots=spots,
        heading=photo.file,
        lines=(photo.file.line,),
    )


def _remark(reading: _Reading, base: Draft, remark: RawRemark) -> Draft:
    like = KEY.match(remark.text)
    if like:
        key = re.sub(r"\s+", " ", like[1]).casefold()
        names = [field.key for field in base.kind.fields] + list(COMMON)
        near = get_close_matches(key, names, 1, 0.8)
        if near:
            reading.fault(
                remark.at,
                f'this would be kept as a remark, but it begins like the field "{near[0]}"',
                f'Write "- {near[0]}: …", with an empty line before the first of them.',
            )
    return replace(
        base,
        kind=KINDS["remark"],
        body={"text": remark.text},
        mends=(),
        because=None,
        key=remark.text,
        spots={"text": remark.at},
        heading=remark.at,
        lines=remark.lines,
    )
