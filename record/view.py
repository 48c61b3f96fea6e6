"""What one reader may see of a record; :mod:`record.readers` alone makes it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from record.facts.kind import OWNER
from record.fold import AsBuilt, Doing, doings
from record.place import FaceFrame, HullFrame, Nearby, Shape, face_frame, outline, plan_box
from record.place.modules import Box, block, holds, meet, squares, squares_of
from record.reserved import Reserved


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
            if any(meet(box, block) and meet(asked, block) for block in blocks):
                return True
            if not any(holds(block, box) for block in blocks) and meet(asked, squares(box)):
                return True
        return False

    def blocks(self) -> Mapping[str, Box]:
        """Return the module of each hull in the plan of the site: it, and the ground round it."""
        return {tag: block(hull) for tag, hull in self.hulls.items()}

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
            hulls |= {tag for tag, block in self.blocks().items() if meet(box, block)}
            if not any(holds(block, box) for block in self.blocks().values()):
                of = squares_of(box)
                if of is None:
                    return None
                squares |= of
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


BEYOND_M = 0.50  # a zone is about what lies this far behind its face, and no farther


def _inside(rectangle: tuple[float, float, float, float], face: FaceFrame) -> bool:
    u0, v0, u1, v1 = rectangle
    return u0 >= 0 and v0 >= 0 and u1 <= face.width_m and v1 <= face.height_m


def _covers(zone: FaceFrame, shape: Shape, hulls: Mapping[str, HullFrame]) -> bool:
    """Return whether the shape lies wholly within the zone and near its face."""
    seen = outline(shape, zone, 2 * BEYOND_M, hulls)
    return seen is not None and _inside(seen.may_reach, zone) and seen.depth[1] <= BEYOND_M
