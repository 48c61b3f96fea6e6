"""The bytes of a sheet → its lines, each with the places of what stands in it."""

from __future__ import annotations

import re
from dataclasses import dataclass

from record.sheets.faults import SheetFault
from record.sheets.hints import without_hints

# Bytes; a larger file is not a day sheet. Words may stand twice in an entry, each escaped to
# twice its length, and an entry must stay under record.entry.LONGEST_LINE.
LARGEST = 200_000
CONTROL = re.compile(r"[\x00-\x08\x0a-\x1f\x7f-\x9f]")  # Unicode's category Cc, less the tab
BAR = re.compile(r"(?<!\\)\|")


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece of one line: its text, and where it starts (both from 1)."""

    text: str
    line: int
    column: int

    def stripped(self) -> Piece:
        left = len(self.text) - len(self.text.lstrip())
        return Piece(self.text.strip(), self.line, self.column + left)


@dataclass(frozen=True, slots=True)
class SheetText:
    """
    A sheet's name, its exact bytes, and its lines without their ends.

    ``plain`` are the lines with blanks where the hints of a form stand: what is read. A hint
    that begins on line ``open_hint`` has no end; 0 is none.
    """

    name: str
    data: bytes
    lines: tuple[str, ...]
    plain: tuple[str, ...] = ()
    open_hint: int = 0

    def fault(self, at: Piece, problem: str, remedy: str) -> SheetFault:
        return SheetFault(
            at.line,
            at.column,
            problem,
            remedy,
            self.lines[at.line - 1],
            max(1, len(at.text)),
            self.name,
        )


def take(name: str, data: bytes, largest: int = LARGEST) -> SheetText | SheetFault:
    """Return the lines of a sheet's bytes, or the one fault that keeps it from being read."""
    if len(data) > largest:
        return SheetFault(0, 0, f"it is larger than {largest} bytes", "Is it a sheet?", sheet=name)
    if data[:2] in (b"\xff\xfe", b"\xfe\xff") or 0 in data[:2]:
        remedy = 'Save it as "UTF-8" (in a spreadsheet: "CSV UTF-8"), then post it again.'
        return SheetFault(0, 0, "the file is UTF-16, and not UTF-8", remedy, sheet=name)
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as fault:
        line = data.count(b"\n", 0, fault.start) + 1
        own = data.split(b"\n")[line - 1].decode("utf-8", errors="replace")
        column = fault.start - (data.rfind(b"\n", 0, fault.start) + 1) + 1
        return SheetFault(
            line,
            min(column, len(own) + 1),
            f"the file is not UTF-8 (byte {fault.start + 1})",
            'Save it as "UTF-8" in the editor, then post it again.',
            own.rstrip("\r"),
            sheet=name,
        )
    lines = tuple(re.split(r"\r\n|\n|\r", text))
    if not text.strip():
        return SheetFault(
            0, 0, "the sheet is empty", 'Start with "# ", the day and the writer.', sheet=name
        )
    for number, own_line in enumerate(lines, start=1):
        if found := CONTROL.search(own_line):
            return SheetFault(
                number,
                found.start() + 1,
                f"a control character (U+{ord(found[0]):04X}) stands here",
                "Take it out; nothing that cannot be seen is recorded.",
                "".join(c if c == "\t" or c.isprintable() else "�" for c in own_line),
                sheet=name,
            )
    return SheetText(name, data, lines, *without_hints(lines))


def cells(line: str, number: int) -> tuple[Piece, ...]:
    """Split a table row at its bars; ``\\|`` is a bar within a cell. Outer bars may be left out."""
    found: list[Piece] = []
    start = 0
    for end in (*(bar.start() for bar in BAR.finditer(line)), len(line)):
        cell = line[start:end]
        left = len(cell) - len(cell.lstrip())
        found.append(Piece(cell.strip(), number, start + 1 + left))
        start = end + 1
    if found and line.lstrip().startswith("|"):
        found = found[1:]
    if found and not found[-1].text and line.rstrip().endswith("|"):
        found = found[:-1]
    if "\\|" not in line:
        return tuple(found)
    return tuple(Piece(cell.text.replace("\\|", "|"), cell.line, cell.column) for cell in found)
