"""One gate: what a reader may see of the record, the owner's own view included.

What a reader may not see never reaches the view: entries lose their content, the fold is made
of what is left, and where a withheld thing lies there stands a reserved zone of whole panels,
which says nothing of what is there. Answers, checks and the manual take a view and nothing
else.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from record.entry import Entry
from record.facts.kind import OWNER, READERS
from record.fold import AsBuilt, Thing, fold
from record.place import FaceFrame, HullFrame, Shape, face_frame, hull_frames, outline, shapes


@dataclass(frozen=True, slots=True)
class View:
    """The shelter as one reader may see it; made by :func:`look` only."""

    reader: str
    built: AsBuilt
    hulls: Mapping[str, HullFrame]
    shapes: tuple[Shape, ...]
    withheld: int  # entries whose content this reader may not see
    _hidden: tuple[Shape, ...] = field(repr=False, default=())

    def reserved(self, frame: FaceFrame, reach_m: float) -> bool:
        """
        Return whether something withheld may lie behind a panel, outside every stored zone.

        Only yes or no comes out, for the whole panel: less would point at what is withheld.
        """
        return any(
            outline(shape, frame, reach_m, self.hulls) is not None
            for shape in self._hidden
            if not self._zoned(shape)
        )

    def _zoned(self, shape: Shape) -> bool:
        """Return whether a stored zone covers all of a withheld shape, as one face shows it."""
        for zone in self.built.of_kind("reserved zone"):
            hull = self.hulls.get(zone.text("hull") or "")
            face = face_frame(zone, hull) if hull else None
            if face is None or shape.hull != (hull.tag if hull else None):
                continue
            seen = outline(shape, face, BEYOND_M, self.hulls)
            if seen and _inside(seen.may_reach, face) and _behind(shape, face, self.hulls):
                return True
        return False


BEYOND_M = 0.50


def _inside(rectangle: tuple[float, float, float, float], face: FaceFrame) -> bool:
    u0, v0, u1, v1 = rectangle
    return u0 >= 0 and v0 >= 0 and u1 <= face.width_m and v1 <= face.height_m


def _behind(shape: Shape, face: FaceFrame, hulls: Mapping[str, HullFrame]) -> bool:
    """Return whether the shape lies wholly near this face, so that the zone is about it."""
    seen = outline(shape, face, BEYOND_M, hulls)
    return seen is not None and seen.depth[1] <= BEYOND_M


def look(entries: Sequence[Entry], reader: str = OWNER, *, as_of: str | None = None) -> View:
    """
    Return what ``reader`` may see of ``entries`` as of a day. Raises ValueError: no such reader.
    """
    if reader not in READERS:
        raise ValueError(f'"{reader}" is not a reader: {", ".join(READERS)}')
    shown = tuple(_shown(entry, reader) for entry in entries)
    built = fold(shown, as_of=as_of)
    withheld = sum(1 for a, b in zip(entries, shown, strict=True) if a.content and not b.content)
    if withheld == 0:
        hulls = hull_frames(built)
        return View(reader, built, hulls, tuple(shapes(built, hulls)), 0)
    whole = fold(entries, as_of=as_of)
    hulls = hull_frames(whole)
    visible = tuple(shapes(built, hulls))
    hidden = tuple(s for s in shapes(whole, hulls) if not _same(s, built.things.get(s.thing.tag)))
    return View(reader, built, hulls, visible, withheld, hidden)


def _same(shape: Shape, seen: Thing | None) -> bool:
    """Return whether the reader sees the thing just as it is, so that nothing of it is hidden."""
    return seen is not None and seen == shape.thing


def _shown(entry: Entry, reader: str) -> Entry:
    if entry.content is None or reader == OWNER or reader in entry.content.readers:
        return entry
    return replace(entry, content=None, content_line=None)
