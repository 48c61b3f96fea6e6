"""What a sum is: its inputs, its formula and source, and what comes out. Values only."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from record.units import Dimension

Given = Mapping[str, Any]  # key → float in the SI unit of its dimension, words, or rows of these


@dataclass(frozen=True, slots=True, kw_only=True)
class Input:
    """
    One thing a sum must be given.

    ``of`` is its dimension; without one it is a plain number, or one of ``words``. ``usual`` is
    what holds where nothing is given, as a crew would write it, and ``usual_from`` why; without it
    the input is needed. ``columns`` make it a row, given as often as there are rows, with ; between
    the columns. ``many`` alone lets a plain one be given again and again.
    """

    key: str
    says: str
    of: Dimension | None = None
    words: tuple[str, ...] = ()
    usual: str = ""
    usual_from: str = ""
    columns: tuple[Input, ...] = ()
    many: bool = False
    optional: bool = False  # may be left out, with nothing in its place

    @property
    def needed(self) -> bool:
        return not self.usual and not self.optional

    @property
    def told_words(self) -> tuple[str, ...]:
        """Its words as they are listed: one with a comma in it stands in marks."""
        return tuple(f'"{word}"' if "," in word else word for word in self.words)


@dataclass(frozen=True, slots=True)
class Figure:
    """
    One figure that comes out.

    ``value`` is in the SI unit of ``of``; without a dimension it is words, or a number of ``unit``
    said to ``digits`` digits.
    """

    name: str
    value: float | str
    of: Dimension | None = None
    unit: str = ""
    digits: int = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Sum:
    """
    One calculation by name.

    ``confirm`` names who must confirm it, where the result could hurt if wrong: then inputs and
    source are printed before it. ``work`` raises ValueError, with the number and the limit, where
    an input is outside the range of the formula.
    """

    name: str
    title: str
    formula: str
    source: str
    caution: str
    inputs: tuple[Input, ...]
    work: Callable[[Given], tuple[Figure, ...]]
    example: str
    confirm: str = ""

    def input(self, key: str) -> Input | None:
        return next((each for each in self.inputs if each.key == key), None)


DANGER = "DANGER: "  # begins the caution of a sum that could hurt whoever goes by it
ENGINEER = "The engineer of record must confirm this before anything is done by it."
OFFICE = "The local building office and the engineer must confirm this before anything is done."
MAKER = "The maker's sheet and a measured trial go before this figure."
ALARM = "A measured reading and the alarm rule. Nobody is to be told how long they may stay."
