"""What is only there for a time, and how every valve and switch was left."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from record.fold import Happening, Thing
from record.readers import View

WITH_A_POSITION = ("valve", "equipment", "drain", "door")


@dataclass(frozen=True, slots=True)
class StillOn:
    """Something temporary that nobody wrote down as taken off."""

    thing: Thing

    @property
    def words(self) -> str:
        where = f", {self.thing.words('where')}" if self.thing.text("where") else ""
        return (
            f"{self.thing.words('what')} on {self.thing.words('on_thing')}{where}; "
            f"must be off before {self.thing.words('off_before')}"
        )


@dataclass(frozen=True, slots=True)
class Position:
    """How a thing was left last, against how it normally is."""

    thing: Thing
    left: Happening | None
    touched: Happening | None  # work on it after it was last left in a stated position

    @property
    def state(self) -> str:
        """normal, not normal, not known, or "left …" where no normal position is recorded."""
        if self.left is None or self.left.text("state") is None or self.touched is not None:
            return "not known"
        normal = self.thing.text("normal_position")
        if normal is None:
            return "left"
        same = _plain(normal) == _plain(self.left.words("state"))
        return "normal" if same else "not normal"

    @property
    def words(self) -> str:
        normal = self.thing.words("normal_position")
        if self.left is None:
            return f"POSITION NOT KNOWN: nobody wrote how it was left; normally {normal}"
        last = f"left {self.left.words('state')} {self.left.moment} ({self.left.entry.number})"
        if self.touched is not None:
            after = f"{self.touched.kind.word} {self.touched.moment}"
            return f"POSITION NOT KNOWN: {last}, then {after} ({self.touched.entry.number})"
        if self.state == "not normal":
            until = f", until {self.left.words('until')}" if self.left.text("until") else ""
            return f"NOT NORMAL: {last}{until}; normally {normal}"
        return f"{last}; normally {normal}"


def _plain(words: str) -> str:
    return " ".join(words.casefold().split())


def still_on(view: View) -> tuple[StillOn, ...]:
    """Return everything temporary that was not taken off, by tag."""
    off = {one.about for one in view.built.happened("taken off")}
    return tuple(
        StillOn(thing) for thing in view.built.of_kind("temporary") if thing.tag not in off
    )


def positions(view: View) -> tuple[Position, ...]:
    """
    Return how every thing with a position was left.

    A thing served, repaired or opened after it was last left, or on the same day where hours do
    not tell, is in no known position until somebody says how it was left.
    """
    return tuple(
        _position(view, thing)
        for kind in WITH_A_POSITION
        for thing in view.built.of_kind(kind)
        if thing.held("normal_position") or any(view.built.about(thing.tag, "left as"))
    )


def _position(view: View, thing: Thing) -> Position:
    lefts = [one for one in view.built.happened("left as") if one.about == thing.tag]
    left = lefts[-1] if lefts else None
    touched = [
        one
        for one in view.built.about(thing.tag, "serviced", "repaired", "opened up")
        if left is not None and not _stated(one) and not _surely_before(one, left)
    ]
    return Position(thing, left, touched[-1] if touched else None)


def _stated(one: Happening) -> bool:
    """A service sheet has a line for how it was left: written there, the position is stated."""
    return one.kind.word == "serviced" and one.text("left_as") is not None


def _surely_before(one: Happening, left: Happening) -> bool:
    if one.on != left.on:
        return one.on < left.on
    # On one day, whoever wrote how it was left wrote it of the end of the work.
    return not (one.at and left.at) or one.at <= left.at


def words(on: Sequence[StillOn], places: Sequence[Position]) -> Iterator[str]:
    """Yield what must come off, then what is not known or not normal, then the rest."""
    yield "STILL ON" if on else "Nothing temporary is recorded as still on."
    for one in on:
        yield f"  {one.thing.tag}: {one.words}"
    if not places:
        return
    yield ""
    yield "HOW THINGS WERE LEFT"
    rank = {"not known": 0, "not normal": 1}
    for place in sorted(places, key=lambda one: rank.get(one.state, 2)):
        yield f"  {place.thing.tag}: {place.words}"


def form(on: Sequence[StillOn], places: Sequence[Position]) -> dict[str, object]:
    """Return the JSON form of both."""
    return {
        "still_on": [
            {
                "tag": one.thing.tag,
                "what": one.thing.text("what"),
                "on": one.thing.text("on_thing"),
                "off_before": one.thing.text("off_before"),
                "entries": [entry.number for entry in one.thing.entries()],
            }
            for one in on
        ],
        "positions": [
            {
                "tag": one.thing.tag,
                "state": one.state,
                "left": one.left.text("state") if one.left else None,
                "moment": one.left.moment if one.left else None,
                "normal": one.thing.text("normal_position"),
                "entry": one.left.entry.number if one.left else None,
                "touched_since": one.touched.entry.number if one.touched else None,
            }
            for one in places
        ],
    }
