"""Two tags that named each other's thing from a moment on: what was meant, in place of the names.

An entry "tags swapped" changes no line. Entries of its two tags are read with the tags exchanged:

- what the swap had seen, if its time in the field is not before ``from``;
- what had neither seen the swap nor been seen by it (a tablet with no signal), if its time in
  the field lies between ``from`` and the swap's own;
- never what had seen the swap: its writer used the right names.

A mend is read like what it mends, unless it had seen the swap. Where a day without an hour does
not tell, what the swap had seen is exchanged; anything else is not, and is told as not settled.
Two swaps of the same two tags that had not seen each other are one finding, said twice.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from msgspec.structs import replace

from record.entry import Content, Entry, Swapped
from record.facts import STORED
from record.facts.named import TagOf, TagsOf
from record.fold.mends import Mends, mends
from record.fold.sight import Sight, in_order, sight
from record.fold.standing import happening_of

SWAPPED = "tags-swapped"


@dataclass(frozen=True, slots=True, kw_only=True)
class Swap:
    """One acting swap: its two tags, since when, and who stands before and behind it."""

    entry: Entry
    tags: tuple[str, str]
    day: str
    hour: str | None
    known: frozenset[str]  # hashes of what it had seen
    aware: frozenset[str]  # hashes of what had seen it


@dataclass(frozen=True, slots=True)
class Meant:
    """The entries as they are meant, in the order given, and the swaps nobody can carry out."""

    entries: tuple[Entry, ...]
    unclear: tuple[Entry, ...] = ()

    @property
    def doubtful(self) -> tuple[Entry, ...]:
        """Entries of which it cannot be told whether the swap touches them; read as written."""
        return tuple(e for e in self.entries if e.swapped and e.swapped.doubt and not _turned(e))


def _turned(entry: Entry) -> bool:
    return entry.swapped is not None and entry.swapped.written != entry.content


def as_meant(entries: Sequence[Entry]) -> Meant:
    """Return ``entries`` with swapped tags exchanged where they were written the wrong way."""
    written = tuple(_written(entry) for entry in entries)
    if not any(entry.content and entry.content.kind == SWAPPED for entry in written):
        return Meant(written)
    seen = sight(written)
    ordered = in_order(seen)
    mended = mends(ordered, seen, ordered)
    swaps, unclear = _swaps(ordered, seen, mended)
    once = _said_once(swaps)
    return Meant(tuple(_exchanged(entry, mended.root(entry), once) for entry in written), unclear)


def _written(entry: Entry) -> Entry:
    """Undo an earlier reading, so that reading twice is reading once."""
    if entry.swapped is None:
        return entry
    return replace(entry, content=entry.swapped.written, swapped=None)


def _swaps(
    ordered: Sequence[Entry], seen: Sight, mended: Mends
) -> tuple[list[Swap], tuple[Entry, ...]]:
    """Return the swaps that stand, each behind all it had seen, and those that cannot be read."""
    astray = {entry.hash for entry in mended.astray}
    groups: dict[str, list[Entry]] = {}
    for entry in ordered:
        if entry.content and entry.content.kind == SWAPPED and entry.hash not in astray:
            groups.setdefault(mended.root(entry).hash, []).append(entry)
    swaps: list[Swap] = []
    unclear: list[Entry] = []
    for group in groups.values():
        root = mended.root(group[0])
        if root.hash in mended.withdrawn_by or root.content is None or root.content.kind != SWAPPED:
            continue
        told = happening_of(group, mended, seen)
        other, day = told.text("with"), told.text("from")
        if other is None or day is None or "from_time" in told.unsettled():
            unclear.append(told.entry)
            continue
        swaps.append(
            Swap(
                entry=told.entry,
                tags=(told.about, other),
                day=day,
                hour=told.text("from_time"),
                known=_known(told.entry, seen),
                aware=_aware(told.entry, ordered, seen),
            )
        )
    return swaps, tuple(unclear)


def _known(swap: Entry, seen: Sight) -> frozenset[str]:
    found: set[str] = set()
    waiting = [swap]
    while waiting:
        for before in seen.before(waiting.pop()):
            if before.hash not in found:
                found.add(before.hash)
                waiting.append(before)
    return frozenset(found)


def _aware(swap: Entry, ordered: Sequence[Entry], seen: Sight) -> frozenset[str]:
    """Return what had seen the swap, itself included. ``ordered`` stands in order of sight."""
    found = {swap.hash}
    for entry in ordered:
        if any(before.hash in found for before in seen.before(entry)):
            found.add(entry.hash)
    return frozenset(found)


def _said_once(swaps: Sequence[Swap]) -> list[list[Swap]]:
    """Group swaps of the same two tags that had not seen each other."""
    groups: list[list[Swap]] = []
    for swap in swaps:
        for group in groups:
            if set(group[0].tags) == set(swap.tags) and not any(
                one.entry.hash in swap.known for one in group
            ):
                group.append(swap)
                break
        else:
            groups.append([swap])
    return groups


def _exchanged(entry: Entry, root: Entry, groups: Sequence[Sequence[Swap]]) -> Entry:
    content = entry.content
    if content is None or content.kind == SWAPPED:
        return entry
    said, by, doubt = content, [], False
    for group in groups:
        turned = _turn(said, group[0].tags)
        if turned == said or any(entry.hash in swap.aware for swap in group):
            continue
        answers = {_wrong(root, swap) for swap in group}
        if answers == {False}:
            continue
        sure = answers == {True}
        by += [swap.entry for swap in group]
        seen = any(root.hash in swap.known for swap in group)
        doubt = doubt or not sure
        if sure or (seen and False not in answers):
            said = turned
    if not by:
        return entry
    return replace(entry, content=said, swapped=Swapped(content, tuple(by), doubt))


def _wrong(root: Entry, swap: Swap) -> bool | None:
    """Return whether an entry's names were the wrong way round; None where it cannot be told."""
    assert root.content is not None
    on, at = root.content.on, root.content.at
    began = _not_before(on, at, swap.day, swap.hour)
    if root.hash in swap.known or began is False:
        return began
    assert swap.entry.content is not None
    own = swap.entry.content
    if own.at is None and on == own.on:
        return None
    ended = _not_before(on, at, own.on, own.at)
    if ended is True:
        return False
    return None if ended is None else began


