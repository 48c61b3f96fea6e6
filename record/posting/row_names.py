"""A row's own name, said again: it only says which row is meant, and is no new statement."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from record.entry import Entry
from record.facts import STORED
from record.fold import AsBuilt
from record.posting.again import Key, key_of
from record.sheets import Draft


def without_known_names(
    drafts: Sequence[Draft], built: AsBuilt, posted: Mapping[Key, Entry]
) -> Iterator[Draft]:
    """
    Yield the drafts, each row without the name it has in the record already.

    "2 bend" over a new level would else state "2 bend" once more on every sheet. A row that
    says nothing but its name keeps it. Of a row posted before from the same sheet, ``posted``
    decides: what it said then is compared, and a name it left out then is left out again.
    """
    whole = dict.fromkeys(draft.about.partition("/")[0] for draft in drafts if draft.kind.key)
    things = [thing for tag in whole if (thing := built.thing(tag))]
    parts = {part.tag: part for thing in things for part in thing.parts}
    ever: set[tuple[str, str]] | None = None
    for draft in drafts:
        name = draft.kind.key
        said = draft.body.get(name)
        if not name or draft.mends or not isinstance(said, str) or len(draft.body) == 1:
            yield draft
            continue
        entry = posted.get(key_of(draft))
        if entry is None or entry.content is None:
            part = parts.get(draft.about)
            held = part.held(name) if part else ()
            known = bool(held) and all(one.value == said for one in held)
        else:
            ever = _ever(built) if ever is None else ever
            known = name not in entry.content.body and (draft.about, said) in ever
        yield _without(draft, name) if known else draft


def _ever(built: AsBuilt) -> set[tuple[str, str]]:
    """Return every name that a row was ever given: (its tag, its words)."""
    return {
        (content.about, said)
        for entry in built.entries
        if (content := entry.content) and (kind := STORED.get(content.kind)) and kind.key
        if isinstance(said := content.body.get(kind.key), str)
    }


def _without(draft: Draft, name: str) -> Draft:
    return replace(draft, body={key: v for key, v in draft.body.items() if key != name})
