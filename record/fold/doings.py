"""What was done to finished work that may undo what a test had proved, and what it touched."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from record.facts.values import Absent, Why
from record.fold.state import AsBuilt, Happening, Stated

#: Words of others, who choose their own, and what was done by them.
WORDS = (
    (r"\bdrill|\bscrew|\bnail|\banchor|\bbor(?:e|ed|ing)\b", "drilled"),
    (r"\bweld", "welded"),
    (r"\bcut\b|\bcutting|\bsaw(?:n|ed|ing)?\b|\bground out", "cut"),
    (r"\btaken out|\bremoved|\breplaced|\brenewed", "taken out"),
    (r"\breopened|\bopened|\bunscrewed|\bloosened", "reopened"),
)
#: What may have been done where nobody wrote what: any of it.
ANYTHING = tuple(word for _, word in WORDS)
#: Kind of thing → the field that says what it is part of.
PART_OF = {
    "panel": "hull",
    "room": "hull",
    "opening": "hull",
    "seam": "hull",
    "penetration": "hull",
    "door": "hull",
    "reserved zone": "hull",
    "valve": "on_run",
    "fitting": "on_run",
    "drain": "serves",
}


@dataclass(frozen=True, slots=True)
class Doing:
    """One such work: what was done, and every tag it touched, with what those are part of."""

    what: frozenset[str]
    on: str
    at: str | None
    touched: frozenset[str]
    happening: Happening | None  # None where the reader may not see it
    test: str = ""  # where it was written down which test it voids

    @property
    def moment(self) -> str:
        return f"{self.on} {self.at}" if self.at else self.on


def doings(built: AsBuilt) -> Iterator[Doing]:
    """Yield everything done to finished work, in the order of days and hours."""
    for happening in built.happened(*READ):
        what = frozenset(_what(happening))
        if what:
            yield Doing(
                what=what,
                on=happening.on,
                at=happening.at,
                touched=touched(built, happening),
                happening=happening,
                test=(happening.text("test") or "") if "lapsed" in what else "",
            )


READ = (
    "opened up",
    "worked by others",
    "pass broken",
    "uncovered",
    "repaired",
    "serviced",
    "proof lapsed",
)


def _what(happening: Happening) -> Iterator[str]:
    match happening.kind.word:
        case "opened up":
            said = happening.text("what")
            yield from ((said,) if said else ANYTHING)
        case "worked by others":
            said = happening.text("what")
            yield from _by_others(said) if said else ANYTHING
        case "pass broken":  # words that name no work may mean any
            said = happening.text("what")
            yield from (*_by_others(said),) if said and any(_by_others(said)) else ANYTHING
        case "uncovered":
            yield "uncovered"
        case "repaired":
            yield "repaired"
        case "serviced":
            if happening.text("parts") or not_known(happening, "parts"):
                yield "taken out"
        case "proof lapsed":
            yield "lapsed"


def _by_others(said: str) -> Iterator[str]:
    return (word for pattern, word in WORDS if re.search(pattern, said.casefold()))


def not_known(stated: Stated, name: str) -> bool:
    """Return whether a field was written of, but what it holds is not recorded or not settled."""
    value = stated.value(name)
    unknown = isinstance(value, Absent) and value.why in (Why.NOT_RECORDED, Why.NOT_SETTLED)
    return unknown and bool(stated.held(name))


def touched(built: AsBuilt, happening: Happening) -> frozenset[str]:
    """
    Return the tags a happening is about or names, and the hulls and runs they are part of.

    Where tags are written as not recorded, it may have been any that could stand there.
    """
    if not_known(happening, "tags"):
        return frozenset({*built.things, built.site, happening.about})
    tags = {
        tag.partition("/")[0]
        for tag in (*happening.concerns(), *held_or_any(built, happening, "hull"))
    }
    for tag in tuple(tags):
        thing = built.thing(tag)
        if thing is not None and thing.kind.word in PART_OF:
            tags.update(held_or_any(built, thing, PART_OF[thing.kind.word]))
    return frozenset(tags)


def held_or_any(built: AsBuilt, stated: Stated, name: str) -> tuple[str, ...]:
    """Return the tags a field holds; every hull or run where which one is not recorded."""
    if not_known(stated, name):
        kind = "hull" if name == "hull" else "run"
        return tuple(thing.tag for thing in built.of_kind(kind))
    return stated.tags(name)
