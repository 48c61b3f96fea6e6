"""One gate: what a reader may see of the record, the owner's own view included.

What a reader may not see never reaches the view: entries lose their content, the fold is made
of what is left, and where a withheld thing lies there stands a reserved zone of whole panels,
which says nothing of what is there. Answers, checks and the manual take a view and nothing
else.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import chain

from msgspec import structs

from record.entry import Entry
from record.facts.kind import OWNER, READERS
from record.fold import AsBuilt, Doing, Thing, doings, fold
from record.fold.doings import ANYTHING
from record.place import (
    FaceFrame,
    HullFrame,
    Nearby,
    Shape,
    carried,
    face_frame,
    hull_frames,
    measured,
    openings,
    outline,
    plan_box,
    shapes,
    unplaced,
)
from record.reserved import Reserved, holds


@dataclass(frozen=True, slots=True)
class View:
    """The shelter as one reader may see it; made by :func:`look` only."""

    reader: str
    built: AsBuilt
    hulls: Mapping[str, HullFrame]
    nearby: Nearby  # every shape, worked out when the first is asked for
    withheld: int  # entries whose content this reader may not see, or this copy does not hold
    unread: Mapping[str, int] = field(default_factory=dict)  # tag seen → entries nobody could read
    _hidden: tuple[Shape, ...] = field(repr=False, default=())
    _hidden_hulls: Mapping[str, HullFrame] = field(repr=False, default_factory=dict)
    _adrift: bool = field(repr=False, default=False)  # something hidden has no place at all
    _undoing: tuple[Doing, ...] = field(repr=False, default=())  # hidden work on what is seen
    lacking: int = 0  # of them, those that this copy does not hold, whoever asks
    carried: Reserved | None = None  # what was worked out of them when this copy was packed

    @property
    def shapes(self) -> Sequence[Shape]:
        return self.nearby.shapes

    @property
    def partial(self) -> bool:
        """Whether there is, or may be, more than this view shows."""
        return self.reader != OWNER or self.lacking > 0

    @property
    def blind(self) -> bool:
        """Whether nobody can tell where what this copy lacks may lie."""
        return self.lacking > 0 and self.carried is None

    def doings(self) -> tuple[Doing, ...]:
        """
        Return what was done to finished work, by day and hour.

        What the reader may not see is among it by its day and the tags they do see, for a test
        that it undid must not read as if it stood; nothing else of it comes out.
        """
        done = (*doings(self.built), *self._undoing)
        return tuple(sorted(done, key=lambda one: (one.on, one.at or "")))

    def reserved(self, frame: FaceFrame, reach_m: float) -> bool:
        """
        Return whether something withheld may lie behind a panel, outside every stored zone.

        Only yes or no comes out, for the whole panel: less would point at what is withheld. Ask
        with the frame of the whole panel and a reach in whole metres.
        """
        if self._adrift or (self.carried and self.carried.behind(frame, reach_m)):
            return True
        return any(
            outline(shape, frame, reach_m, self._hidden_hulls) is not None
            for shape in self._hidden
            if not self._zoned(shape, frame)
        )

    def reserved_below(self, at: tuple[float, float], within_m: float) -> bool:
        """
        Return whether something withheld may lie below a spot of the site grid, or near it.

        Yes or no, for whole modules only: a hull with `ROUND_HULL_M` of ground round it, or
        elsewhere a square of the grid. Less would point at what is withheld.
        """
        return self.reserved_in(
            (at[0] - within_m, at[1] - within_m, at[0] + within_m, at[1] + within_m)
        )

    def reserved_in(self, asked: Box) -> bool:
        """Return the same of a rectangle of the site grid: least x and y, greatest x and y."""
        if self._adrift:
            return True
        if self.carried and self.carried.below(self.blocks(), asked):
            return True
        blocks = [*self.blocks().values()]
        for shape in self._hidden:
            box = plan_box(shape, self._hidden_hulls)
            if any(_meet(box, block) and _meet(asked, block) for block in blocks):
                return True
            if not any(_holds(block, box) for block in blocks) and _meet(asked, _squares(box)):
                return True
        return False

    def blocks(self) -> Mapping[str, Box]:
        """Return the module of each hull in the plan of the site: it, and the ground round it."""
        return {tag: _block(hull) for tag, hull in self.hulls.items()}

    def reserved_modules(self) -> tuple[frozenset[str], frozenset[tuple[int, int]]] | None:
        """
        Return which modules are reserved: hulls, and squares by their lower left corner in sides.

        It is what :meth:`reserved_below` gives to whoever asks everywhere; None: all of them.
        """
        hulls: set[str] = set()
        squares: set[tuple[int, int]] = set()
        if self.carried:
            told = self.carried.modules(self.blocks())
            if told is None:
                return None
            hulls, squares = set(told[0]), set(told[1])
        for shape in self._hidden:
            box = plan_box(shape, self._hidden_hulls)
            hulls |= {tag for tag, block in self.blocks().items() if _meet(box, block)}
            if not any(_holds(block, box) for block in self.blocks().values()):
                low_x, low_y, high_x, high_y = (each / SQUARE_M for each in _squares(box))
                if (high_x - low_x + 1) * (high_y - low_y + 1) > MOST_SQUARES:
                    return None
                squares |= {
                    (x, y)
                    for x in range(int(low_x), max(int(high_x), int(low_x) + 1))
                    for y in range(int(low_y), max(int(high_y), int(low_y) + 1))
                }
        return None if self._adrift else (frozenset(hulls), frozenset(squares))

    def hidden_work(self) -> tuple[tuple[str, str | None, tuple[str, ...]], ...]:
        """Return the work this reader may not see: day, hour, and the tags that they do see."""
        return tuple((one.on, one.at, tuple(sorted(one.touched))) for one in self._undoing)

    def _zoned(self, shape: Shape, frame: FaceFrame) -> bool:
        """Return whether a stored zone on the panel's own face covers all of a withheld shape."""
        if shape.hull != frame.hull.tag:
            return False
        for zone in self.built.of_kind("reserved zone"):
            if zone.text("hull") != shape.hull or zone.text("face") != frame.face:
                continue
            face = face_frame(zone, frame.hull)
            if face and _covers(face, shape, self._hidden_hulls):
                return True
        return False


