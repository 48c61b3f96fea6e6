"""What one field of a fact may hold, and how the crew's words for it are read."""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace
from datetime import date
from decimal import Decimal
from difflib import get_close_matches

from record.facts.values import NOT_RECORDED, Absent, Level, Part, Value, Why
from record.units import Dimension, Quantity, UnitFault, read_quantity

TAG = re.compile(r"[A-Za-z][A-Za-z0-9.]*(?:-[A-Za-z0-9.]+)*")
NUMBER = re.compile(r"(~)? ?([0-9]{1,9}(?:\.[0-9]{1,9})?)(?: ?± ?([0-9]{1,9}(?:\.[0-9]{1,9})?))?")
ENTRY = re.compile(r"[a-z][a-z0-9]{0,15}-[1-9][0-9]{0,8}(?:/[0-9a-f]{4,64})?")
CLOCK = re.compile(r"(?:[01][0-9]|2[0-3]):[0-5][0-9]")
DITTO = {
    "",
    "-",
    "–",
    "—",
    "−",
    "?",
    '"',
    "''",
    "”",
    "″",
    "ditto",
    "do.",
    "same",
    "as above",
    "n/a",
}
DITTO_REMEDY = 'Write the value again, or "not recorded", "none" or "n/a, " and the reason.'


_PARTS = frozenset(Part)


def _plain(text: str) -> str:
    """Return words for reading: small letters, and every run of spaces one plain space."""
    return " ".join(text.split()).casefold()


class ValueFault(ValueError):
    """A value that cannot be read: what is wrong, what to write, and where in the text."""

    def __init__(self, problem: str, remedy: str, start: int = 0, end: int | None = None) -> None:
        super().__init__(problem)
        self.problem, self.remedy, self.start, self.end = problem, remedy, start, end


@dataclass(frozen=True, slots=True)
class Text:
    """Any words."""

    says = "words"

    def read(self, text: str, unit: str | None = None) -> Value:
        return text


@dataclass(frozen=True, slots=True)
class YesNo:
    """yes or no."""

    says = "yes or no"

    def read(self, text: str, unit: str | None = None) -> Value:
        word = _plain(text)
        if word not in ("yes", "no"):
            raise ValueFault(f'"{text}" is neither yes nor no', 'Write "yes" or "no".')
        return word == "yes"


@dataclass(frozen=True, slots=True)
class Count:
    """How many; a whole number without a unit."""

    says = "a whole number"

    def read(self, text: str, unit: str | None = None) -> Value:
        if not re.fullmatch(r"[0-9]{1,9}", text):
            raise ValueFault(f'"{text}" is not a whole number', "Write how many, such as 2.")
        return int(text)


@dataclass(frozen=True, slots=True)
class Number:
    """A number that has no unit, such as a loss coefficient; ± and ~ as for what is measured."""

    says = "a number without a unit, such as 0.45"

    def read(self, text: str, unit: str | None = None) -> Value:
        found = NUMBER.fullmatch(text.strip())
        if found is None:
            raise ValueFault(f'"{text}" is not a number alone', "Write a number, such as 0.45.")
        about, number, tolerance = found.groups()
        return Quantity(
            si=Decimal(number),
            unit="1",
            text=text.strip(),
            tol=None if tolerance is None else Decimal(tolerance),
            estimated=bool(about),
        )


@dataclass(frozen=True, slots=True)
class Measure:
    """A measured value with its unit."""

    dimension: Dimension

    @property
    def says(self) -> str:
        return f"{self.dimension.value} with its unit"

    def read(self, text: str, unit: str | None = None) -> Value:
        try:
            return _with_its_unit(read_quantity(text, self.dimension, column_unit=unit), unit)
        except UnitFault as fault:
            raise ValueFault(fault.problem, fault.remedy, fault.start, fault.end) from fault


def _with_its_unit(quantity: Quantity, unit: str | None) -> Quantity:
    """Give a bare number from a table the unit of its column: alone, it would say nothing."""
    number, sign, tolerance = quantity.text.partition("±")
    if unit is None or re.search(r"[^\W\d_]|['\"%°:/′″’”]", number):
        return quantity
    text = f"{number.rstrip()} {unit}" + (f" ± {tolerance.strip()}" if sign else "")
    return replace(quantity, text=text)


@dataclass(frozen=True, slots=True)
class PipeLevel:
    """A level of a pipe: "crown 98.612 m", or a column headed invert, centre or crown."""

    says = "invert, centre or crown, and the level with its unit"

    def read(self, text: str, unit: str | None = None) -> Value:
        word, rest = (*text.split(None, 1), "", "")[:2]
        if word.casefold() not in _PARTS:
            raise ValueFault(
                f'"{text}" does not say which level of the pipe it is',
                'Write "invert", "centre" or "crown" before it, such as "crown 98.612 m".',
            )
        skipped = len(text.rstrip()) - len(rest.rstrip())
        try:
            height = read_quantity(rest.strip(), Dimension.LENGTH, column_unit=unit)
            height = _with_its_unit(height, unit)
        except UnitFault as fault:
            raise ValueFault(
                fault.problem, fault.remedy, fault.start + skipped, fault.end + skipped
            ) from fault
        return Level(Part(word.casefold()), height)


