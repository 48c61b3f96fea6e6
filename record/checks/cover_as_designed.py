"""The earth over a hull was measured at enough points, and lies within what it was made for."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from decimal import Decimal

from record.checks.finding import CANNOT_BE_TOLD, CERTAIN, Finding, HandoverRule, Rule, Sure
from record.checks.hidden import Hidden
from record.facts.values import Absent, Why
from record.fold import Happening, Thing
from record.place import HullFrame
from record.readers import View
from record.units import Dimension, in_both, metres_said

REACH_M = 3.0  # no spot of a roof is farther from a measured point; common practice, no source
STEP_M = 0.25
LAST = ("turf", None)


def find(hidden: Hidden) -> Iterator[Finding]:
    """Find hulls whose cover is not as designed before the turf, the last that goes on, hides it.

    At any earlier covering the earth is not all there yet.
    """
    if hidden.covering.text("what") in LAST:
        for hull in hidden.things:
            if hull.kind.word == "hull":
                yield from cover(hidden.view, hull)


def find_all(view: View) -> Iterator[Finding]:
    """Find hulls whose cover is not as designed."""
    for hull in view.built.of_kind("hull"):
        yield from cover(view, hull)


def cover(view: View, hull: Thing) -> Iterator[Finding]:
    """Find what is against the earth over one hull; nothing where it is said to get none."""
    design = hull.value("design_cover")
    if isinstance(design, Absent) and design.why in (Why.NONE, Why.NOT_APPLICABLE):
        return
    readings = tuple(view.built.about(hull.tag, "cover measured"))
    points = _newest(readings)
    if hull.si("design_cover") is None:
        yield _unknown(hull, f"its design cover is {hull.words('design_cover')}", ("design cover",))
    if not points:
        yield _points(hull, points, "no depth of earth over it is measured")
    elif far := _far(view.hulls.get(hull.tag), _places(readings)):
        yield _points(hull, points, far)
    yield from _depths(hull, points)
    if points and _not_said(hull, "most_cover"):
        said = f"how much earth it may bear at most is {hull.words('most_cover')}"
        yield _unknown(hull, said, ("most cover", "most cover by"), stops=False)


def _newest(readings: Sequence[Happening]) -> tuple[Happening, ...]:
    """Return the newest reading of each point."""
    return tuple({_name(one): one for one in readings}.values())


def _name(reading: Happening) -> str:
    return (reading.text("point") or reading.entry.number).casefold()


def _places(readings: Sequence[Happening]) -> tuple[tuple[float, float], ...]:
    """Return where the points lie; one measured again lies where it was first said to."""
    found: dict[str, tuple[float, float]] = {}
    for one in readings:
        x, y = one.si("x"), one.si("y")
        if x is not None and y is not None and one.si("cover") is not None:
            found[_name(one)] = (float(x), float(y))
    return tuple(found.values())


def _not_said(hull: Thing, name: str) -> bool:
    value = hull.value(name)
    return isinstance(value, Absent) and value.why in (Why.NOT_RECORDED, Why.NOT_SETTLED)


def _far(frame: HullFrame | None, known: Sequence[tuple[float, float]]) -> str:
    """Return which spot of the roof no measured point is near; nothing where none is."""
    if frame is None or not known:
        return "where its depths were measured is not recorded"
    worst_m, at = 0.0, (0.0, 0.0)
    for a in _steps(frame.length_m):
        for across in _steps(frame.width_m):
            x, y, _ = frame.to_site(a, across, 0.0)
            near_m = min(math.hypot(x - u, y - v) for u, v in known)
            if near_m > worst_m:
                worst_m, at = near_m, (a, across)
    if worst_m <= REACH_M:
        return ""
    return (
        f"{len(known)} measured: the spot {metres_said(at[0])} from the near end and "
        f"{metres_said(at[1])} from the left is {metres_said(worst_m)} from any of them, "
        f"more than {metres_said(REACH_M)}"
    )


def _steps(length_m: float) -> list[float]:
    count = max(1, math.ceil(length_m / STEP_M))
    return [length_m * place / count for place in range(count + 1)]


def _depths(hull: Thing, points: Sequence[Happening]) -> Iterator[Finding]:
    least, most = hull.quantity("design_cover"), hull.quantity("most_cover")
    for limit, sign, name in ((least, 1, "design_cover"), (most, -1, "most_cover")):
        if limit is None:
            continue
        wrong = [p for p in points if _short(p, limit.si, sign) > 0]
        if wrong:
            proved = any(_short(p, limit.si, sign) > _tolerance(p) for p in wrong)
            side = "less" if sign > 0 else "more"
            told = ", ".join(f"{p.words('point')} {p.words('cover')}" for p in wrong)
            yield _finding(
                hull,
                f"{side} earth over it than {in_both(limit.si, Dimension.LENGTH)} "
                f"({hull.words(f'{name}_by')}): {told}",
                wrong,
                CERTAIN if proved else CANNOT_BE_TOLD,
            )
    unread = [p for p in points if p.si("cover") is None]
    if unread:
        told = ", ".join(f"{p.words('point')} {p.words('cover')}" for p in unread)
        yield _finding(hull, f"depth of earth over it: {told}", unread, CANNOT_BE_TOLD)


def _short(point: Happening, limit: Decimal, sign: int) -> Decimal:
    depth = point.si("cover")
    return Decimal(0) if depth is None else sign * (limit - depth)


def _tolerance(point: Happening) -> Decimal:
    quantity = point.quantity("cover")
    return (quantity.tol if quantity else None) or Decimal(0)


def _finding(hull: Thing, said: str, points: Sequence[Happening], sure: Sure) -> Finding:
    return RULE.finding(
        hull.tag,
        said,
        clears=(
            "add or take off earth and measure the same points again:",
            f"## cover measured {hull.tag}",
        ),
        entries=(*hull.entries(), *(entry for p in points for entry in p.entries())),
        sure=sure,
    )


def _points(hull: Thing, points: Sequence[Happening], said: str) -> Finding:
    return RULE.finding(
        hull.tag,
        said,
        clears=(
            f"## cover measured {hull.tag}",
            "| point | x | y | cover | how |",
            "|---|---|---|---|---|",
            "and a row near each corner and over the middle",
        ),
        entries=(*hull.entries(), *(entry for p in points for entry in p.entries())),
        sure=CANNOT_BE_TOLD,
    )


def _unknown(hull: Thing, said: str, keys: Sequence[str], *, stops: bool = True) -> Finding:
    return RULE.finding(
        hull.tag,
        said,
        clears=(f"## hull {hull.tag}", *(f"- {key}: as its designer gives it" for key in keys)),
        entries=hull.entries(),
        sure=CANNOT_BE_TOLD,
        stops=stops,
    )


RULE = Rule(
    word="cover as designed",
    why=(
        "Too little earth holds down less than was reckoned with; too much bears on the roof. The "
        "least and the greatest point count, not the mean, and a mound is measured near its edges "
        "too. (Common practice, no source; the figures are the engineer's.)"
    ),
    find=find,
)
AT_HANDOVER = HandoverRule(word=RULE.word, why=RULE.why, find=find_all)