def _not_before(on: str, at: str | None, day: str, hour: str | None) -> bool | None:
    if on != day or hour is None:
        return on >= day
    return None if at is None else at >= hour


def _turn(content: Content, tags: tuple[str, str]) -> Content:
    """Return what is said with the two tags exchanged, in its tag and wherever it refers to one."""
    one, other = tags
    other_of = {one: other, other: one}
    kind = STORED.get(content.kind)
    body: dict[str, Any] = dict(content.body)
    for field in kind.fields if kind else ():
        if isinstance(field.holds, (TagOf, TagsOf)) and field.name in body:
            body[field.name] = _turned_value(body[field.name], other_of)
    return replace(content, about=_turned_tag(content.about, other_of), body=body)


def _turned_value(form: Any, other_of: Mapping[str, str]) -> Any:
    if isinstance(form, str):
        return _turned_tag(form, other_of)
    if isinstance(form, list):
        return [_turned_tag(tag, other_of) if isinstance(tag, str) else tag for tag in form]
    return form


def _turned_tag(tag: str, other_of: Mapping[str, str]) -> str:
    whole, slash, part = tag.partition("/")
    return f"{other_of.get(whole, whole)}{slash}{part}"


def in_doubt(meant: Meant) -> Iterator[tuple[Entry, str]]:
    """Yield what cannot be read for sure, under either tag it may be of, and why."""
    for entry in meant.unclear:
        yield entry, "which tags it swaps, or since when, is not settled"
    for entry in meant.doubtful:
        assert entry.swapped is not None and entry.content is not None
        numbers = ", ".join(by.number for by in entry.swapped.by)
        why = f"its tags may be swapped ({numbers}): order not known, as it has no hour"
        yield entry, why
        for by in entry.swapped.by:
            turned = _turn(entry.content, _tags(by))
            if turned.about != entry.content.about:
                yield replace(entry, content=turned), why


def _tags(swap: Entry) -> tuple[str, str]:
    assert swap.content is not None
    return swap.content.about, str(swap.content.body.get("with", ""))
