"""Every thing is in one place: however often it was placed, and never hung on itself."""

from __future__ import annotations

from collections.abc import Iterator

from record.checks.finding import CANNOT_BE_TOLD, CERTAIN, Finding, Rule
from record.checks.hidden import Hidden
from record.fold import Thing
from record.place import tied_points
from record.place.circles import in_circles
from record.place.two_ways import Apart, apart, ways_of

#: What two places may differ by and be called one, where nobody wrote how good they are.
GOOD_M = 0.05  # common practice, no source: what a tape held by hand is good to on rough ground


def find(hidden: Hidden) -> Iterator[Finding]:
    """Find things placed two ways that do not meet, and things whose place hangs on itself."""
    rings = in_circles(hidden.built)
    for thing in hidden.everything():
        if thing.tag in rings:
            yield RULE.finding(
                thing.tag,
                rings[thing.tag],
                clears=(
                    "measure one of them from something else; then mend what names it, - mends:",
                    "and - because:",
                ),
                entries=thing.all_entries(),
            )
    everything = {part.tag: part for thing in hidden.everything() for part in _points(thing)}
    ties = {tied.tag: tied for tied in tied_points(hidden.built, everything.__contains__)}
    hulls = hidden.view.hulls
    for tag, point in everything.items():
        for two in apart(ways_of(point, hidden.built, hulls, ties.get(tag)), hulls):
            if not _told_by_ties(two):
                yield from _against(tag, two)


def _points(thing: Thing) -> tuple[Thing, ...]:
    return thing.parts or (thing,)


def _told_by_ties(two: Apart) -> bool:
    """Ties against a place on the grid are the rule "ties agree"."""
    return (two.one.how, two.other.how) == ("grid", "ties")


def _against(tag: str, two: Apart) -> Iterator[Finding]:
    surely = two.apart_m > two.doubt_m
    if not surely and not (two.assumed and two.apart_m > GOOD_M):
        return
    doubt = f"{two.doubt_m:.3f} is in doubt" + (", a part of it assumed" if two.assumed else "")
    yield RULE.finding(
        tag.partition("/")[0],
        f"{tag}: {two.one.words}; {two.other.words}; {two.apart_m:.3f} m apart, {doubt}",
        clears=("measure it again; then mend the place that is wrong, - mends: and - because:",),
        entries=(*two.one.entries, *two.other.entries),
        sure=CERTAIN if surely else CANNOT_BE_TOLD,
        stops=surely,
    )


RULE = Rule(
    word="every thing in one place",
    why=(
        "Each answer takes one place of a thing, whoever digs may be told another. Where two do "
        "not meet one was misread, and after the fill nobody can tell which."
    ),
    find=find,
)
