"""One gate: what a reader may see of the record, the owner's own view included.

What a reader may not see never reaches the view: entries lose their content, the fold is made
of what is left, and where a withheld thing lies there stands a reserved zone of whole panels,
which says nothing of what is there. Answers, checks and the manual take a view and nothing
else.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import chain

from msgspec import structs

from record.entry import Entry
from record.facts.kind import OWNER, READERS
from record.fold import AsBuilt, Doing, Thing, doings, fold
from record.fold.doings import ANYTHING
from record.place import (
    HullFrame,
    Nearby,
    carried,
    hull_frames,
    measured,
    openings,
    shapes,
    unplaced,
)
from record.reserved import Reserved, holds
from record.view import View

__all__ = ["View", "look", "look_at", "look_back"]


def look(
    entries: Sequence[Entry],
    reader: str = OWNER,
    *,
    as_of: str | None = None,
    whole: Sequence[Entry] | None = None,
    packed: Reserved | None = None,
) -> View:
    """
    Return what ``reader`` may see of ``entries`` as of a day. Raises ValueError: no such reader.

    Of a copy, ``packed`` says what is reserved of what it lacks. Whoever packs one has the
    ``whole`` record, from which some contents were taken out of ``entries``.
    """
    if reader not in READERS:
        raise ValueError(f'"{reader}" is not a reader: {", ".join(READERS)}')
    shown = tuple(_shown(entry, reader) for entry in entries)
    entries = entries if whole is None else whole
    given = packed if as_of is None else None
    built = carried(measured(fold(shown, as_of=as_of)))
    withheld, lacking = _without(shown), _without(entries)
    # Frames are of what the reader sees: a hull's own withheld mend must not show in offsets.
    hulls = hull_frames(built)
    visible = Nearby(built, hulls)
    given = _of_reader(given, reader, lacking, entries)
    if withheld == lacking:
        return _alone(reader, built, hulls, visible, lacking, given)
    everything = carried(measured(fold(entries, as_of=as_of)))
    all_hulls = hull_frames(everything)
    return View(
        reader,
        built,
        hulls,
        visible,
        withheld,
        _both(_unread(everything, built), given),
        tuple(
            shape
            for shape in chain(shapes(everything, all_hulls), openings(everything, all_hulls))
            if _hidden(shape.thing, built)
        ),
        all_hulls,
        # Where what this copy lacks may lie, nobody can tell from it.
        (lacking > 0 and given is None)
        or any(_hidden(each.thing, built) for each in unplaced(everything, all_hulls)),
        (*_undoing(everything, built), *_undone(given)),
        lacking,
        given,
    )


def _of_reader(
    given: Reserved | None, reader: str, lacking: int, entries: Sequence[Entry]
) -> Reserved | None:
    """Return what a copy carries, for whom it was packed or whoever owns it, while it holds."""
    if given is None or not lacking or reader not in (OWNER, given.reader):
        return None
    return given if holds(given, entries) else None


def _both(counts: Mapping[str, int], given: Reserved | None) -> Mapping[str, int]:
    return Counter(counts) | Counter(given.unread) if given else counts


def _undone(given: Reserved | None) -> Iterator[Doing]:
    """Yield the work that a copy lacks: what it was is not told, so it may have been any of it."""
    for on, at, tags in given.undone if given else ():
        yield Doing(frozenset(ANYTHING), on, at, frozenset(tags), None)


def _without(entries: Sequence[Entry]) -> int:
    return sum(1 for entry in entries if entry.content is None)


def _alone(
    reader: str,
    built: AsBuilt,
    hulls: Mapping[str, HullFrame],
    seen: Nearby,
    lacking: int,
    given: Reserved | None = None,
) -> View:
    """Return the view where nothing that is here is hidden; what is not here may lie anywhere."""
    return View(
        reader,
        built,
        hulls,
        seen,
        lacking,
        _both(_unread(built, built), given),
        _adrift=lacking > 0 and given is None,
        _undoing=tuple(_undone(given)),
        lacking=lacking,
        carried=given,
    )


def _undoing(whole: AsBuilt, seen: AsBuilt) -> Iterator[Doing]:
    """Yield the work this reader may not see, stripped of all but its day and the tags they see."""
    shown = {one.happening.entry.hash for one in doings(seen) if one.happening}
    for one in doings(whole):
        touched = one.touched & (seen.things.keys() | {seen.site})
        if one.happening and one.happening.entry.hash not in shown and touched:
            yield replace(one, touched=frozenset(touched), happening=None)


def look_back(view: View, day: str) -> View:
    """
    Return the same reader's view of a day before, of what this view shows.

    Work on finished things that they may not see stays told by its day, up to that one.
    """
    then = look(view.built.entries, view.reader, as_of=day)
    done = tuple(one for one in view._undoing if one.on <= day)
    return replace(then, _undoing=done, lacking=view.lacking, carried=view.carried)


def look_at(built: AsBuilt, *, packed: Reserved | None = None) -> View:
    """Return the owner's view of what was folded, or is folded as it is asked for."""
    built = carried(measured(built))
    hulls = hull_frames(built)
    # A record that is opened by its index lacks nothing: one that does is folded from its lines.
    lacking = _without(built.entries) if isinstance(built.entries, tuple) else 0
    given = _of_reader(packed, OWNER, lacking, built.entries)
    return _alone(OWNER, built, hulls, Nearby(built, hulls), lacking, given)


def _unread(whole: AsBuilt, seen: AsBuilt) -> Mapping[str, int]:
    """
    Count unread entries by tag: whoever may see a thing must know that more was said of it.

    They are the owner's alone, so nothing else of them comes out.
    """
    about = (u.entry.content.about.partition("/")[0] for u in whole.unread if u.entry.content)
    return Counter(tag for tag in about if tag in seen.things)


def _hidden(thing: Thing, built: AsBuilt) -> bool:
    """Return whether the reader does not see the thing just as it is."""
    return built.things.get(thing.tag) != thing


def _shown(entry: Entry, reader: str) -> Entry:
    if entry.content is None or reader == OWNER or reader in entry.content.readers:
        return entry
    return structs.replace(entry, content=None, content_line=None, swapped=None)
