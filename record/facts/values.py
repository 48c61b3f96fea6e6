"""The values a fact may hold, and their form in an entry line.

Three answers are never mixed up: "not recorded" (nobody wrote it down), "none" (looked for,
and there is none) and "n/a" (the question does not arise, with the reason). None of them
reads as "nothing is there".
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from enum import StrEnum
from functools import lru_cache
from typing import Any

from record.units import Quantity
from record.words import term


class Why(StrEnum):
    """Why there is no value."""

    NOT_RECORDED = "not recorded"
    NONE = "none"
    NOT_APPLICABLE = "n/a"
    NOT_SETTLED = "not settled"  # worked out, never written: two statements differ


@dataclass(frozen=True, slots=True)
class Absent:
    """There is no value, and this is which of the three reasons."""

    why: Why
    reason: str = ""

    def __str__(self) -> str:
        why = term(self.why.value)
        return f"{why}, {self.reason}" if self.reason else why


NOT_RECORDED = Absent(Why.NOT_RECORDED)


class Part(StrEnum):
    """Which level of a pipe was taken; a bare "level" of a pipe says nothing."""

    INVERT = "invert"
    CENTRE = "centre"
    CROWN = "crown"


@dataclass(frozen=True, slots=True)
class Level:
    """A level on the site datum, and which part of the pipe it is of."""

    part: Part
    height: Quantity

    def __str__(self) -> str:
        return f"{term(self.part.value)} {self.height.text}"


@dataclass(frozen=True, slots=True)
class Unread:
    """A value of a form this version does not know, kept as it stands."""

    raw: str

    def __str__(self) -> str:
        return f"(unread) {self.raw}"


Value = Quantity | Level | Absent | Unread | str | bool | int | tuple[str, ...]


def in_words(value: Value) -> str:
    """Return a value as a person would read it: the crew's own text wherever there is one."""
    if isinstance(value, bool):
        return term("yes" if value else "no")
    if isinstance(value, Quantity):
        return value.text
    if isinstance(value, tuple):
        return ", ".join(value)
    return str(value)


def to_json(value: Value) -> Any:
    """Return the plain JSON form of a value; measured numbers become decimal strings."""
    match value:
        case Quantity():
            return _quantity_to_json(value)
        case Level():
            return {"part": value.part.value, **_quantity_to_json(value.height)}
        case Absent():
            if value.why is Why.NOT_SETTLED:
                raise TypeError("a disagreement is worked out, never written")
            held = {"absent": value.why.value}
            return {**held, "reason": value.reason} if value.reason else held
        case Unread():
            raise TypeError("an unread value is never written again")
        case tuple():
            return list(value)
        case _:
            return value


def _quantity_to_json(value: Quantity) -> dict[str, Any]:
    form: dict[str, Any] = {"text": value.text, "si": str(value.si), "unit": value.unit}
    if value.tol is not None:
        form["tol"] = str(value.tol)
    if value.estimated:
        form["estimated"] = True
    return form


def from_json(form: Any) -> Value:
    """Return the value of a JSON form. What is not understood comes back as Unread."""
    if isinstance(form, (str, bool, int)):
        return form
    if isinstance(form, list) and all(isinstance(item, str) for item in form):
        return tuple(form)
    if isinstance(form, (dict, Mapping)):
        try:
            return _from_object(form)
        except (KeyError, ValueError, InvalidOperation, TypeError):
            pass
    return Unread(repr(form))


def _from_object(form: Mapping[str, Any]) -> Value:
    if "absent" in form:
        return Absent(Why(form["absent"]), str(form.get("reason", "")))
    tol = form.get("tol")
    quantity = Quantity(
        si=_decimal(form["si"]),
        unit=str(form["unit"]),
        text=str(form["text"]),
        tol=None if tol is None else _decimal(tol),
        estimated=bool(form.get("estimated", False)),
    )
    return Level(Part(form["part"]), quantity) if "part" in form else quantity


@lru_cache(maxsize=8192)  # sizes and tolerances are said again and again
def _decimal(text: Any) -> Decimal:
    """Return a measured number; NaN, infinities and absurd sizes are none."""
    number = Decimal(text)
    if not number.is_finite() or (number and abs(number.adjusted()) > 30):
        raise ValueError(f"{text} is not a measured number")
    return number