@dataclass(frozen=True, slots=True)
class OneOf:
    """One word of a short list."""

    words: tuple[str, ...]

    @property
    def says(self) -> str:
        return "one of " + ", ".join(self.words)

    def read(self, text: str, unit: str | None = None) -> Value:
        word = _plain(text)
        if word in self.words:
            return word
        near = get_close_matches(word, self.words, 1)
        hint = f' Did you mean "{near[0]}"?' if near else ""
        raise ValueFault(
            f'"{text}" is not one of the words for this',
            f"Write {', '.join(self.words[:-1])} or {self.words[-1]}.{hint}",
        )


@dataclass(frozen=True, slots=True)
class TagOf:
    """The tag of one thing, of one of these kinds (any kind if none is named)."""

    kinds: tuple[str, ...] = ()

    @property
    def says(self) -> str:
        return "the tag of a " + " or ".join(self.kinds) if self.kinds else "a tag"

    def read(self, text: str, unit: str | None = None) -> Value:
        if not TAG.fullmatch(text):
            raise ValueFault(f'"{text}" is not a tag', "Write one tag, such as AIR-IN.")
        return text


@dataclass(frozen=True, slots=True)
class TagsOf:
    """Tags of several things, with commas between."""

    kinds: tuple[str, ...] = ()

    says = "tags with commas between"

    def read(self, text: str, unit: str | None = None) -> Value:
        tags, at = [], 0
        for piece in text.split(","):
            tag = piece.strip()
            if not TAG.fullmatch(tag):
                start = at + len(piece) - len(piece.lstrip())
                raise ValueFault(
                    f'"{tag}" is not a tag',
                    "Write tags with commas between, such as AIR-IN, D-1.",
                    start,
                    max(start + len(tag), start + 1),
                )
            tags.append(tag)
            at += len(piece) + 1
        return tuple(tags)


@dataclass(frozen=True, slots=True)
class Day:
    """A calendar day."""

    says = "a day, such as 2031-05-14"

    def read(self, text: str, unit: str | None = None) -> Value:
        try:
            if not re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", text):
                raise ValueError
            return date.fromisoformat(text).isoformat()
        except ValueError:
            raise ValueFault(
                f'"{text}" is not a day', "Write year-month-day, such as 2031-05-14."
            ) from None


@dataclass(frozen=True, slots=True)
class Clock:
    """A time of day, local."""

    says = "a time of day, such as 14:10"

    def read(self, text: str, unit: str | None = None) -> Value:
        if not CLOCK.fullmatch(text):
            raise ValueFault(
                f'"{text}" is not a time of day', "Write hours and minutes, such as 14:10."
            )
        return text


@dataclass(frozen=True, slots=True)
class EntryOf:
    """
    The number of an earlier entry of one of these kinds, or of several with commas between.

    What was written on the very same sheet has no number yet: it is named by its time of day.
    ``words``: any words may stand here too; only what is an entry number alone is asked after.
    """

    kinds: tuple[str, ...]
    words: bool = False

    says = "an entry number, such as ld-88, or its time on this sheet, such as 07:10"

    def read(self, text: str, unit: str | None = None) -> Value:
        pieces = [piece.strip() for piece in text.split(",")]
        if self.words or all(ENTRY.fullmatch(p) or CLOCK.fullmatch(p) for p in pieces):
            return ", ".join(pieces) if not self.words else text
        raise ValueFault(
            f'"{text}" is no entry number',
            "Write it as it is shown, such as ld-88; of the same sheet, its time, such as 07:10.",
        )

    def named(self, said: str) -> tuple[str, ...]:
        """Return the numbers and times that ``said`` names; none where it is words."""
        pieces = tuple(piece.strip() for piece in said.split(","))
        plain = all(ENTRY.fullmatch(p) or CLOCK.fullmatch(p) for p in pieces)
        return pieces if plain else ()


Holds = (
    Text
    | YesNo
    | Count
    | Number
    | Measure
    | PipeLevel
    | OneOf
    | TagOf
    | TagsOf
    | Day
    | Clock
    | EntryOf
)


@dataclass(frozen=True, slots=True)
class Field:
    """One field: the key the crew writes, what it holds, and whether it must be said at first."""

    key: str
    holds: Holds
    needed: bool = False
    name: str = field(init=False, repr=False, compare=False)  # the key, as in an entry's body

    def __post_init__(self) -> None:
        object.__setattr__(self, "name", self.key.replace(" ", "_"))

    def read(self, text: str, unit: str | None = None) -> Value:
        """Return the value of the crew's words. Raises ValueFault."""
        absent = read_absent(text)
        return absent if absent is not None else self.holds.read(text, unit)


def read_absent(text: str) -> Absent | None:
    """Return which absence ``text`` states, or None if it states a value."""
    word = _plain(text)
    if word == "not recorded":
        return NOT_RECORDED
    if word in ("none", "none fitted"):
        return Absent(Why.NONE)
    if word.startswith("n/a,") and text.partition(",")[2].strip():
        return Absent(Why.NOT_APPLICABLE, text.partition(",")[2].strip())
    if word in DITTO or word.startswith("n/a"):
        if word.startswith("n/a"):
            raise ValueFault('"n/a" needs its reason', 'Write "n/a, " and why, in a few words.')
        shown = f'"{text.strip()}"' if word else "a blank"
        raise ValueFault(f"{shown} says nothing that lasts", DITTO_REMEDY)
    return None


length = Measure(Dimension.LENGTH)
