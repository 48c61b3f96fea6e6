"""Hints of a printed form: what stands between ``<!--`` and ``-->`` is skipped by every reader."""

from __future__ import annotations

from collections.abc import Sequence

OPEN, SHUT = "<!--", "-->"


def without_hints(lines: Sequence[str]) -> tuple[tuple[str, ...], int]:
    """
    Return the lines with blanks in place of hints, and the line (from 1) of one without an end.

    A hint may go on over many lines. Every other letter stays in its column; the number is 0
    where every hint ends.

    >>> without_hints(["- size: 6 in <!-- outside", "or inside --> "])
    (('- size: 6 in             ', '              '), 0)
    """
    plain: list[str] = []
    opened = 0
    for number, line in enumerate(lines, start=1):
        if not opened and OPEN not in line:
            plain.append(line)
            continue
        kept, at = "", 0
        while at < len(line):
            if opened:
                end = line.find(SHUT, at)
                stop = len(line) if end < 0 else end + len(SHUT)
                opened = opened if end < 0 else 0
                kept += " " * (stop - at)
            else:
                start = line.find(OPEN, at)
                stop = len(line) if start < 0 else start
                opened = 0 if start < 0 else number
                kept += line[at:stop]
                if opened:  # past the opening, or "<!-->" would open and shut at once
                    kept += " " * len(OPEN)
                    stop += len(OPEN)
            at = stop
        plain.append(kept)
    return tuple(plain), opened
