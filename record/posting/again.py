"""A sheet posted again: what is there already, what is new, what differs, what is gone."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
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


def posted_before(sheet: Sheet, entries: Sequence[Entry]) -> dict[Key, Entry]:
    """Return the entries posted from a sheet of the same title, by (kind, tag, first words)."""
    return {
        _key_of(entry): entry
        for entry in entries
        if entry.content
        and entry.link.writer == sheet.writer
        and (entry.content.source or {}).get("sheet") == sheet.title
        and entry.content.kind != "sheet-posted"
    }


def compare(sheet: Sheet, drafts: Sequence[Draft], posted: Mapping[Key, Entry]) -> Compared:
    """Return how a sheet's drafts stand to the entries ``posted_before`` from the same sheet."""
    before = dict(posted)
    new: list[Draft] = []
    already: list[Entry] = []
    faults: list[SheetFault] = []
    for draft in drafts:
        entry = before.pop(key_of(draft), None)
        if entry is None:
            new.append(draft)
        elif same(draft, entry):
            already.append(entry)
        else:
            faults.append(_changed(sheet, draft, entry))
    return Compared(tuple(new), tuple(already), tuple(before.values()), tuple(faults))


def key_of(draft: Draft) -> Key:
    return (draft.kind.stored, draft.about, draft.key)


def _key_of(entry: Entry) -> Key:
    assert entry.content is not None
    source: Mapping[str, Any] = entry.content.source or {}
    return (entry.content.kind, entry.content.about, str(source.get("key", "")))


def same(draft: Draft, entry: Entry) -> bool:
    return next(_differences(draft, entry), None) is None


def _differences(draft: Draft, entry: Entry) -> Iterator[tuple[str, str]]:
    """Yield what a draft says otherwise than its entry: the word for it, and its spot's name."""
    content = entry.content
    assert content is not None
    said = {name: to_json(value) for name, value in draft.body.items()}
    for name in dict.fromkeys((*said, *content.body)):
        if said.get(name) != content.body.get(name):
            yield name.replace("_", " "), name
    mends = tuple(number.partition("/")[0] for number in draft.mends)
    pairs = {
        "at": (draft.at, content.at),
        "did": (draft.did, content.did),
        "saw": (draft.saw, content.saw),
        "by": (draft.by, content.by),
        "because": (draft.because, content.because),
        "mends": (mends, tuple(target.number.partition("/")[0] for target in content.replaces)),
    }
    for key, (now, then) in pairs.items():
        if now != then:
            yield key, f"#{key}"
    if draft.readers is not None and not set(content.readers) <= set(draft.readers):
        yield "readers", "#readers"


def _changed(sheet: Sheet, draft: Draft, entry: Entry) -> SheetFault:
    what, spot = next(_differences(draft, entry))
    return sheet.text.fault(
        draft.spot(spot),
        f"{entry.number} was recorded from this sheet with another {what}",
        f'What was recorded stays. To mend it, write a block "- mends: {entry.number}" and '
        '"- because: …" with what changed, and leave this as it was. If this is another sheet of '
        f'that day, give it a part: "# {sheet.day} {sheet.writer} evening".',
    )
