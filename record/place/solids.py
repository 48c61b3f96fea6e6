"""The solids that things are taken for, each in the frame it was measured in."""

from __future__ import annotations

from dataclasses import dataclass

from record.entry import Entry
from record.fold import Thing
from record.place.frames import Vector
from record.place.strays import Stray
from record.words import term

ANY_M = 1e5  # farther than any level on any datum


@dataclass(frozen=True, slots=True)
class Capsule:
    """
    A round bar from one point to another, radius in metres.

    ``rises_m``: it stands somewhere between there and that much higher; its level is not known.
    """

    start: Vector
    end: Vector
    radius_m: float
    rises_m: float = 0.0


@dataclass(frozen=True, slots=True)
class Block:
    """A box with its edges along the axes of its frame, by two opposite corners."""

    low: Vector
    high: Vector


@dataclass(frozen=True, slots=True)
class Arc(Block):
    """
    A piece of a round shell; ``low`` and ``high`` are those of the box that just holds it.

    ``face`` says how its angles are counted (``frames.TURNS``); radians, and metres off the axis.
    """

    face: str
    angles: tuple[float, float]
    off_axis_m: tuple[float, float]


@dataclass(frozen=True, slots=True)
class Shape:
    """One solid of one thing, in the frame ``hull`` ("" is the site grid)."""

    thing: Thing
    words: str
    form: Capsule | Block
    hull: str
    horizontal_m: float
    vertical_m: float
    basis: str
    assumed: bool
    entries: tuple[Entry, ...]
    interpolated: bool = False
    missing: tuple[str, ...] = ()  # which measures were not recorded, and so were filled out
    strays: Stray | None = None  # of a pipe between two stations: how far off the line it may lie


def called(thing: Thing) -> str:
    """Return what a thing is in a few words: its kind, and its type where there is one."""
    name = next((name for name in ("type", "what") if thing.text(name)), None)
    kind = term(thing.kind.word)
    return f"{kind}, {thing.words(name)}" if name else kind


def called_run(run: Thing) -> str:
    """Return what a run is in a few words: that it is one, and what it carries."""
    return f"{term('run')}, {run.words('carries')}" if run.text("carries") else term("run")
