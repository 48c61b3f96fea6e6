"""The fields of a block → what its drafts say: its kind's own, and those any block may carry."""

from __future__ import annotations

import re
from dataclasses import replace

from record.facts import READERS
from record.facts.fields import Clock, Field
from record.facts.values import Value
from record.sheets.blocks import RawField
from record.sheets.draft import Draft
from record.sheets.gaps import has_gap
from record.sheets.headings import said_key
from record.sheets.lines import Piece
from record.sheets.reading import COMMON, Reading, column_of, field_of, read_cell, unknown_key

NUMBER = re.compile(r"[a-z][a-z0-9]{0,15}-[1-9][0-9]{0,8}(/[0-9a-f]{4,64})?")


def with_fields(reading: Reading, base: Draft, fields: list[RawField]) -> Draft:
    body: dict[str, Value] = {}
    spots: dict[str, Piece] = {}
    lines = list(base.lines)
    common: dict[str, Piece] = {}
    for raw in fields:
        lines.extend(raw.lines)
        key = said_key(raw.key)
        field = field_of(base.kind, key)
        if field is None and key in COMMON:
            if key in common:
                reading.fault(raw.key, f'"{key}" stands twice', "Leave one of them.")
            common[key] = raw.value
        elif field is None:
            unknown_key(reading, base.kind, raw.key, key)
        elif field.name in body:
            reading.fault(raw.key, f'"{field.key}" stands twice', "Leave one of them.")
        else:
            value = read_cell(reading, column_of(field, key), raw.value)
            if value is not None:
                body[field.name], spots[field.name] = value, raw.value
    draft = replace(base, body=body, spots=spots, lines=tuple(lines))
    return _with_common(reading, draft, common)


def _with_common(reading: Reading, draft: Draft, common: dict[str, Piece]) -> Draft:
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


def _mends(reading: Reading, said: Piece) -> tuple[str, ...]:
    numbers = tuple(piece.strip() for piece in said.text.split(","))
    for number in numbers:
        if not NUMBER.fullmatch(number) and not has_gap(number):
            reading.fault(
                said,
                f'"{number}" is no entry number',
                "Write it as it is shown, such as ld-16.",
            )
    return numbers


def _readers(reading: Reading, said: Piece) -> tuple[str, ...]:
    readers = tuple(piece.strip().casefold() for piece in said.text.split(","))
    for reader in readers:
        if reader not in READERS and not has_gap(reader):
            reading.fault(said, f'"{reader}" is not a reader', f"Readers are {', '.join(READERS)}.")
    return (
        tuple(sorted({"owner", *readers}, key=READERS.index))
        if set(readers) <= set(READERS)
        else ("owner",)
    )
