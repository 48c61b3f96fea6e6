"""Who may see an entry: what its kind allows, less whoever may not see something it names."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cache

from record.entry import Entry
from record.facts import KINDS, READERS, STORED, Sort
from record.facts.values import in_words
from record.sheets import Draft


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


def narrow(
    draft: Draft, of_tags: Mapping[str, frozenset[str]], mended: Sequence[Entry] = ()
) -> tuple[str, ...]:
    """
    Return the readers of one draft, in fixed order; the owner is always among them.

    The narrowest of: the kind's default, what the block says, the readers of the entries it
    mends, and those of every thing that it is about, refers to, or names anywhere in its words.
    """
    readers = draft.kind.readers
    if draft.readers is not None:
        readers &= frozenset(draft.readers)
    for entry in mended:
        if entry.content is not None:
            readers &= frozenset(entry.content.readers)
    words: tuple[str, ...] | None = None
    for tag, may in of_tags.items():
        if readers <= may:
            continue
        words = words or tuple(_plain(text) for text in _words(draft))
        if any(_names(text, tag, of_tags) for text in words):
            readers &= may
    return tuple(reader for reader in READERS if reader in readers or reader == "owner")


def narrower(
    draft: Draft, of_tags: Mapping[str, frozenset[str]], mended: Sequence[Entry]
) -> tuple[Entry, tuple[str, ...]] | None:
    """
    Return an entry that more readers see than would see the draft that mends it, and those.

    Their copies would go on saying what the mend puts right.
    """
    mine = narrow(draft, of_tags, mended) if mended else ()
    for entry in mended:
        if entry.content is not None:
            lost = tuple(reader for reader in entry.content.readers if reader not in mine)
            if lost:
                return entry, lost
    return None


def _words(draft: Draft) -> Iterator[str]:
    """Yield everything a draft says in words."""
    yield draft.about
    yield from (said for said in (draft.did, draft.saw, draft.by, draft.because) if said)
    for value in draft.body.values():
        yield in_words(value)


_DASHES = dict.fromkeys(map(ord, "‐‑‒–—−﹣-"), "-")


def _plain(text: str) -> str:
    return text.translate(_DASHES).casefold()


@cache
def _mention(tag: str) -> re.Pattern[str]:
    return re.compile(rf"(?<![a-z0-9]){re.escape(_plain(tag))}(?![a-z0-9])")


def _names(text: str, tag: str, tags: Iterable[str]) -> bool:
    """Return whether plain ``text`` names ``tag``, and not only a longer tag that holds it."""
    for found in _mention(tag).finditer(text):
        token = next(t for t in _TOKEN.finditer(text) if t.end() >= found.end())[0].rstrip(".-")
        if token == _plain(tag) or token not in {_plain(other) for other in tags}:
            return True
    return False


_TOKEN = re.compile(r"[a-z0-9][a-z0-9.-]*")


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
