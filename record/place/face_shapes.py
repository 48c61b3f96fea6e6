"""What lies in a face of a hull: welded seams and openings."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

from record.fold import Thing
from record.place.accuracy import NOT_KNOWN_M, accuracy
from record.place.frames import FaceFrame, HullFrame, face_frame, on_curve
from record.place.solids import Arc, Block, Shape
from record.words import tell, term

SEAM_REACH_M = NOT_KNOWN_M  # each side of a weld, where it is not recorded how far layers reach
Corner = tuple[float, float]


def seam_shapes(seam: Thing, hulls: Mapping[str, HullFrame]) -> Iterator[Shape]:
    """Yield a weld round a rectangle on a face: four strips, as wide as its layers reach."""
    face = face_of(seam, hulls)
    if face is None:
        return
    said = seam.si("build-up_reaches")
    reach = SEAM_REACH_M if said is None else float(said)
    missing = ("build-up reaches",) if said is None else ()
    corners = [(0.0, 0.0), (face.width_m, 0.0), (face.width_m, face.height_m), (0.0, face.height_m)]
    sides = list(zip(corners, corners[1:] + corners[:1], strict=True))
    names = ["bottom", "right", "top", "left"]
    if face.width_m == 0 or face.height_m == 0:
        sides, names = (sides[:1] if face.height_m == 0 else sides[1:2]), [""]
    for ((u0, v0), (u1, v1)), name in zip(sides, names, strict=True):
        words = tell(f"place.seam_side.{name}") if name else tell("place.seam")
        low = (min(u0, u1) - reach, min(v0, v1) - reach)
        high = (max(u0, u1) + reach, max(v0, v1) + reach)
        yield plate(seam, words, face, low, high, missing)


def opening_shapes(opening: Thing, hulls: Mapping[str, HullFrame]) -> Iterator[Shape]:
    """Yield an opening through a face."""
    face = face_of(opening, hulls)
    if face is not None:
        words = ", ".join(filter(None, (term("opening"), opening.text("name"))))
        yield plate(opening, words, face, (0.0, 0.0), (face.width_m, face.height_m), ())


def face_of(thing: Thing, hulls: Mapping[str, HullFrame]) -> FaceFrame | None:
    """Return the rectangle of a face that a thing's edges give, or None."""
    frame = hulls.get(thing.text("hull") or "")
    return face_frame(thing, frame) if frame else None


def plate(
    thing: Thing, words: str, face: FaceFrame, low: Corner, high: Corner, missing: tuple[str, ...]
) -> Shape:
    """Return a rectangle of a face, as thick as the plate, along the curve of a round hull."""
    form = _flat(face, low, high) if face.arc is None else _arc(face, low, high)
    sure = accuracy(thing)
    return Shape(
        thing,
        words,
        form,
        face.hull.tag,
        sure.horizontal_m,
        sure.vertical_m,
        sure.basis,
        sure.assumed,
        thing.entries(),
        missing=missing,
    )


def _flat(face: FaceFrame, low: Corner, high: Corner) -> Block:
    right, up, away = face.axes()
    ends = [
        tuple(face.origin[i] + right[i] * u + up[i] * v + away[i] * d for i in range(3))
        for (u, v), d in ((low, 0.0), (high, face.hull.plate_m))
    ]
    spans = [sorted((ends[0][i], ends[1][i])) for i in range(3)]
    return Block((spans[0][0], spans[1][0], spans[2][0]), (spans[0][1], spans[1][1], spans[2][1]))


def _arc(face: FaceFrame, low: Corner, high: Corner) -> Arc:
    radius, start = face.hull.radius_m, face.arc or 0.0
    along = sorted(face.origin[0] + face.axes()[0][0] * u for u in (low[0], high[0]))
    angles = (start + low[1] / radius, start + high[1] / radius)
    return arc_of(face.hull, face.face, (along[0], along[1]), angles, (0.0, face.hull.plate_m))


def arc_of(
    hull: HullFrame,
    face: str,
    along: tuple[float, float],
    angles: tuple[float, float],
    off_m: tuple[float, float],
) -> Arc:
    """Return a piece of a round shell, ``off_m`` from its inside, in the box that just holds it."""
    turns = [k * math.pi / 2 for k in range(-8, 9) if angles[0] < k * math.pi / 2 < angles[1]]
    corners = [
        on_curve(hull, face, along[0], angle, off) for angle in (*angles, *turns) for off in off_m
    ]
    across, up = [corner[1] for corner in corners], [corner[2] for corner in corners]
    return Arc(
        (along[0], min(across), min(up)),
        (along[1], max(across), max(up)),
        face,
        angles,
        (hull.radius_m + off_m[0], hull.radius_m + off_m[1]),
    )
