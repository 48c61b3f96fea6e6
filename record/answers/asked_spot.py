"""The spot that somebody asks about: by its grid, by a tag, or by tapes from landmarks."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from record.answers.find_tapes import HOLDING_M, SAG, lost
from record.answers.found import find_thing
from record.answers.refused import CannotAnswer, not_found
from record.calc.combine import root_sum_square
from record.calc.ties import Fix, NoSuchPoint, Tie, fixes, tape_tolerance_m
from record.fold import Thing
from record.place import stations
from record.place.accuracy import accuracy
from record.place.plan import on_site, site_doubt
from record.place.run_shapes import doubt
from record.place.solids import Capsule
from record.place.tied import LANDMARK_NOT_KNOWN_M, WAYS, tolerance_m
from record.readers import View

ROUND_M = 0.30  # how far round a spot is looked where nobody said how well it is known


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedSpot:
    """One spot on the site grid and how well it is known, metres."""

    x_m: float
    y_m: float
    within_m: float
    placed_by: str
    doubts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Pull:
    """One tape somebody has pulled from a landmark to the spot, held level."""

    landmark: str
    length_m: float


def by_grid(x_m: float, y_m: float, within_m: float | None = None) -> AskedSpot:
    """Return a spot of the site grid. Raises CannotAnswer where it is nowhere."""
    if not math.isfinite(x_m + y_m):
        raise CannotAnswer(f"{x_m}, {y_m} is nowhere on the site grid")
    return AskedSpot(
        x_m=x_m, y_m=y_m, within_m=_round(ROUND_M, within_m), placed_by="its place on the site grid"
    )


def by_tag(view: View, tag: str, within_m: float | None = None) -> AskedSpot:
    """
    Return where a thing or a station is recorded.

    Raises NotFound where nothing has that tag, CannotAnswer where it is in no one spot.
    """
    thing = find_thing(view, tag)
    found = _grid(thing) or _station(view, tag) or _shape(view, thing)
    if found is None:
        parts = ", ".join(part.tag for part in thing.parts)
        hint = f"; ask of one of its parts: {parts}" if parts else "; give its place as X,Y"
        raise CannotAnswer(f"{tag} is in no one spot on record{hint}")
    (x, y), sure = found
    return AskedSpot(
        x_m=x, y_m=y, within_m=_round(sure, within_m), placed_by=f"where {tag} is recorded"
    )


def _round(known_m: float, asked_m: float | None) -> float:
    if asked_m is None:
        return known_m
    if not 0 <= asked_m < math.inf:
        raise CannotAnswer(f"a circle of {asked_m} m is none")
    return asked_m


Known = tuple[tuple[float, float], float]


def _grid(thing: Thing) -> Known | None:
    x, y = thing.si("x"), thing.si("y")
    if x is None or y is None or thing.kind.word == "hull":
        return None
    if thing.kind.word == "landmark":
        said = [float(q.tol) for n in ("x", "y") if (q := thing.quantity(n)) and q.tol]
        return (float(x), float(y)), max(said, default=LANDMARK_NOT_KNOWN_M)
    return (float(x), float(y)), accuracy(thing).horizontal_m


def _station(view: View, tag: str) -> Known | None:
    whole = view.built.thing(tag.partition("/")[0])
    if whole is None or whole.kind.word != "run":
        return None
    for station in stations(whole, view.hulls):
        if station.thing.tag == tag and station.x is not None and station.y is not None:
            return (station.x, station.y), doubt(station, "", view.hulls)[0]
    return None


def _shape(view: View, thing: Thing) -> Known | None:
    """The middle of a thing in one piece that is not long: half its length is doubt."""
    if thing.kind.word in ("hull", "run", "seam", "panel"):
        return None
    found = [shape for shape in view.shapes if shape.thing.tag == thing.tag]
    if len(found) != 1 or found[0].missing:
        return None
    form, frame = found[0].form, view.hulls.get(found[0].hull)
    ends = (form.start, form.end) if isinstance(form, Capsule) else (form.low, form.high)
    (x0, y0, _), (x1, y1, _) = (on_site(end, frame) for end in ends)
    half = math.dist((x0, y0), (x1, y1)) / 2
    return ((x0 + x1) / 2, (y0 + y1) / 2), site_doubt(found[0], view.hulls)[0] + half


def by_tapes(
    view: View, pulls: Sequence[Pull], side: str = "", within_m: float | None = None
) -> tuple[AskedSpot, ...]:
    """
    Return where tapes from landmarks meet: two spots where no side is told, or it settles nothing.

    ``side`` is of the line from the first landmark to the second: north, south-east, left, right.
    Raises NotFound for a landmark nobody recorded, CannotAnswer where the tapes meet nowhere.
    """
    if len(pulls) < 2:
        raise CannotAnswer("one tape leaves a whole circle: pull one from a second landmark")
    ties = [_tie(view, pull) for pull in pulls]
    try:
        found = fixes(ties)
    except NoSuchPoint as gap:
        raise CannotAnswer(f"{gap}: measure again, each tape level and straight") from gap
    except ValueError as fault:
        raise CannotAnswer(str(fault)) from fault
    kept = _on_side(found, ties, side)
    said = " and ".join(f"{pull.landmark} {pull.length_m:.3f} m" for pull in pulls)
    if side and len(kept) == 1 and len(found) > 1:
        said += f", {side} of the line"
    return tuple(
        AskedSpot(
            x_m=fix.x_m,
            y_m=fix.y_m,
            within_m=_round(_sure(fix, ties), within_m),
            placed_by=f"taped from {said}",
            doubts=tuple(_doubts(view, fix, pulls, len(kept))),
        )
        for fix in kept
    )


def _tie(view: View, pull: Pull) -> Tie:
    mark = view.built.thing(pull.landmark)
    x, y = (mark.quantity("x"), mark.quantity("y")) if mark else (None, None)
    if mark is None or x is None or y is None:
        marks = [each.tag for each in view.built.of_kind("landmark")]
        where = "has no place on record" if mark else "is not in this record"
        raise not_found(pull.landmark, f"landmark {pull.landmark} {where}", marks)
    if not 0 < pull.length_m < math.inf:
        raise CannotAnswer(f"a tape of {pull.length_m} m must be above 0")
    placed = max((float(q.tol) for q in (x, y) if q.tol), default=LANDMARK_NOT_KNOWN_M)
    held = HOLDING_M + SAG * pull.length_m
    sure = root_sum_square(tape_tolerance_m(pull.length_m, "II", held), placed)
    return Tie(float(x.si), float(y.si), pull.length_m, sure)


def _sure(fix: Fix, ties: Sequence[Tie]) -> float:
    """Tapes in one line with their landmarks hold nothing square to it."""
    known = tolerance_m(fix)
    return known if known is not None else max(tie.length_m for tie in ties)


def _on_side(found: Sequence[Fix], ties: Sequence[Tie], side: str) -> tuple[Fix, ...]:
    words = re.findall(r"north|south|east|west|left|right", side.casefold())
    if side and not words:
        raise CannotAnswer(f'"{side}" is no side: write north, south-east, left ... of the line')
    if len(found) < 2 or not words:
        return tuple(found)
    one, other = found[0], found[1]
    votes = {vote for word in words if (vote := _vote(one, other, ties, word)) is not None}
    return (found[votes.pop()],) if len(votes) == 1 else tuple(found)


def _vote(one: Fix, other: Fix, ties: Sequence[Tie], word: str) -> int | None:
    apart = (one.x_m - other.x_m, one.y_m - other.y_m)
    if word in WAYS:
        more = apart[0] * WAYS[word][0] + apart[1] * WAYS[word][1]
        if abs(more) < 0.1 * math.hypot(*apart):
            return None  # both lie as far that way: the word does not tell them apart
    else:
        dx, dy = ties[1].x_m - ties[0].x_m, ties[1].y_m - ties[0].y_m
        more = dx * apart[1] - dy * apart[0]
        more = more if word == "left" else -more
    return 0 if more > 0 else 1


def _doubts(view: View, fix: Fix, pulls: Sequence[Pull], places: int) -> Iterator[str]:
    gone = lost(view.built)
    for pull in pulls:
        if pull.landmark in gone:
            yield f"{pull.landmark} is told to be lost: {gone[pull.landmark]}"
    if places > 1:
        yield "the tapes leave two places: say on which side of the line you are"
    if fix.weak:
        yield f"the tapes meet at {fix.angle_deg:.0f}° only: a little on a tape is much here"
    if fix.agreement == "disagree":
        yield f"the tapes disagree by up to {max(map(abs, fix.residuals_m)):.2f} m: measure again"
    if len(pulls) == 2:
        yield "there is no third tape to check by: one read wrong does not show"
