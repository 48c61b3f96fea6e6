"""What is printed on a terminal narrower than the lines: a phone in a gloved hand.

Answers are set at about a hundred columns, for files and pipes always alike. A terminal of sixty
breaks such lines in the middle of words, and each leaves a short one after it. Here what was
wrapped is put together again and set anew, with its own indent.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

LEAST, MOST = 96, 104  # columns at which answers wrap their lines; each is somewhere between
DRAWN = re.compile(r"\||\+--")  # a drawing, or a sheet's own table: left as it is
# What is set in columns is put together with nothing; a word before its text is no column.
SHAPED = re.compile(r"\||\+--|^\s*(?![A-Z]{4,6} )\S.*? {3,}\S|^\s*[A-Z]{4,6} +\S.* {3,}\S")
BEGINS = re.compile(r"\s*(?:- |## |\[ \]|\d{4}-\d\d-\d\d )")  # what starts a line of its own


def narrow(lines: Iterable[str], columns: int) -> Iterator[str]:
    """Yield lines for a terminal of so many columns; drawings, and where all fit, as they are."""
    if columns >= MOST:
        yield from lines
        return
    for line, hang in _whole(lines):
        if len(line) <= columns or DRAWN.search(line):
            yield line
            continue
        from record.answers.saying import broken

        indent = " " * min(hang, columns // 4)
        yield from broken(line, columns, rest=indent, long_words=False) or [line]


def _whole(lines: Iterable[str]) -> Iterator[tuple[str, int]]:
    """Yield each line put together with those it was wrapped to, and how they were indented."""
    held, hang, last = "", 0, ""
    for line in lines:
        if held and _goes_on(held, last, line):
            held, hang, last = f"{held} {line.strip()}", _indent(line), line
            continue
        if last or held:
            yield held, hang
        held, hang, last = line, _indent(line) + 2, line
        if not line:
            yield "", 0
            held, last = "", ""
    if held:
        yield held, hang


def _goes_on(held: str, last: str, line: str) -> bool:
    """Return whether a line is the rest of the one before it, which had no room for its word."""
    word = (line.split() or [""])[0]
    full = len(last) + 1 + len(word) > LEAST and len(last) <= MOST
    if not (word and full) or SHAPED.search(last) or SHAPED.search(line) or BEGINS.match(line):
        return False
    if _indent(last) > _indent(held):
        return _indent(line) == _indent(last)
    plain = not _indent(held) + _indent(line) and word[0].islower()
    return plain or _indent(line) > _indent(held)


def _indent(line: str) -> int:
    return len(line) - len(line.lstrip(" "))
