"""Tape ties meet in one place, and in the place that was written."""

from __future__ import annotations

import math
from collections.abc import Iterator

from record.checks.finding import CANNOT_BE_TOLD, CERTAIN, Finding, Rule
from record.checks.hidden import Hidden
from record.fold import Thing
from record.place import TiedPoint, tied_points
from record.place.accuracy import accuracy
from record.place.run_shapes import doubt


def find(hidden: Hidden) -> Iterator[Finding]:
    """Find ties that disagree or leave a place open, and places that are not where they meet."""
    tags = {thing.tag for thing in hidden.everything()}
    for tied in tied_points(hidden.built):
        about = _about(tied)
        if about not in tags:
            continue
        entries = tuple(entry for tie in tied.ties for entry in tie.entries)
        wrong = tied.fix is not None and tied.fix.agreement == "disagree"
        if tied.says:
            yield RULE.finding(
                about,
                f"{tied.words}: {'; '.join(tied.says)}",
                clears=(
                    "tape it again, from a third landmark too, and write on which side it lies:",
                    f"## position tied {about}",
                ),
                entries=entries,
                sure=CERTAIN if wrong else CANNOT_BE_TOLD,
                stops=wrong,
            )
        elif (apart := _apart(hidden, tied)) is not None:
            yield RULE.finding(
                about,
                f"{tied.words}: {apart}",
                clears=(
                    "tape it again; then mend the place or the tie that is wrong, - mends: and",
                    "- because:",
                ),
                entries=entries,
            )


def _about(tied: TiedPoint) -> str:
    if tied.tag:
        return tied.tag.partition("/")[0]
    return tied.ties[0].tie.about.partition("/")[0] if tied.ties else ""


def _apart(hidden: Hidden, tied: TiedPoint) -> str | None:
    """Return how far the written place is from where the ties meet, if beyond both tolerances."""
    fix, tolerance, place = tied.fix, tied.tolerance_m, _written(hidden, tied.tag)
    if fix is None or tolerance is None or place is None:
        return None
    x, y, sure = place
    apart = math.dist((x, y), (fix.x_m, fix.y_m))
    if apart <= tolerance + sure:
        return None
    east, north = (round(metres, 3) + 0.0 for metres in (fix.x_m, fix.y_m))  # no -0.000
    return (
        f"written at {x:.3f}, {y:.3f}, its ties meet at {east:.3f}, {north:.3f}; "
        f"{apart:.3f} m apart, {tolerance + sure:.3f} is in doubt"
    )


def _written(hidden: Hidden, tag: str) -> tuple[float, float, float] | None:
    """Return a written place on the site grid and its tolerance; None where the ties gave it."""
    whole, slash, _ = tag.partition("/")
    for run in hidden.runs if slash else ():
        for one in hidden.placed(run) if run.tag == whole else ():
            if one.thing.tag == tag and one.x is not None and one.y is not None:
                across = doubt(one, "", hidden.view.hulls)[0]
                return None if _worked(one.thing) else (one.x, one.y, across)
    thing = next((one for one in hidden.everything() if one.tag == tag), None)
    x, y = (thing.si("x"), thing.si("y")) if thing else (None, None)
    if thing is None or x is None or y is None or _worked(thing):
        return None
    return float(x), float(y), accuracy(thing).horizontal_m


def _worked(thing: Thing) -> bool:
    return any(held.worked for held in thing.held("x"))


RULE = Rule(
    word="ties agree",
    why=(
        "Ties are what a crew in snow will dig by. A check tie that does not meet the other two "
        "says that one of them is wrong; after the fill nobody can tape it again."
    ),
    figures=("ties",),
    find=find,
)
