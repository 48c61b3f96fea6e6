"""Tape ties → where they put a point, how sure that is, and what they cannot settle.

**Tolerance of a tied point**, at 95 %. Each tie weighs by the root sum square of its tape and of
its landmark's own place: each landmark is out on its own account. From those weights comes the
ellipse; the tolerance is half its greatest width. Where the ties disagree, one of them is wrong
and nobody knows which: the greatest residual is added in full.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from record.calc.combine import root_sum_square
from record.calc.ties import Fix, NoSuchPoint, Tie, fixes, horizontal_m
from record.entry import Entry
from record.fold import AsBuilt, Happening, Thing
from record.place.bygone import Bygone
from record.words import tell, term

TAPE_M = 0.02  # a tape hooked, pulled and read; common practice, no source
LANDMARK_NOT_KNOWN_M = 0.02  # a corner or a cover, as anybody finds its middle; no source
WEAK = "no two ties meet at 30° to 150° (common practice, no source)"


@dataclass(frozen=True, slots=True, kw_only=True)
class Taped:
    """One tie: its landmark as it stood that day, and the horizontal distance. Metres."""

    tie: Happening
    landmark: Thing
    x: float
    y: float
    length_m: float
    tolerance_m: float  # of the tape and of the landmark together
    assumed: bool
    side: str

    @property
    def entries(self) -> tuple[Entry, ...]:
        marks = [held.entry for name in ("x", "y") for held in self.landmark.held(name)]
        found = {entry.hash: entry for entry in (*self.tie.entries(), *marks)}
        return tuple(sorted(found.values(), key=lambda entry: entry.order))


@dataclass(frozen=True, slots=True, kw_only=True)
class TiedPoint:
    """
    One point that was tied. ``tag`` is the thing or part it is, "" where that is not told.

    ``fixes`` is empty where the ties put it nowhere, or on a ring; two where they leave two.
    """

    tag: str
    words: str
    ties: tuple[Taped, ...]
    fixes: tuple[Fix, ...]
    says: tuple[str, ...]  # what is wrong with the ties or not settled by them

    @property
    def fix(self) -> Fix | None:
        """The one place they allow, or None."""
        return self.fixes[0] if len(self.fixes) == 1 else None

    @property
    def tolerance_m(self) -> float | None:
        return None if self.fix is None else tolerance_m(self.fix)

    @property
    def assumed(self) -> bool:
        return any(tie.assumed for tie in self.ties)

    @property
    def basis(self) -> str:
        marks = ", ".join(f"{tie.landmark.tag} {tie.length_m:.3f} m" for tie in self.ties)
        said = tell("place.tied_to", marks=marks)
        if self.fix is not None and self.fix.agreement == "disagree":
            said += tell("place.which_disagree")
        return said + (tell("place.tolerance_assumed") if self.assumed else "")


def tolerance_m(fix: Fix) -> float | None:
    """Return half the greatest width of the ellipse, and the worst residual where ties disagree."""
    if fix.ellipse is None:
        return None
    worst = max(map(abs, fix.residuals_m)) if fix.agreement == "disagree" else 0.0
    return fix.ellipse.semi_major_m + worst


def tied_points(
    built: AsBuilt, wanted: Callable[[str], bool] | None = None
) -> tuple[TiedPoint, ...]:
    """
    Return every point that was tied, in the order they were first.

    ``wanted`` leaves out the things and parts that it is not true of.
    """
    bygone = Bygone(built)
    groups: dict[tuple[str, str], list[Happening]] = {}
    for tie in built.happened("position tied"):
        groups.setdefault(_point(built, tie), []).append(tie)
    several = [tag for tag, _ in groups]
    return tuple(
        _tied("" if several.count(tag) > 1 else tag, words, ties, bygone)
        for (tag, words), ties in groups.items()
        if wanted is None or wanted(tag)
    )


def without(point: TiedPoint, landmark: str) -> TiedPoint:
    """Return what the other ties of a point say, as if nothing had been taped from a landmark."""
    ties, says = tuple(tie for tie in point.ties if tie.landmark.tag != landmark), list[str]()
    found = _fixes(ties, says)
    return TiedPoint(tag=point.tag, words=point.words, ties=ties, fixes=found, says=tuple(says))


def _point(built: AsBuilt, tie: Happening) -> tuple[str, str]:
    """Return the tag of what was tied, a station by its key or its words, and what it is called."""
    whole, slash, key = tie.about.partition("/")
    thing, point = built.thing(whole), " ".join((tie.text("point") or "").split())
    if slash or thing is None:
        return tie.about, f"{whole} {key}" if slash else f"{whole} {point}".strip()
    part = _part(thing, point)
    if part is not None:
        return part.tag, f"{whole} {part.key}"
    return ("" if thing.parts else whole), f"{whole} {point}".strip()


def _part(thing: Thing, point: str) -> Thing | None:
    said = point.removeprefix(thing.tag).strip(" /")
    by_key = thing.part(said.partition(" ")[0])
    if by_key is not None:
        return by_key
    plain = said.casefold()
    named = [p for p in thing.parts if _name(p) == plain or plain in _name(p).split(" ")]
    return named[0] if plain and len(named) == 1 else None


def _name(part: Thing) -> str:
    return (part.text("station") or part.key).partition(" ")[2].casefold()


def _tied(tag: str, words: str, ties: Sequence[Happening], bygone: Bygone) -> TiedPoint:
    says: list[str] = []
    taped: dict[str, Taped] = {}
    for tie in ties:
        one = _taped(tie, bygone)
        if isinstance(one, str):
            says.append(one)
            continue
        before = taped.get(one.landmark.tag)
        if before and abs(before.length_m - one.length_m) > before.tolerance_m + one.tolerance_m:
            says.append(
                tell(
                    "place.was_taped_twice_and",
                    tag=one.landmark.tag,
                    length_m=f"{before.length_m:.3f}",
                    length_m_2=f"{one.length_m:.3f}",
                )
            )
        taped[one.landmark.tag] = one
    used = tuple(taped.values())
    found = _fixes(used, says)
    return TiedPoint(tag=tag, words=words, ties=used, fixes=found, says=tuple(says))


def _taped(tie: Happening, bygone: Bygone) -> Taped | str:
    tag = tie.text("landmark") or ""
    mark, length = bygone.thing(tag, tie.on, ("x", "y")), tie.quantity("distance")
    x, y = (mark.quantity("x"), mark.quantity("y")) if mark else (None, None)
    if mark is None or x is None or y is None:
        return tell("place.place_not_recorded_its", what=tag or tell("place.its_landmark"))
    if length is None or length.si <= 0:
        return tell("place.distance_left_out", tag=tag, distance=tie.words("distance"))
    across = float(length.si)
    rise = tie.si("difference_of_level")
    if rise is not None:
        if abs(float(rise)) >= across:
            return tell(
                "place.tape_m_cannot_rise",
                tag=tag,
                across=f"{across:.3f}",
                rise=f"{float(rise):.3f}",
            )
        across = horizontal_m(across, float(rise))
    tape = TAPE_M if length.tol is None else float(length.tol)
    placed = [float(q.tol) for q in (x, y) if q.tol is not None]
    return Taped(
        tie=tie,
        landmark=mark,
        x=float(x.si),
        y=float(y.si),
        length_m=across,
        tolerance_m=max(root_sum_square(tape, max(placed, default=LANDMARK_NOT_KNOWN_M)), 1e-4),
        assumed=length.tol is None or not placed,
        side=tie.text("side") or "",
    )


def _fixes(ties: Sequence[Taped], says: list[str]) -> tuple[Fix, ...]:
    """Return the places the ties allow; what they leave open is added to ``says``."""
    if not ties:
        return ()
    if len(ties) == 1:
        says.append(
            tell(
                "place.one_tie_only_lies",
                length_m=f"{ties[0].length_m:.3f}",
                tag=ties[0].landmark.tag,
            )
        )
        return ()
    try:
        found = fixes([Tie(t.x, t.y, t.length_m, t.tolerance_m) for t in ties])
    except NoSuchPoint as fault:
        says.append(tell("place.one_them_wrong", fault=fault))
        return ()
    except ValueError as fault:
        says.append(str(fault))
        return ()
    kept = _on_side(found, ties)
    if len(kept) > 1:
        both = " or ".join(f"{one.x_m:.3f}, {one.y_m:.3f}" for one in kept)
        sides = {tie.side for tie in ties} - {""}
        why = (
            tell("place.does_not_tell", sides=", ".join(sorted(sides)))
            if sides
            else tell("place.side_not_recorded")
        )
        says.append(tell("place.two_places_which", both=both, why=why))
    for one in kept[:1]:
        says.extend(_doubts(one, ties))
    return kept


def _doubts(fix: Fix, ties: Sequence[Taped]) -> Iterator[str]:
    if fix.weak:
        yield tell("place.weak_fix", angle_deg=f"{fix.angle_deg:.0f}", weak=term(WEAK))
    if fix.agreement != "disagree":
        return
    off = sorted(map(abs, fix.residuals_m))
    by = tell("place.disagree_by_to_m", off=f"{off[0]:.2f}", off_2=f"{off[-1]:.2f}")
    if len(ties) == 3:
        yield tell("place.three_ties_one_wrong", by=by)
    elif len(fix.suspects) == 1:
        tie = ties[fix.suspects[0]]
        yield tell(
            "place.ties_without_m_rest", by=by, tag=tie.landmark.tag, length_m=f"{tie.length_m:.3f}"
        )
    else:
        names = ", ".join(ties[place].landmark.tag for place in fix.suspects) or tell(
            "place.none_alone"
        )
        yield tell("place.ties_which_wrong_cannot", ties=len(ties), by=by, names=names)


#: A word of the side → the way it points on a grid of x east, y north.
WAYS = {"north": (0, 1), "south": (0, -1), "east": (1, 0), "west": (-1, 0)}


def _on_side(found: Sequence[Fix], ties: Sequence[Taped]) -> tuple[Fix, ...]:
    """Return the places on the sides that were written; all of them where those do not settle."""
    if len(found) < 2:
        return tuple(found)
    first, second = found[0], found[1]
    apart = (first.x_m - second.x_m, first.y_m - second.y_m)
    turn = _left_of(ties, first) - _left_of(ties, second)
    votes: set[int] = set()
    for tie in ties:
        for word in re.findall(r"north|south|east|west|left|right", tie.side.casefold()):
            if word in WAYS:
                more = apart[0] * WAYS[word][0] + apart[1] * WAYS[word][1]
                if abs(more) < 0.1 * math.hypot(*apart):
                    continue  # both lie as far that way: the word does not tell them apart
            else:
                more = turn if word == "left" else -turn
            votes.add(0 if more > 0 else 1)
    return (found[votes.pop()],) if len(votes) == 1 else tuple(found)


def _left_of(ties: Sequence[Taped], fix: Fix) -> float:
    dx, dy = ties[1].x - ties[0].x, ties[1].y - ties[0].y
    return dx * (fix.y_m - ties[0].y) - dy * (fix.x_m - ties[0].x)
