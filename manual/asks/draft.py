"""Drafts of emergency pages: what is usual in the trade, for an event nobody recorded a drill for.

A draft is a starting text (common practice, no source), filled with what the record knows to be
there. It is printed as a draft until somebody has walked it through and had it recorded.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from manual.languages import spoken
from record.facts.pipes import DRAINAGE
from record.fold import Thing, natural
from record.readers import View

MOST = 4  # things of one sort named at one step; more would be no step of one action
SHUT_OFFS = ("shut-off", "ball", "gate")
SAND, SAND_BELOW = "sand", "sand-below"


@dataclass(frozen=True, slots=True)
class DraftStep:
    """One action: its words, the caution before it, and what sorts of thing it touches."""

    do: str
    caution: str
    touches: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """A page's starting text."""

    name: str
    event: str
    sign: str
    signal: str
    danger: str
    call: str
    afterwards: str
    steps: tuple[DraftStep, ...]


def drafts() -> dict[str, Draft]:
    """Return every draft by its name: its event with hyphens, or one of the two about sand."""
    texts = spoken().drafts.items()
    return {name.removesuffix(".toml"): _draft(name.removesuffix(".toml"), t) for name, t in texts}


def for_event(event: str) -> Draft:
    return drafts()[event.replace(" ", "-")]


@cache
def _draft(name: str, text: str) -> Draft:
    held = tomllib.loads(text)
    return Draft(
        name=name,
        event=held["event"],
        sign=held["sign"],
        signal=held["signal"],
        danger=held["danger"],
        call=held["call"],
        afterwards=held["afterwards"],
        steps=tuple(
            DraftStep(each["do"], each.get("caution", ""), tuple(each.get("touches", ())))
            for each in held["steps"]
        ),
    )


def things_of(view: View, sorts: tuple[str, ...]) -> tuple[Thing, ...]:
    """Return the things of these sorts that the record knows, by tag, no more than can be named."""
    found = {thing.tag: thing for sort in sorts for thing in _of_sort(view, sort)}
    return tuple(found[tag] for tag in sorted(found, key=natural)[:MOST])


def _of_sort(view: View, sort: str) -> Iterator[Thing]:
    built = view.built
    if sort == "way out":
        yield from built.of_kind(sort)
    elif sort == "drain shut-off":
        for valve in built.of_kind("valve"):
            if valve.text("type") in SHUT_OFFS and _drains(view, valve):
                yield valve
    else:
        for word in ("equipment", "valve"):
            yield from (thing for thing in built.of_kind(word) if thing.text("type") == sort)


def _drains(view: View, valve: Thing) -> bool:
    runs = [view.built.thing(tag) for tag in valve.tags("on_run")]
    return any(run.text("carries") in DRAINAGE for run in runs if run)
