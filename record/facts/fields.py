"""What one field of a fact may hold, and how the crew's words for it are read."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from datetime import date
from difflib import get_close_matches

from record.facts.faults import ValueFault, plain
from record.facts.named import CLOCK, EntryOf, TagOf, TagsOf
from record.facts.sizes import Measure, Number, PipeLevel
from record.facts.values import NOT_RECORDED, Absent, Value, Why

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
        word = plain(text)
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


HALF_DAY = re.compile(
    r"(?P<hour>1[0-2]|0?[1-9])(?::(?P<minute>[0-5][0-9]))?\s*(?P<half>[ap])\.?\s?m\.?",
    re.IGNORECASE,
)
SHORTEST = 4  # letters by which one word of a list is known, where no other begins so


@dataclass(frozen=True, slots=True)
class OneOf:
    """One word of a short list."""

    words: tuple[str, ...]

    @property
    def says(self) -> str:
        return "one of " + ", ".join(self.words)

    def read(self, text: str, unit: str | None = None) -> Value:
        word = plain(text)
        begun = [one for one in self.words if len(word) >= SHORTEST and one.startswith(word)]
        if word in self.words or len(begun) == 1:
            return word if word in self.words else begun[0]  # "pass" is passed
        near = get_close_matches(word, self.words, 1) or sorted(set(word.split()) & {*self.words})
        hint = f' Did you mean "{near[0]}"?' if near else ""
        raise ValueFault(
            f'"{text}" is not one of the words for this',
            f"Write {', '.join(self.words[:-1])} or {self.words[-1]}.{hint}",
        )


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
        if half := HALF_DAY.fullmatch(text):
            later = 12 if half["half"].casefold() == "p" else 0
            return f"{int(half['hour']) % 12 + later:02}:{half['minute'] or '00'}"
        if not CLOCK.fullmatch(text):
            raise ValueFault(
                f'"{text}" is not a time of day',
                "Write the time, such as 14:10 or 2:10 pm.",
            )
        return text


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
    word = plain(text)
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
