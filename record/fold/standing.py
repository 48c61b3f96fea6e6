"""Which statements stand together: what supersedes what, and one happening with its mends."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from record.entry import Entry
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
        return tuple(statements)
    standing = tuple(
        one
        for one in statements
        if not any(later(other, one, seen, mended) for other in statements)
    )
    # Hours given for some only can go round in a ring; then all of them disagree.
    return standing or tuple(statements)


def happening_of(group: Sequence[Entry], mended: Mends, seen: Sight) -> Happening:
    """Return one happening from the entry that told it and the entries that mend it.

    That entry is at hand, of a known kind, and was not withdrawn.
    """
    root = mended.root(group[0])
    content = root.content
    assert content is not None
    fields: dict[str, list[Held]] = {}
    for entry in group:
        body: Mapping[str, Any] = entry.content.body if entry.content else {}
        for name, form in body.items():
            if mended.stands(entry, name):
                held = Held(from_json(form), entry, content.on, content.at)
                fields.setdefault(name, []).append(held)
    return Happening(
        fields={name: holding(held, seen, mended) for name, held in fields.items()},
        kind=STORED[content.kind],
        about=content.about,
        on=content.on,
        at=content.at,
        entry=root,
    )
