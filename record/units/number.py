"""The number at the head of a piece of text: whole, decimal, fraction or both."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

MOST_DIGITS = 30

_NUMBER = re.compile(
    r"(?P<sign>[+-]?)"
    r"(?:(?:(?P<whole>[0-9]+)(?:\ +|-))?(?P<top>[0-9]+)\ ?/\ ?(?P<bottom>[0-9]+)"
    r"|(?P<decimal>[0-9]+(?:\.[0-9]+)?|\.[0-9]+))"
    r"(?![0-9.])"
)
_COMMA = re.compile(r"[+-]?[0-9.]*,[0-9.,]*[0-9]|[+-]?[0-9][0-9.]*,")
_EXPONENT = re.compile(r"[+-]?[0-9.]*[0-9.][eE][+-]?[0-9]+")
_RANGE = re.compile(r"[0-9][0-9./]*\s*(?:-|—|to|\.\.+|…)\s*[0-9]")
_GAP = re.compile(r"[0-9]+(?: +[0-9]+)+(?:\.[0-9]+)?(?![0-9/])")
_LOOK_ALIKE = re.compile(r"(?<![0-9A-Za-z])[+-]?(?=[.OoIl|]*[0-9])[0-9.OoIl|]+(?![0-9A-Za-z|])")
_DIGIT_FOR = {"O": "0", "o": "0", "I": "1", "l": "1", "|": "1"}


class NumberFault(Exception):
    """Text that has no number where one belongs; start and end lie within that text."""

    def __init__(self, problem: str, remedy: str | None, start: int, end: int) -> None:
        super().__init__(problem)
        self.problem, self.remedy, self.start, self.end = problem, remedy, start, end


@dataclass(frozen=True, slots=True)
class Number:
    """A number that was read, and where it stood."""

    value: Fraction
    signed: str  # "-", "+" or "": -0' 6" is six inches down although -0 is 0
    whole: bool  # written without point or fraction
    end: int

    @property
    def negative(self) -> bool:
        return self.signed == "-"


def number_at(text: str, start: int = 0) -> Number:
    """Return the number that begins at ``start``. Raises NumberFault.

    >>> number_at("4-1/2 in").value
    Fraction(9, 2)
    """
    found = _NUMBER.match(text, start)
    if not found:
        raise NumberFault("", None, start, start)
    if (
        len(found[0]) > MOST_DIGITS
        and sum(character.isdigit() for character in found[0]) > MOST_DIGITS
    ):
        raise NumberFault(
            f"a number of more than {MOST_DIGITS} digits",
            "Write only the digits that were read.",
            *found.span(),
        )
    if found["decimal"]:
        whole, _, rest = found["decimal"].partition(".")
        value = Fraction(int(whole + rest), 10 ** len(rest))
    else:
        value = _fraction(found)
    return Number(
        -value if found["sign"] == "-" else value,
        found["sign"],
        bool(found["decimal"]) and "." not in found["decimal"],
        found.end(),
    )


def _fraction(found: re.Match[str]) -> Fraction:
    top, bottom = int(found["top"]), int(found["bottom"])
    shown = f"{found['top']}/{found['bottom']}"
    if bottom == 0:
        raise NumberFault(f"{shown} divides by nothing", "Write it again.", *found.span())
    if found["whole"] and top >= bottom:
        raise NumberFault(
            f"{shown} after a whole number is not less than one",
            "Write it again, such as 12 1/2.",
            *found.span(),
        )
    return int(found["whole"] or 0) + Fraction(top, bottom)


def why_not(text: str) -> NumberFault | None:
    """Return what is odd about a number in ``text`` that could not be read, if it can be told."""
    if found := _COMMA.search(text):
        return NumberFault(
            f"{found[0]} has a comma, which may be a decimal point or a thousands mark",
            _without_comma(found[0]),
            *found.span(),
        )
    if found := _EXPONENT.search(text):
        return NumberFault(
            f"{found[0]} is written with an exponent", "Write the number out.", *found.span()
        )
    for found in _LOOK_ALIKE.finditer(text):
        letters = [character for character in found[0] if character in _DIGIT_FOR]
        digits = "".join(_DIGIT_FOR.get(character, character) for character in found[0])
        if letters and re.fullmatch(r"[+-]?[0-9]*\.?[0-9]+", digits):
            named = f"a letter {letters[0]}" if letters[0] != "|" else "a bar"
            return NumberFault(
                f"{found[0]} is not a number: {named} stands where a digit belongs",
                f"Write {digits} if that is meant.",
                *found.span(),
            )
    if found := _GAP.search(text):
        return NumberFault(
            f"{found[0]} has a blank inside",
            f"Write {found[0].replace(' ', '')} if that is meant.",
            *found.span(),
        )
    if found := _RANGE.search(text):
        return NumberFault(
            "this reads as a range",
            "Write one value and its tolerance, such as 2.5 m ± 0.5 m.",
            *found.span(),
        )
    return None


def _without_comma(shown: str) -> str:
    digits = shown.replace(",", "")
    if shown.endswith(","):
        return f"Write {digits} without a comma."
    if re.fullmatch(r"[+-]?[0-9]{1,3},[0-9]{3}", shown):
        return f"Write {shown.replace(',', '.')} or {digits}, whichever is meant."
    if shown.count(",") == 1 and "." not in shown:
        return f"Write {shown.replace(',', '.')} if that is meant."
    return f"Write {digits} if that is meant."
