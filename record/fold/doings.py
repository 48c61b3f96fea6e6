"""What was done to finished work that may undo what a test had proved, and what it touched."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from record.fold.state import AsBuilt, Happening

#: Words of others, who choose their own, and what was done by them.
WORDS = (
    (r"\bdrill|\bscrew|\bnail|\banchor|\bbor(?:e|ed|ing)\b", "drilled"),
    (r"\bweld", "welded"),
    (r"\bcut\b|\bcutting|\bsaw(?:n|ed|ing)?\b|\bground out", "cut"),
    (r"\btaken out|\bremoved|\breplaced|\brenewed", "taken out"),
    (r"\breopened|\bopened|\bunscrewed|\bloosened", "reopened"),
)
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


READ = ("opened up", "worked by others", "uncovered", "repaired", "serviced", "proof lapsed")


def _what(happening: Happening) -> Iterator[str]:
    match happening.kind.word:
        case "opened up":
            yield happening.text("what") or "reopened"  # not recorded is no less than that
        case "worked by others":
            said = (happening.text("what") or "").casefold()
            yield from (word for pattern, word in WORDS if re.search(pattern, said))
        case "uncovered":
            yield "uncovered"
        case "repaired":
            yield "repaired"
        case "serviced":
            if happening.text("parts"):
                yield "taken out"
        case "proof lapsed":
            yield "lapsed"


def touched(built: AsBuilt, happening: Happening) -> frozenset[str]:
    """Return the tags a happening is about or names, and the hulls and runs they are part of."""
    tags = {tag.partition("/")[0] for tag in (*happening.concerns(), *happening.tags("hull"))}
    for tag in tuple(tags):
        thing = built.thing(tag)
        if thing is not None and thing.kind.word in PART_OF:
            tags.update(thing.tags(PART_OF[thing.kind.word]))
    return frozenset(tags)
