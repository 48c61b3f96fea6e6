"""Nothing lies under a covering that nobody named: a forgotten pipe shows up by its place."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from record.checks.finding import CANNOT_BE_TOLD, CERTAIN, Finding, Rule
from record.checks.hidden import Hidden
from record.checks.reserved_there import reserved_there
from record.checks.zones import BOARDS, EARTH, Lies, lies_in
from record.entry import Entry
from record.fold import Thing, natural
from record.place import run_gaps

#: What goes under unseen. What a panel, a marker or a zone is, is no thing that can be forgotten.
KINDS = (
    "run",
    "cable",
    "valve",
    "drain",
    "fitting",
    "seam",
    "store",
    "fit-out",
    "equipment",
    "concealed entry",
)
#: What is put in from the room later on, and so is only looked at behind a board.
PUT_IN = ("store", "fit-out", "equipment", "seam", "concealed entry")
PART_OF = ("on_run", "serves", "in_run", "follows")


@dataclass(frozen=True, slots=True)
class Unnamed:
    """A thing in the way of a covering: how it lies there, and who else names it, only later."""

    thing: Thing
    lies: Lies
    later: str = ""


def unnamed(hidden: Hidden) -> tuple[Unnamed, ...]:
    """Return what lies where the covering goes and is named by no covering up to then."""
    others = _Others(hidden)
    found: dict[str, Unnamed] = {}
    for shape, lies in lies_in(hidden):
        thing = shape.thing
        met = found.get(thing.tag)
        if thing.kind.word not in KINDS or (met and lies.rank <= met.lies.rank):
            continue
        later = met.later if met else others.later(thing)
        if later is not None and not _built_since(hidden, thing):
            found[thing.tag] = Unnamed(thing, lies, later)
    told = [one for one in found.values() if not _with_another(one.thing, found)]
    return tuple(sorted(told, key=lambda one: natural(one.thing.tag)))


class _Others:
    """Which coverings name a thing, or what it belongs to."""

    def __init__(self, hidden: Hidden) -> None:
        self._hidden = hidden
        self._naming: dict[str, list[Thing]] = {}
        for covering in hidden.built.of_kind("covering"):
            for tag in covering.tags("hides"):
                self._naming.setdefault(tag, []).append(covering)

    def later(self, thing: Thing) -> str | None:
        """
        Return the tag of a later covering that alone names a thing; "" where none does.

        None: this covering names it, or one planned no later, or one that is on.
        """
        of = (thing.tag, *(h.value for field in PART_OF for h in thing.held(field)))
        naming = [(tag, one) for tag in of for one in self._naming.get(str(tag), ())]
        if any(self._first(one, tag) for tag, one in naming):
            return None
        return naming[0][1].tag if naming else ""

    def _first(self, covering: Thing, tag: object) -> bool:
        own = self._hidden.covering
        day, planned = covering.text("planned"), own.text("planned")
        if covering.tag == own.tag or (day and planned and day <= planned):
            return True
        return any(
            one.about == covering.tag and (not one.tags("tags") or tag in one.tags("tags"))
            for one in self._hidden.built.happened("covered")
        )


def _built_since(hidden: Hidden, thing: Thing) -> bool:
    """Return whether a thing was first written of a day after this covering last went on."""
    on = [one.on for one in hidden.built.happened("covered") if one.about == hidden.covering.tag]
    days = [entry.content.on for entry in thing.all_entries() if entry.content]
    return bool(on and days) and min(days) > max(on)


def _with_another(thing: Thing, found: dict[str, Unnamed]) -> bool:
    """Return whether it sits on a run that is told itself."""
    return any(tag in found for field in PART_OF for tag in thing.tags(field))


def find(hidden: Hidden) -> Iterator[Finding]:
    """Find what lies where the covering goes and nobody named, and pipes that may lie there."""
    tag = hidden.covering.tag
    behind = hidden.covering.text("what") in BOARDS
    met = set()
    for one in unnamed(hidden):
        met.add(one.thing.tag)
        later_in = behind and one.thing.kind.word in PUT_IN
        stops = one.lies.recorded and not one.later and not later_in
        told = f"named only by {one.later}, planned later" if one.later else "named by nobody"
        yield RULE.finding(
            one.thing.tag,
            f"{one.lies.words} {tag}, {told}",
            clears=_clears(hidden, one.thing.tag),
            entries=_entries(hidden, one.lies.entries),
            sure=CERTAIN if one.lies.certain else CANNOT_BE_TOLD,
            stops=stops,
        )
    if where := reserved_there(hidden):
        yield RULE.finding(
            tag,
            f"what this reader may not see may lie {where}",
            clears=("ask the owner what lies there, before it goes on",),
            entries=hidden.covering.entries()[:1],
            sure=CANNOT_BE_TOLD,
        )
    if hidden.covering.text("what") in EARTH and not any(hidden.coverings_of(tag)):
        yield from _nowhere(hidden, met)


def _nowhere(hidden: Hidden, met: set[str]) -> Iterator[Finding]:
    """Yield pipes no covering names that have a stretch of which nobody knows where it lies."""
    others = _Others(hidden)
    for thing in hidden.built.of_kind("run"):
        if thing.tag in met or others.later(thing) != "":
            continue
        one = next(run_gaps(thing, hidden.view.hulls), None)
        if one is None:
            continue
        begun = any(station.x is not None for station in hidden.placed(thing))
        yield RULE.finding(
            thing.tag,
            f"no place is recorded of {one.words}: it may lie under {hidden.covering.tag}, and "
            "it is named by nobody",
            clears=(
                f"## run {thing.tag}, with x and y of each station; or, if it goes under:",
                *_clears(hidden, thing.tag),
            ),
            entries=thing.all_entries(),
            sure=CANNOT_BE_TOLD,
            stops=begun,
        )


def _clears(hidden: Hidden, tag: str) -> tuple[str, ...]:
    every = ", ".join((*hidden.named, tag))
    return (
        f"name it, if it goes under: ## covering {hidden.covering.tag}",
        f"- hides: {every}",
        "if it lies elsewhere, mend its place",
    )


def _entries(hidden: Hidden, entries: tuple[Entry, ...]) -> tuple[Entry, ...]:
    return (*hidden.covering.entries()[:1], *entries)


RULE = Rule(
    word="nothing in the way unnamed",
    why=(
        "A list is written from memory; a pipe that was laid and not put on it goes under with "
        "no level, no photo and no tie. Its place tells what the list forgot."
    ),
    find=find,
)
