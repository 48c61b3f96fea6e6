"""The fill stands equally high on opposite sides of a hull."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from decimal import Decimal

from record.accounts.fill import OPPOSITE, Lift, lifts
from record.checks.finding import CANNOT_BE_TOLD, CERTAIN, Finding, Rule
from record.checks.hidden import Hidden
from record.fold import Thing
from record.units import Dimension, in_both

USUAL_M = Decimal("0.30")  # about one lift and a half; common practice, no source
EARTH = ("backfill", "fill", None)


def find(hidden: Hidden) -> Iterator[Finding]:
    """
    Find lifts that stood too high over the other side, and sides of which that cannot be told.

    What still stands so stops it; what was levelled up since is looked at, for the hull's shape
    may have moved. A limit nobody gave is held as 0.30 m.
    """
    hulls = [thing for thing in hidden.things if thing.kind.word == "hull"]
    if not hulls or hidden.covering.text("what") not in EARTH:
        return
    tags = {hidden.covering.tag, *(hull.tag for hull in hulls)}
    mine = [one for one in lifts(hidden.view) if tags & one.happening.concerns()]
    for place, lift in enumerate(mine):
        if _names_both(lift) or not _sides(lift):
            continue
        last = not any(_sides(later) & _sides(lift) for later in mine[place + 1 :])
        yield from _one(hulls, lift, last=last)


def _names_both(lift: Lift) -> bool:
    said = set(re.findall(r"\w+", lift.happening.stored("side").casefold()))
    return any({one, other} <= said for one, other in OPPOSITE)


def _sides(lift: Lift) -> set[str]:
    """Return the pair of sides a lift is of; nothing where it is all round, or of a trench."""
    return next((set(pair) for pair in OPPOSITE if lift.side in pair), set())


def _one(hulls: Sequence[Thing], lift: Lift, *, last: bool) -> Iterator[Finding]:
    limits = [(hull, si) for hull in hulls if (si := hull.si("fill_difference")) is not None]
    limit = min((si for _, si in limits), default=USUAL_M)
    if lift.difference_m is None:
        if last:
            yield _finding(hulls, lift, f"{lift.words}", sure=False, stops=True)
    elif abs(lift.difference_m) > limit:
        whose = ", ".join(hull.words("fill_difference_by") for hull, _ in limits)
        known = f"{in_both(limit, Dimension.LENGTH)} ({whose or 'as is usual, no limit recorded'})"
        said = f"{lift.words}, more than {known}"
        if not last:
            said += "; levelled up since"
        yield _finding(hulls, lift, said, sure=bool(limits), stops=last)


def _finding(hulls: Sequence[Thing], lift: Lift, said: str, *, sure: bool, stops: bool) -> Finding:
    entries = [*lift.happening.entries(), *(lift.other.entries() if lift.other else ())]
    return RULE.finding(
        hulls[0].tag if len(hulls) == 1 else lift.happening.about,
        said,
        clears=(
            f"bring up the lower side first: ## backfilled {lift.happening.about}",
            "and measure the inside: ## shape measured",
        ),
        entries=entries,
        sure=CERTAIN if sure else CANNOT_BE_TOLD,
        stops=stops,
    )


RULE = Rule(
    word="sides filled alike",
    why=(
        "Earth that stands higher on one side pushes a hull over and out of its shape, and it does "
        "not come back. The two sides go up together, lift by lift. (Common practice, no source; "
        "how far apart they may be is the engineer's figure.)"
    ),
    find=find,
)
