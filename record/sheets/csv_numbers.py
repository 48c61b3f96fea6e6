"""Is a comma within a number its decimal point? Told from the whole file, never from one cell."""

from __future__ import annotations

import re
from collections.abc import Iterable

_NUMBER = re.compile(r"[0-9]*(?:[.,][0-9]+)+")
_COMMA = re.compile(r"(?<=[0-9]),(?=[0-9])|,(?=[0-9])")


def decimal_commas(cells: Iterable[str]) -> bool:
    """
    Return whether every comma in these measured cells is surely a decimal point.

    It is where some comma cannot part thousands (27,0 or 0,125 or 4820,006) and none surely
    does (1,234,567), and where no number has a point.

    >>> decimal_commas(["48,006", "27,0"]), decimal_commas(["48,006"])
    (True, False)
    >>> decimal_commas(["27,0", "48.006"]), decimal_commas(["27,0", "1,234,567"])
    (False, False)
    """
    sure = False
    for cell in cells:
        for number in _NUMBER.findall(cell):
            if "." in number or number.count(",") > 1:
                return False
            before, _, after = number.partition(",")
            sure = sure or len(after) != 3 or before in ("", "0") or len(before) > 3
    return sure


def with_points(cell: str) -> str:
    """Return a measured cell with decimal points; every letter stays in its column."""
    return _COMMA.sub(".", cell)
