"""Which statements stand together: what supersedes what, and one happening with its mends."""

from __future__ import annotations

from collections.abc import Sequence

from record.entry import Content, Entry
from record.facts import STORED
from record.facts.values import from_json
from record.fold.mends import Mends
from record.fold.sight import Sight
from record.fold.state import Happening, Held


def later(one: Held, other: Held, seen: Sight, mended: Mends) -> bool:
    """
    Return whether ``one`` supersedes ``other``.

    A mend stands in the place of what it mends: there it is compared. Of two mends of one entry
    neither supersedes the other unless it names it. Where neither place had seen the other,
    neither supersedes; otherwise the later in the field does, by day, then hour where both are
    known, then by which had seen the other.
    """
    here, there = mended.root(one.entry), mended.root(other.entry)
    if here.hash == there.hash:
        return mended.answers(one.entry, other.entry)
    had_seen = seen.saw(here, there)
    if not had_seen and not seen.saw(there, here):
        return False
    if one.on != other.on:
        return one.on > other.on
    if one.at and other.at and one.at != other.at:
        return one.at > other.at
    return had_seen


def holding(statements: list[Held], seen: Sight, mended: Mends) -> tuple[Held, ...]:
    """Return the statements that no other supersedes, in order of sight."""
    if len(statements) == 1:
        return (statements[0],)
    # The latest by day and hour mostly supersedes all others; then nothing supersedes it.
    first = max(reversed(statements), key=lambda one: f"{one.on} {one.at or ''}")
    if all(one is first or later(first, one, seen, mended) for one in statements):
        return (first,)
    standing = tuple(
        one
        for one in statements
        if not any(later(other, one, seen, mended) for other in statements)
    )
    # Hours given for some only can go round in a ring; then all of them disagree.
    return standing or tuple(statements)


def stands(entry: Entry, root: Content, mended: Mends) -> list[tuple[str, Held]]:
    """Return what an entry states and still stands, field by field, since when its root says."""
    if entry.content is None:
        return []
    body, on, at = entry.content.body, root.on, root.at
    if entry.hash in mended.touched:
        body = {name: form for name, form in body.items() if mended.stands(entry, name)}
    return [(name, Held(from_json(form), entry, on, at)) for name, form in body.items()]


def happening_of(group: Sequence[Entry], mended: Mends, seen: Sight) -> Happening:
    """Return one happening from the entry that told it and the entries that mend it.

    That entry is at hand, of a known kind, and was not withdrawn.
    """
    root = mended.root(group[0])
    content = root.content
    assert content is not None
    fields: dict[str, tuple[Held, ...]]
    if len(group) == 1:  # as nearly all
        fields = {name: (held,) for name, held in stands(group[0], content, mended)}
    else:
        said: dict[str, list[Held]] = {}
        for entry in group:
            for name, held in stands(entry, content, mended):
                said.setdefault(name, []).append(held)
        fields = {name: holding(held, seen, mended) for name, held in said.items()}
    return Happening(
        fields=fields,
        kind=STORED[content.kind],
        about=content.about,
        on=content.on,
        at=content.at,
        entry=root,
    )
