"""A fault of a day sheet: where, what, the crew's own line, and what to write instead."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True, order=True)
class SheetFault:
    """
    One fault. ``line`` and ``column`` count from 1, in code points; 0 is the sheet as a whole.
    """

    line: int
    column: int
    problem: str
    remedy: str
    text: str = ""  # the crew's own line
    length: int = 1
    sheet: str = ""


class SheetRejected(Exception):
    """A sheet goes in whole or not at all; these are all its faults."""

    def __init__(self, faults: Iterable[SheetFault]) -> None:
        self.faults = tuple(sorted(faults))
        super().__init__(f"{len(self.faults)} faults")


def _cells(text: str) -> int:
    """How many columns of a terminal ``text`` takes."""
    wide = sum(1 for letter in text if unicodedata.east_asian_width(letter) in "WF")
    none = sum(1 for letter in text if unicodedata.combining(letter))
    return len(text) + wide - none


def in_words(fault: SheetFault) -> str:
    """Return a fault as it is printed: place, what, the line with a caret row, the remedy."""
    if not fault.line:
        return f"{fault.sheet}: {fault.problem}\n{fault.remedy}"
    shown = fault.text.replace("\t", " ")
    number = str(fault.line)
    margin = " " * len(number)
    before = _cells(shown[: fault.column - 1])
    carets = "^" * max(1, _cells(shown[fault.column - 1 : fault.column - 1 + fault.length]))
    return (
        f"{fault.sheet}:{fault.line}:{fault.column}: {fault.problem}\n"
        f"{margin} |\n"
        f"{number} | {shown}\n"
        f"{margin} | {' ' * before}{carets}\n"
        f"{fault.remedy}"
    )
