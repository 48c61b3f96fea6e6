"""Who may see an entry: what its kind allows, less whoever may not see something it names."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from record.entry import Entry
from record.facts import KINDS, READERS, STORED, Sort
from record.facts.values import Value
from record.sheets import Draft

WORD = re.compile(r"[A-Za-z][A-Za-z0-9.]*(?:-[A-Za-z0-9.]+)*")


def readers_of_tags(entries: Sequence[Entry]) -> dict[str, frozenset[str]]:
    """Return, for every thing, who may see all that was said of it."""
    found: dict[str, frozenset[str]] = {}
    for entry in entries:
        content = entry.content
        kind = STORED.get(content.kind) if content else None
        if content is None or kind is None or kind.sort is not Sort.THING:
            continue
        tag = content.about.partition("/")[0]
        found[tag] = found.get(tag, frozenset(READERS)) & frozenset(content.readers)
    return found


def narrow(draft: Draft, of_tags: Mapping[str, frozenset[str]]) -> tuple[str, ...]:
    """
    Return the readers of one draft, in fixed order; the owner is always among them.

    The narrowest of: the kind's default, what the block says, and the readers of every thing
    that the entry is about, refers to, or names anywhere in its words.
    """
    readers = draft.kind.readers
    if draft.readers is not None:
        readers &= frozenset(draft.readers)
    named = {draft.about.partition("/")[0]}
    for value in draft.body.values():
        named |= _named(value)
    if draft.because:
        named |= _named(draft.because)
    for tag in named & of_tags.keys():
        readers &= of_tags[tag]
    return tuple(reader for reader in READERS if reader in readers or reader == "owner")


def _named(value: Value) -> set[str]:
    if isinstance(value, tuple):
        return set(value)
    return set(WORD.findall(value)) if isinstance(value, str) else set()


def with_drafts(
    of_tags: Mapping[str, frozenset[str]], drafts: Sequence[Draft]
) -> dict[str, frozenset[str]]:
    """Return the readers of things with those added that the sheet itself brings in."""
    found = dict(of_tags)
    for draft in drafts:
        if draft.kind.sort is Sort.THING:
            tag = draft.about.partition("/")[0]
            readers = KINDS[draft.kind.word].readers if draft.kind.word in KINDS else None
            stated = frozenset(draft.readers) if draft.readers is not None else None
            mine = (readers or frozenset({"owner"})) & (stated or frozenset(READERS))
            found[tag] = found.get(tag, frozenset(READERS)) & mine
    return found
