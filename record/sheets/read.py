"""A day sheet → drafts of entries, or every fault of it at once."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date

from record.entry import WRITER
from record.facts.named import TAG
from record.sheets.block_drafts import block_drafts
from record.sheets.blocks import BEFORE, RawBlock, RawField, blocks
from record.sheets.draft import Draft
from record.sheets.faults import SheetFault, SheetRejected
from record.sheets.gaps import form_faults, has_gap
from record.sheets.headings import said_key
from record.sheets.lines import Piece, SheetText, take

HEAD = 'Start the sheet with "# ", the day and the writer, such as "# 2031-05-14 ld".'
SHEET_FIELDS = ("site", "zone", "did", "saw", "by")
_LIKE = 'this would be kept as a remark, but it begins like "{}"'
PART = re.compile(r"[a-z0-9][a-z0-9-]{0,30}")


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A sheet that reads: its day, writer, part of the day, site and zone, and its drafts."""

    text: SheetText
    day: str
    writer: str
    part: str
    site: str
    zone: str | None
    heading: Piece
    drafts: tuple[Draft, ...]

    @property
    def title(self) -> str:
        """What tells one sheet from another: day, writer, part."""
        return " ".join(filter(None, (self.day, self.writer, self.part)))


def read_sheet(name: str, data: bytes) -> Sheet:
    """
    Return what a day sheet says.

    ``name`` is how faults call it. Raises SheetRejected with every fault that can be seen
    without the record; what needs the record is asked by ``record.posting``.
    """
    text = take(name, data)
    if isinstance(text, SheetFault):
        raise SheetRejected([text])
    raw, faults = blocks(text)
    faults += form_faults(text)
    sheet = sheet_of(text, raw, faults)
    if faults or sheet is None:
        raise SheetRejected(faults)
    return sheet


def sheet_of(text: SheetText, raw: list[RawBlock], faults: list[SheetFault]) -> Sheet | None:
    """Return the sheet that blocks make; None, with the fault added, if none at all."""
    if not raw or raw[0].level != 1:
        at = raw[0].heading if raw else Piece(text.lines[0], 1, 1)
        if not raw:  # then everything stands before it; once is enough
            faults[:] = [fault for fault in faults if fault.problem != BEFORE]
        faults.append(text.fault(at, "the sheet does not start with its day and writer", HEAD))
        return None
    day, writer, part = read_head(text, raw[0].heading, faults)
    fields = _head_fields(text, raw[0], faults)
    site = fields.get("site")
    said = any(fault.problem == _LIKE.format("site") for fault in faults)
    if not said and (site is None or not (TAG.fullmatch(site.text) or has_gap(site.text))):
        faults.append(
            text.fault(
                site or raw[0].heading,
                "the sheet does not say which site it is of",
                'Under the heading write "- site: " and the site\'s tag.',
            )
        )
    drafts: list[Draft] = []
    for block in raw[1:]:
        if block.level != 2:
            faults.append(
                text.fault(
                    block.heading,
                    f"a heading with {block.level} # is not used in a day sheet",
                    'A piece of work starts with "## ", its kind and its tag.',
                )
            )
            continue
        site_tag = site.text if site else ""
        drafts.extend(block_drafts(text, block, site_tag, faults))
    if not drafts and not faults:
        faults.append(
            text.fault(
                raw[0].heading,
                "the sheet says nothing yet",
                'Start a piece of work with "## ", its kind and its tag.',
            )
        )
    zone = fields.get("zone")
    people = {key: said.text for key, said in fields.items() if key in ("did", "saw", "by")}
    return Sheet(
        text=text,
        day=day,
        writer=writer,
        part=part,
        site=site.text if site else "",
        zone=zone.text if zone else None,
        heading=raw[0].heading,
        drafts=tuple(_keyed(_with_people(drafts, people))),
    )


def read_head(text: SheetText, heading: Piece, faults: list[SheetFault]) -> tuple[str, str, str]:
    """Return day, writer and part of a sheet's heading; what is wrong is added to ``faults``."""
    words = heading.text.split()
    if not 2 <= len(words) <= 3:
        faults.append(text.fault(heading, "the heading is not day, writer, part", HEAD))
        return "", "", ""
    day, writer, part = (*words, "")[:3]
    if has_gap(heading.text):
        return "", "", ""
    try:
        if not re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", day):
            raise ValueError
        date.fromisoformat(day)
    except ValueError:
        faults.append(text.fault(heading, f'"{day}" is not a day', HEAD))
    if not WRITER.fullmatch(writer):
        faults.append(
            text.fault(
                heading,
                f'"{writer}" is not a writer',
                "A writer is a few small letters, then digits if need be, such as ld or ck2.",
            )
        )
    if part and not PART.fullmatch(part):
        faults.append(
            text.fault(
                heading, f'"{part}" is not a part of the day', 'Write one word, such as "evening".'
            )
        )
    return day, writer, part


def _head_fields(text: SheetText, block: RawBlock, faults: list[SheetFault]) -> dict[str, Piece]:
    found: dict[str, Piece] = {}
    for item in block.items:
        if not isinstance(item, RawField):
            at = item.at if hasattr(item, "at") else block.heading
            faults.append(_astray(text, at))
            continue
        key = said_key(item.key)
        if key not in SHEET_FIELDS:
            remedy = f"Here stand {', '.join(SHEET_FIELDS)}; the rest goes under a heading."
            faults.append(text.fault(item.key, f'"{item.key.text}" is not of the sheet', remedy))
        elif key in found:
            faults.append(text.fault(item.key, f'"{key}" stands twice', "Leave one of them."))
        else:
            found[key] = item.value
    return found


def _astray(text: SheetText, at: Piece) -> SheetFault:
    """Return the fault of what stands under a sheet's heading and is no field."""
    key = at.text.partition(":")[0].strip().casefold()
    if ":" in at.text and key in SHEET_FIELDS:
        return text.fault(
            at, _LIKE.format(key), f'Write "- {key}: …", and "- " before each line like it.'
        )
    return text.fault(
        at,
        "this stands before the first piece of work, and would belong to nothing",
        'Put it under a heading, such as "## remark".',
    )


def _with_people(drafts: Iterable[Draft], people: dict[str, str]) -> Iterable[Draft]:
    """Give each draft the sheet's did, saw and by, where its block says nothing else."""
    for draft in drafts:
        did, saw = draft.did or people.get("did"), draft.saw or people.get("saw")
        by = draft.by or people.get("by")
        same = (did, saw, by) == (draft.did, draft.saw, draft.by)
        yield draft if same else replace(draft, did=did, saw=saw, by=by)


def _keyed(drafts: Iterable[Draft]) -> Iterable[Draft]:
    """Number drafts that share kind, tag and first words, in the order they stand."""
    met: Counter[tuple[str, str, str]] = Counter()
    for draft in drafts:
        met[draft.kind.word, draft.about, draft.key] += 1
        nth = met[draft.kind.word, draft.about, draft.key]
        yield replace(draft, key=f"{draft.key} #{nth}") if nth > 1 else draft
