"""Which work undoes which test: a row a rule. Work is on a thing, or on what it is part of."""

from __future__ import annotations

import re
from dataclasses import dataclass

from record.facts.faults import plain
from record.facts.looks import titled
from record.fold import AsBuilt, Doing, Happening, Thing
from record.fold.doings import held_or_any
from record.fold.looks import title


@dataclass(frozen=True, slots=True)
class Voids:
    """
    One rule: work of these sorts on things of these kinds undoes tests of these kinds or names.

    ``on`` are the kinds of the thing the test was of: it, or what it is part of, must have been
    touched. No kinds of test and no pattern is every test.
    """

    what: frozenset[str]
    on: frozenset[str]
    kinds: frozenset[str]
    named: str
    source: str


PRACTICE = "common practice, no source"
_OPENING = frozenset({"drilled", "cut", "welded", "taken out", "reopened", "repaired"})
_THROUGH = frozenset({"drilled", "cut", "welded"})
VOIDS: tuple[Voids, ...] = (
    # A hole anywhere in lining or plate may be the leak.
    Voids(
        _THROUGH,
        frozenset({"hull", "room", "site", "panel", "opening"}),
        frozenset(),
        r"\btight|\bleak|\bpressure (?:test|decay)|\bblower|\bdoor fan",
        PRACTICE,
    ),
    Voids(
        _OPENING,
        frozenset({"penetration", "door"}),
        frozenset(),
        r"\btight|\bleak|\bseal|\bpressure",
        PRACTICE,
    ),
    Voids(
        _OPENING,
        frozenset({"run", "valve", "fitting", "drain"}),
        frozenset({"pressure tested", "flow tested"}),
        r"\bpour|\bball|\bflow|\bleak|\btight|\bpressure|\blift|\bwater|\bruns? out|\bdrain",
        PRACTICE,
    ),
    # A coat that was welded or cut through is not the coat that was tested.
    Voids(
        _THROUGH | {"repaired"},
        frozenset({"seam", "hull", "penetration"}),
        frozenset({"holiday tested", "coating inspected", "weld inspected"}),
        r"\bholiday|\bpinhole|\bfilm|\bcoat|\bweld",
        PRACTICE,
    ),
    Voids(frozenset({"uncovered"}), frozenset({"covering"}), frozenset(), "", PRACTICE),
    # Spades and hands come to the wrap: it was tested before it was dug out.
    Voids(
        frozenset({"uncovered"}),
        frozenset({"seam"}),
        frozenset({"holiday tested", "coating inspected"}),
        r"\bholiday|\bpinhole|\bfilm|\bcoat",
        PRACTICE,
    ),
    # A new fan is not the fan that was measured; a new filter is what its upkeep asks for.
    Voids(frozenset({"repaired", "cut"}), frozenset({"equipment"}), frozenset(), "", PRACTICE),
)


def source_of(built: AsBuilt, test: Happening, doing: Doing) -> str:
    """Return by which rule a doing undoes a test; nothing if by none."""
    if "lapsed" in doing.what:
        same = not doing.test or not named(test) or plain(doing.test) == plain(title(test))
        return "written down" if same and test.about in doing.touched else ""
    whole = test.about.partition("/")[0]
    thing = built.thing(whole)
    kind = thing.kind.word if thing else ("site" if whole == built.site else "")
    touched = doing.touched
    if kind == "site":  # a test of the whole place is undone by work on any of its hulls
        touched = touched | {whole} if _any_hull(built, touched) else touched
    if whole not in touched and not (thing and _room_of(built, thing) & touched):
        return ""
    for rule in VOIDS:
        if doing.what & rule.what and kind in rule.on and _meant(rule, test):
            return rule.source
    return ""


def _any_hull(built: AsBuilt, tags: frozenset[str]) -> bool:
    return any((thing := built.thing(tag)) and thing.kind.word == "hull" for tag in tags)


def _room_of(built: AsBuilt, thing: Thing) -> frozenset[str]:
    """A room's tests are undone by work on its hull; those of a valve by work on its run."""
    field = {"room": "hull", "valve": "on_run", "fitting": "on_run", "drain": "serves"}
    name = field.get(thing.kind.word)
    return frozenset(held_or_any(built, thing, name)) if name else frozenset()


def _meant(rule: Voids, test: Happening) -> bool:
    if test.kind.word in rule.kinds or not (rule.kinds or rule.named):
        return True
    if not named(test):
        return True  # nobody knows what it proved: no less than what would be undone
    return bool(rule.named and re.search(rule.named, plain(title(test))))


def named(test: Happening) -> bool:
    """Return whether it was written down which test it was."""
    return test.text(titled(test.kind.word)) is not None
