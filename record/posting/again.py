"""A sheet posted again: what is there already, what is new, what differs, what is gone."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from record.entry import Entry
from record.facts.values import to_json
from record.sheets import Draft, Sheet, SheetFault


@dataclass(frozen=True, slots=True)
class Compared:
    """The sheet beside what the record has of it, by (kind, tag, first words)."""

    new: tuple[Draft, ...]
    already: tuple[Entry, ...]
    vanished: tuple[Entry, ...]  # in the record, no longer in the sheet: said, never withdrawn
    faults: tuple[SheetFault, ...]


Key = tuple[str, str, str]


def compare(sheet: Sheet, drafts: Sequence[Draft], entries: Sequence[Entry]) -> Compared:
    """Return how a sheet's drafts stand to the entries posted before from the same sheet."""
    before = {
        _key_of(entry): entry
        for entry in entries
        if entry.content
        and entry.link.writer == sheet.writer
        and (entry.content.source or {}).get("sheet") == sheet.title
        and entry.content.kind != "sheet-posted"
    }
    new: list[Draft] = []
    already: list[Entry] = []
    faults: list[SheetFault] = []
    for draft in drafts:
        entry = before.pop((draft.kind.stored, draft.about, draft.key), None)
        if entry is None:
            new.append(draft)
        elif same(draft, entry):
            already.append(entry)
        else:
            faults.append(_changed(sheet, draft, entry))
    return Compared(tuple(new), tuple(already), tuple(before.values()), tuple(faults))


def _key_of(entry: Entry) -> Key:
    assert entry.content is not None
    source: Mapping[str, Any] = entry.content.source or {}
    return (entry.content.kind, entry.content.about, str(source.get("key", "")))


def same(draft: Draft, entry: Entry) -> bool:
    content = entry.content
    assert content is not None
    said = {name: to_json(value) for name, value in draft.body.items()}
    people = (draft.at, draft.did, draft.saw, draft.by, draft.because)
    return said == dict(content.body) and people == (
        content.at,
        content.did,
        content.saw,
        content.by,
        content.because,
    )


def _changed(sheet: Sheet, draft: Draft, entry: Entry) -> SheetFault:
    content = entry.content
    assert content is not None
    said = {name: to_json(value) for name, value in draft.body.items()}
    names = [n for n in (*said, *content.body) if said.get(n) != content.body.get(n)]
    field = names[0] if names else "at"
    at = draft.spot(field if names else "#at")
    what = field.replace("_", " ")
    return sheet.text.fault(
        at,
        f"{entry.number} was recorded from this sheet with another {what}",
        f'What was recorded stays. To mend it, write a block "- mends: {entry.number}" and '
        '"- because: …" with what changed, and leave this as it was.',
    )
