"""One block of a sheet → drafts: its fields, its table's rows, its pictures, its remarks."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from difflib import get_close_matches

from record.facts import KINDS, Sort
from record.facts.captions import read_caption
from record.facts.values import Value
from record.sheets.blocks import RawBlock, RawField, RawPhoto, RawRemark, RawTable
from record.sheets.draft import Draft, first_words
from record.sheets.faults import SheetFault
from record.sheets.field_drafts import with_fields
from record.sheets.headings import read_heading
from record.sheets.lines import Piece, SheetText
from record.sheets.reading import COMMON, Reading
from record.sheets.row_drafts import row_drafts

KEY = re.compile(r"^[-*]?\s*([A-Za-z' ]{2,30}):")


def block_drafts(
    text: SheetText, block: RawBlock, site: str, faults: list[SheetFault]
) -> Iterator[Draft]:
    """Yield the drafts of one block, in the order they stand; faults are added to ``faults``."""
    head = read_heading(text, block.heading, site, faults)
    if head is None:
        return
    kind, tag = head
    reading = Reading(text, faults)
    base = Draft(kind=kind, about=tag, body={}, heading=block.heading, lines=(block.heading.line,))
    tables = [item for item in block.items if isinstance(item, RawTable)]
    base = with_fields(reading, base, [i for i in block.items if isinstance(i, RawField)])
    yield from _own(base, bool(tables))
    for table in tables:
        yield from row_drafts(reading, base, table)
    for item in block.items:
        if isinstance(item, RawPhoto):
            yield _photo(reading, base, item)
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
        yield replace(base, key=first_words(base.kind, base.body, base.mends))


def _photo(reading: Reading, base: Draft, photo: RawPhoto) -> Draft:
    """A picture's caption says how near it is, which way it looks, and what it shows."""
    caption = photo.caption.text
    said = read_caption(caption)
    for words in said.lost:
        start = caption.rfind(words)
        at = Piece(words, photo.caption.line, photo.caption.column + start)
        reading.fault(
            at,
            f'"{words}" is not a tag, and after "shows" stand only tags',
            'Write tags with commas between, "shows AIR-IN, SM-2"; other words go before "shows".',
        )
    body: dict[str, Value] = {
        "file": photo.file.text,
        "caption": caption or "none",
        "shows": tuple(dict.fromkeys([base.about, *said.shows])),
    }
    claims = (("view", said.view), ("looking", said.looking), ("scale", said.scale))
    body |= {key: words for key, words in claims if words}
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


def _remark(reading: Reading, base: Draft, remark: RawRemark) -> Draft:
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
