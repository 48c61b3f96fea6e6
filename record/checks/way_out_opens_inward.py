"""The hatch of a way out opens into the room: outside, its fill lies against it."""

from __future__ import annotations

import re
from collections.abc import Iterator

from record.checks.finding import CANNOT_BE_TOLD, CERTAIN, Finding, HandoverRule
from record.fold import Thing
from record.readers import View

INWARD = re.compile(r"\b(inwards?|into the (room|hull|shelter)|to the inside)\b")
OUTWARD = re.compile(r"\b(outwards?|outside|into the (shaft|passage|fill|sand))\b")
LETS_GO = ("inward", "lifts off", "slides")  # none of these pushes against what lies outside
LEAVES = ("hatch", "door", "sliding door", "gate")  # a lid is at the other end of the shaft


def find(view: View) -> Iterator[Finding]:
    """Find ways out whose hatch opens outward, or of which it is not told how it opens."""
    for way in view.built.of_kind("way out"):
        leaves = [
            door
            for door in view.built.of_kind("door")
            if way.tag in door.tags("in") and door.text("type") in LEAVES
        ]
        yield from _way(way, leaves)
        for door in leaves:
            if door.text("swing") is not None and door.text("swing") not in LETS_GO:
                yield _leaf(door)


def inward(opens: str) -> bool | None:
    """
    Return whether the words for how it opens say inward; None where they do not tell.

    >>> inward("lifts out into the room, once the sand has run"), inward("outward"), inward("lifts")
    (True, False, None)
    """
    said = opens.casefold()
    told = bool(INWARD.search(said)), bool(OUTWARD.search(said))
    return told[0] if told[0] != told[1] else None


def _way(way: Thing, leaves: list[Thing]) -> Iterator[Finding]:
    told = inward(way.text("opens") or "")
    if told or (told is None and any(leaf.text("swing") in LETS_GO for leaf in leaves)):
        return
    said = "opens against what lies outside it" if told is False else "is not told to open inward"
    yield RULE.finding(
        way.tag,
        f"its hatch {said}: {way.words('opens')}",
        clears=(f"## way out {way.tag}", "- opens: inward, and how, once it was tried empty"),
        entries=way.entries(),
        sure=CERTAIN if told is False else CANNOT_BE_TOLD,
    )


def _leaf(door: Thing) -> Finding:
    lifts = door.text("swing") == "lifts"
    return RULE.finding(
        door.tag,
        f"its swing is {door.words('swing')}, and the fill of the way out lies against it",
        clears=(f"## door {door.tag}", "- swing: inward, lifts off or slides, once it was tried"),
        entries=door.entries(),
        sure=CANNOT_BE_TOLD if lifts else CERTAIN,
    )


RULE = HandoverRule(
    word="way out opens inward",
    why=(
        "A filled shaft or the earth itself leans on the hatch. What must be pushed against that "
        "cannot be opened by anybody; what comes into the room can. (Common practice, no source.)"
    ),
    find=find,
)
