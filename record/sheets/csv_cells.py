"""One line of a comma-separated file → its cells, each with the column where it stands.

Quoting is that of RFC 4180: a cell in double quotes may hold the separator, and a quote twice is
one. A row is one line: a line break within a cell is a fault, so that each entry has its line.
Inches within a cell that does not begin with a quote are inches (7' 4-1/2").
"""

from __future__ import annotations

import re
from functools import cache

from record.sheets.lines import Piece

SEPARATORS = {",": "commas", ";": "semicolons", "\t": "tabs"}


class OpenQuote(Exception):
    """A quote with no end on its line, or with words behind its end; ``at`` is the place."""

    def __init__(self, at: Piece, closed: bool) -> None:
        super().__init__()
        self.at, self.closed = at, closed


def cells_of(line: str, number: int, separator: str) -> tuple[Piece, ...]:
    """Return the cells of a line, stripped, each at its own column. Raises OpenQuote.

    >>> [(cell.text, cell.column) for cell in cells_of('2 bend, "a, b" , 7', 1, ",")]
    [('2 bend', 1), ('a, b', 10), ('7', 18)]
    """
    found: list[Piece] = []
    at = 0
    while True:
        quoted = _quoted(separator).match(line, at)
        end = quoted.end() if quoted else line.find(separator, at)
        end = len(line) if end < 0 else end
        if quoted:
            inner = Piece(quoted[1].replace('""', '"'), number, quoted.start(1) + 1)
        else:
            inner = Piece(line[at:end], number, at + 1)
            _refuse_open_quote(line, inner.stripped())
        found.append(inner.stripped())
        if end >= len(line):
            return tuple(found)
        at = end + 1


@cache
def _quoted(separator: str) -> re.Pattern[str]:
    return re.compile(rf'[ ]*"((?:[^"]|"")*)"[ ]*(?={re.escape(separator)}|$)')


def _refuse_open_quote(line: str, cell: Piece) -> None:
    if cell.text.startswith('"'):
        closed = re.match(r'"(?:[^"]|"")*"', line[cell.column - 1 :]) is not None
        raise OpenQuote(cell, closed)


def ends_within_quotes(line: str, inside: bool) -> bool:
    """Return whether a quoted cell goes on past the end of a line."""
    return inside ^ (line.count('"') % 2 == 1)


def separator_of(line: str) -> tuple[str, ...]:
    """Return the separators that stand in a heading row outside quotes; a comma where none does.

    >>> separator_of('station;"x, east";y'), separator_of("station")
    ((';',), (',',))
    """
    bare = re.sub(r'"(?:[^"]|"")*"', "", line)
    return tuple(mark for mark in SEPARATORS if mark in bare) or (",",)
