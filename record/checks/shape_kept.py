"""The inside of a hull, measured before and while it is filled round, moved within its limit."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from record.accounts.fill import shapes
from record.accounts.readings import read_reading
from record.checks.finding import CANNOT_BE_TOLD, CERTAIN, Finding, Rule
from record.checks.hidden import Hidden
from record.checks.sides_filled_alike import EARTH
from record.facts.faults import plain
from record.figures.feeding import lengths_in
from record.fold import Happening, Thing
from record.units import Dimension, in_both


@dataclass(frozen=True, slots=True)
class Moved:
    """One later measure of one inside length: how far from the first, and its limit. Metres."""

    name: str
    first: Happening
    later: Happening
    change_m: Decimal | None
    limit_m: Decimal | None


def find(hidden: Hidden) -> Iterator[Finding]:
    """Find hulls that moved beyond their limit or of which it cannot be told, or never measured."""
    if hidden.covering.text("what") not in EARTH:
        return
    for hull in hidden.things:
        if hull.kind.word != "hull":
            continue
        told, moved = followed(hidden, hull)
        if not told:
            yield _never(hull)
        for one in moved:
            yield from _moved(hull, one)


def followed(hidden: Hidden, hull: Thing) -> tuple[bool, tuple[Moved, ...]]:
    """Return whether any inside length was measured, and each later measure beside the first."""
    groups: dict[str, list[Happening]] = {}
    series = shapes(hidden.view, hull.tag)
    moved = [
        Moved(shape.what, shape.before or one, one, shape.change_m(one), one.si("limit"))
        for shape in series
        for one in shape.readings
        if one is not shape.before
    ]
    for reading in hidden.built.about(hull.tag, "reading taken"):
        what = plain(reading.words("what"))
        if what.startswith("inside") and _length(reading) is not None:
            # "inside height, middle, fill at the crown": what comes last is when it was taken.
            groups.setdefault(", ".join(what.split(", ")[:2]), []).append(reading)
    for name, readings in groups.items():
        moved += [_read(name, readings[0], later) for later in readings[1:]]
    return bool(series or groups), tuple(moved)


def _length(reading: Happening) -> Decimal | None:
    found = read_reading(reading.text("reading") or "")
    return found[0].si if found and found[1] is Dimension.LENGTH else None


def _read(name: str, first: Happening, later: Happening) -> Moved:
    limits = lengths_in(later.text("limit") or "")
    limit = Decimal(str(limits[0])) if len(limits) == 1 else None
    was, now = _length(first), _length(later)
    change = now - was if was is not None and now is not None else None
    return Moved(name, first, later, change, limit)


def _moved(hull: Thing, one: Moved) -> Iterator[Finding]:
    number = one.later.entry.number
    if one.change_m is None or one.limit_m is None:
        lacks = "its measure before the fill" if one.change_m is None else "the limit"
        said = (
            f"{one.name} ({number}): whether it kept its shape cannot be told, {lacks} is not known"
        )
        yield _finding(hull, one, said, sure=False)
    elif abs(one.change_m) > one.limit_m:
        way = "more" if one.change_m > 0 else "less"
        said = (
            f"{one.name} ({number}) is {in_both(abs(one.change_m), Dimension.LENGTH)} {way} than "
            f"before, beyond {in_both(one.limit_m, Dimension.LENGTH)} "
            f"({one.later.words('limit_from')})"
        )
        yield _finding(hull, one, said, sure=True)


def _finding(hull: Thing, one: Moved, said: str, *, sure: bool) -> Finding:
    return RULE.finding(
        hull.tag,
        said,
        clears=(
            "stop filling, and ask the engineer; what was read or written wrong is mended:",
            f"- mends: {one.later.entry.number}",
        ),
        entries=(*one.first.entries(), *one.later.entries()),
        sure=CERTAIN if sure else CANNOT_BE_TOLD,
    )


def _never(hull: Thing) -> Finding:
    return RULE.finding(
        hull.tag,
        "no inside length of it is measured, so nobody can tell later whether it moved",
        clears=(
            f"## shape measured {hull.tag}",
            "- what: inside height, middle",
            "- stage: before",
            "- measured: the length",
            "- limit: how far it may move",
            "- limit from: whose figure that is",
        ),
        entries=hull.entries(),
        sure=CANNOT_BE_TOLD,
        stops=False,
    )


RULE = Rule(
    word="hull kept its shape",
    why=(
        "A hull pressed out of shape while it is filled round goes on moving, and its doors bind "
        "first. A rod or a tape across the same two marks, before, midway and at the crown, shows "
        "it while digging still helps. (Common practice, no source; the limit is the engineer's.)"
    ),
    find=find,
)
