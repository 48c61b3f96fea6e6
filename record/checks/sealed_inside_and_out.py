"""What goes through the steel is sealed on both sides of it."""

from __future__ import annotations

from collections.abc import Iterator

from record.checks.finding import CANNOT_BE_TOLD, CERTAIN, Finding, Rule
from record.checks.hidden import Hidden
from record.facts.values import Absent, Why, in_words
from record.fold import Thing

FROM_INSIDE = ("lining", "board")
#: Side → where a penetration says that it was sealed, if it says so in one word.
SIDES = {
    "inside": ("inside", "both ends"),
    "outside": ("outside", "both ends"),
}


def find(hidden: Hidden) -> Iterator[Finding]:
    """
    Find holes through the steel that are not sealed, or not known to be, on one side.

    The side that the covering hides stops it; the other can still be reached. Where it is not
    recorded what the covering is, both do.
    """
    for hole in holes(hidden):
        for side, words in SIDES.items():
            value = hole.value(f"sealed_{side}")
            if not isinstance(value, Absent) or value.why is Why.NOT_APPLICABLE:
                continue
            doubtful = value.why is not Why.NONE
            if doubtful and hole.text("sealed_at") in words:
                continue
            yield RULE.finding(
                hole.tag,
                f"{_what(hole)}: its seal {side} is {in_words(value)}",
                clears=(f"## penetration {hole.tag}", f"- sealed {side}: what seals it there"),
                entries=hole.entries(),
                sure=CANNOT_BE_TOLD if doubtful else CERTAIN,
                stops=side in hides_side(hidden),
            )


def hides_side(hidden: Hidden) -> tuple[str, ...]:
    """Return which side of the steel the covering goes on; both where that is not recorded."""
    what = hidden.covering.text("what")
    if what is None:
        return ("inside", "outside")
    return ("inside",) if what in FROM_INSIDE else ("outside",)


def holes(hidden: Hidden) -> tuple[Thing, ...]:
    """
    Return the penetrations that are hidden, and those that a hidden thing passes through.

    One of which it is not recorded what passes may be any hidden run's.
    """
    tags = {*hidden.named, *(thing.tag for thing in hidden.everything())}
    return tuple(
        hole
        for hole in hidden.built.of_kind("penetration")
        if hole.tag in tags or tags & set(hole.tags("carries")) or _may_be(hidden, hole)
    )


def _may_be(hidden: Hidden, hole: Thing) -> bool:
    carries = hole.value("carries")
    unsaid = isinstance(carries, Absent) and carries.why in (Why.NOT_RECORDED, Why.NOT_SETTLED)
    return unsaid and hole.value("spare") is not True and bool(hidden.runs)


def _what(hole: Thing) -> str:
    face, hull = hole.stored("face"), hole.words("hull")
    return f"{hole.words('passes')} through {hull}, {face}"


RULE = Rule(
    word="sealed inside and out",
    why=(
        "Water follows a pipe or a cable to the first gap round it. A sleeve sealed on one side "
        "only fills like a cup, and a spare one that was never sealed is an open hole in the wall. "
        "(Common practice, no source.)"
    ),
    find=find,
)