ROUND_HULL_M = 3.0  # of ground round a hull, that is one module with it
SQUARE_M = 10.0  # of the ground elsewhere
MOST_SQUARES = 20_000  # a thing that may be anywhere in more than these is anywhere
Box = tuple[float, float, float, float]


def _block(hull: HullFrame) -> Box:
    xs, ys = zip(*hull.outline(), strict=True)
    return (
        min(xs) - ROUND_HULL_M,
        min(ys) - ROUND_HULL_M,
        max(xs) + ROUND_HULL_M,
        max(ys) + ROUND_HULL_M,
    )


def _squares(box: Box) -> Box:
    """Return a box grown to whole squares of the grid."""
    low = [math.floor(value / SQUARE_M) * SQUARE_M for value in box[:2]]
    high = [math.ceil(value / SQUARE_M) * SQUARE_M for value in box[2:]]
    return low[0], low[1], high[0], high[1]


def _meet(one: Box, other: Box) -> bool:
    return one[0] <= other[2] and other[0] <= one[2] and one[1] <= other[3] and other[1] <= one[3]


def _holds(outer: Box, inner: Box) -> bool:
    return (
        outer[0] <= inner[0]
        and outer[1] <= inner[1]
        and inner[2] <= outer[2]
        and inner[3] <= outer[3]
    )


BEYOND_M = 0.50  # a zone is about what lies this far behind its face, and no farther


def _inside(rectangle: tuple[float, float, float, float], face: FaceFrame) -> bool:
    u0, v0, u1, v1 = rectangle
    return u0 >= 0 and v0 >= 0 and u1 <= face.width_m and v1 <= face.height_m


def _covers(zone: FaceFrame, shape: Shape, hulls: Mapping[str, HullFrame]) -> bool:
    """Return whether the shape lies wholly within the zone and near its face."""
    seen = outline(shape, zone, 2 * BEYOND_M, hulls)
    return seen is not None and _inside(seen.may_reach, zone) and seen.depth[1] <= BEYOND_M


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
