"""Entry numbers that a sheet names, such as what a retest is of: held against the record."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from record.entry import Entry
from record.facts import STORED
from record.facts.fields import Field
from record.facts.named import CLOCK, EntryOf
from record.fold import AsBuilt, Mends
from record.sheets import Draft, Sheet, SheetFault
from record.sheets.lines import Piece


def named_entry_faults(
    sheet: Sheet,
    draft: Draft,
    built: AsBuilt,
    mended: Mends,
    by_number: Mapping[str, Sequence[Entry]],
) -> Iterator[SheetFault]:
    """Yield a fault for every entry named that is not there, was withdrawn, or is no such entry."""
    for field in draft.kind.fields:
        said = draft.body.get(field.name)
        if not isinstance(field.holds, EntryOf) or not isinstance(said, str):
            continue
        for name in field.holds.named(said):
            if CLOCK.fullmatch(name):
                found = "" if field.holds.words else _at_that_time(sheet, draft, built, field, name)
            else:
                found = _of_that_number(mended, by_number, field, name)
            if found:
                problem, _, hint = found.partition("\n")
                yield sheet.text.fault(_place(draft.spot(field.name), name), problem, hint)


def _place(said: Piece, name: str) -> Piece:
    at = said.text.find(name)
    return Piece(name, said.line, said.column + at) if at >= 0 else said


def _at_that_time(sheet: Sheet, draft: Draft, built: AsBuilt, field: Field, time: str) -> str:
    """Return what is wrong with naming what happened to the thing at a time of this day."""
    assert isinstance(field.holds, EntryOf)
    kinds, whole = field.holds.kinds, draft.about.partition("/")[0]
    here = (one for one in sheet.drafts if one is not draft)
    if any(o.at == time and o.kind.word in kinds and _whole(o.about) == whole for o in here):
        return ""
    before = built.happened(*kinds)
    if any(h.on == sheet.day and h.at == time and _whole(h.about) == whole for h in before):
        return ""
    return (
        f"{field.key}: nothing that was looked at or tested of {whole} stands at {time} on "
        f'{sheet.day}\nGive that block "- at: {time}", or write its entry number, such as ld-88.'
    )


def _whole(tag: str) -> str:
    return tag.partition("/")[0]


def _of_that_number(
    mended: Mends,
    by_number: Mapping[str, Sequence[Entry]],
    field: Field,
    number: str,
) -> str:
    """Return what is wrong with naming an entry by its number."""
    assert isinstance(field.holds, EntryOf)
    plain, _, start = number.partition("/")
    entries = [e for e in by_number.get(plain, ()) if e.hash.startswith(start)]
    kinds = field.holds.kinds
    if not entries:
        return (
            f"{field.key}: this record has no entry {number}\n"
            "`asburied entries` shows their numbers; what stands on this sheet is named by its "
            "time, such as 07:10."
        )
    if all(entry.hash in mended.withdrawn_by for entry in entries):
        return f"{field.key}: {number} was withdrawn\nWrite the entry that stands."
    told = [entry.content for entry in entries if entry.content]
    if told and all(STORED[c.kind].word not in kinds for c in told if c.kind in STORED):
        known = STORED.get(told[0].kind)
        was = known.word if known else told[0].kind
        return (
            f"{field.key}: {number} is a {was} of {told[0].about}, and not a look or a test\n"
            f"Write the number of what failed: {', '.join(kinds)}."
        )
    return ""
