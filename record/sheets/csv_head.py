"""What a comma-separated file is of: the head above its headings, or what is told from outside."""

from __future__ import annotations

import re
from dataclasses import dataclass

from record.sheets.blocks import RawBlock, RawField
from record.sheets.faults import SheetFault
from record.sheets.headings import read_heading
from record.sheets.lines import Piece, SheetText
from record.sheets.read import read_head

HEAD = re.compile(r"\s*$|#{1,6}\s|- |\s+\S|<!--")
WHAT_IT_IS = (
    'Put "# ", the day and the writer, "- site: " and "## run AIR-IN" above the headings; or give '
    "--day, --writer and --about."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """What is said of a file from outside: the head of a bare export, and how to read it."""

    day: str = ""
    writer: str = ""
    about: str = ""
    part: str = ""
    site: str = ""
    zone: str = ""
    leave_out: tuple[str, ...] = ()
    decimal_comma: bool = False


def heading_row(text: SheetText) -> int:
    """Return which line (from 0) the headings stand on: the first that no head could hold."""
    lines = enumerate(text.plain)
    return next((n for n, line in lines if not HEAD.match(line)), len(text.lines))


def with_told(
    text: SheetText, raw: list[RawBlock], told: Told, first: int, faults: list[SheetFault]
) -> list[RawBlock]:
    """Return the blocks of the head, from the file or from what is told; never of both."""
    at = Piece(text.lines[min(first, len(text.lines) - 1)], min(first + 1, len(text.lines)), 1)
    if first >= len(text.lines):
        faults.append(text.fault(at, "there is no row of headings", "Write one, then the rows."))
        return raw
    if raw and told.day:
        says = "the file says its day and writer itself"
        faults.append(text.fault(raw[0].heading, says, "Leave --day, --writer and --about out."))
    if raw or not told.day:
        if not any(block.level == 2 for block in raw):
            faults.append(text.fault(at, "nothing says what this table is of", WHAT_IT_IS))
            return []
        return raw
    return _bare_head(told, at.line)


def _bare_head(told: Told, line: int) -> list[RawBlock]:
    """Return the head of a bare export; it stands nowhere in the file, so at its first row."""

    def piece(words: str) -> Piece:
        return Piece(words, line, 1)

    head = " ".join(filter(None, (told.day, told.writer, told.part)))
    fields = [("site", told.site), ("zone", told.zone)]
    items = [RawField(piece(key), piece(said), (line,)) for key, said in fields if said]
    return [RawBlock(piece(head), 1, [*items]), RawBlock(piece(told.about), 2)]


def told_faults(told: Told) -> list[SheetFault]:
    """Return what is wrong with what is told from outside, shown as it was given."""
    faults: list[SheetFault] = []
    head = Piece(" ".join(filter(None, (told.day, told.writer, told.part))), 1, 1)
    read_head(SheetText("--day, --writer, --part", b"", (head.text,)), head, faults)
    about = Piece(told.about, 1, 1)
    read_heading(SheetText("--about", b"", (told.about,)), about, told.site, faults)
    return faults
