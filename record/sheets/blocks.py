"""Lines of a sheet → its blocks: headings, fields, tables, pictures, remarks.

markdown-it-py says where each block begins and ends (CommonMark with tables); what stands in a
block is read from the raw lines, because the parser pads and drops table cells in silence and
knows no columns.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cache
from typing import TYPE_CHECKING

from record.sheets.faults import SheetFault
from record.sheets.lines import Piece, SheetText, cells

if TYPE_CHECKING:
    from markdown_it import MarkdownIt


BEFORE = "this stands before the sheet's first heading"


@dataclass(frozen=True, slots=True)
class RawField:
    key: Piece
    value: Piece
    lines: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class RawTable:
    head: tuple[Piece, ...]
    rows: tuple[tuple[Piece, ...], ...]
    otherwise: str = ""  # what else may be done about a column that the kind does not know


@dataclass(frozen=True, slots=True)
class RawPhoto:
    caption: Piece
    file: Piece


@dataclass(frozen=True, slots=True)
class RawRemark:
    text: str
    at: Piece
    lines: tuple[int, ...]


Item = RawField | RawTable | RawPhoto | RawRemark


@dataclass(slots=True)
class RawBlock:
    """A heading and what stands under it, in order."""

    heading: Piece
    level: int
    items: list[Item] = field(default_factory=list)


@cache
def _parser() -> MarkdownIt:
    from markdown_it import MarkdownIt

    # Only the block structure is asked for; inline text is read from the raw lines. A link
    # reference, "[S-1]: drums", would be taken out in silence.
    return MarkdownIt("commonmark").enable("table").disable(["inline", "reference"])


# A phone names files "IMG 2041.jpg" and "PXL (1).jpg"; both stand here as they are, or in <>.
IMAGE = re.compile(
    r"!\[(?P<caption>[^\]]{0,2000})\]"
    r"\((?:<(?P<whole>[^<>]{1,400})>|(?P<file>(?:[^()<>]|\([^()]{0,400}\)){1,400}))\)\s*"
)
CLOSED_UP = re.compile(r"\s{0,3}#{2,6}(?=[^#\s])")  # no heading in Markdown: it would be a remark
RULE = re.compile(r"^[\s>]*\|?\s*:?-+:?\s*(\|\s*:?-+:?\s*)*\|?\s*$")
BULLET = re.compile(r"^\s{0,3}[-*+]\s+")
STARTS = re.compile(r"\s*([-*+]\s|\||#|!\[|>)")  # what a line of its own starts with


def blocks(sheet: SheetText) -> tuple[list[RawBlock], list[SheetFault]]:
    """Return the blocks of a sheet, and every fault of its form."""
    found: list[RawBlock] = []
    faults: list[SheetFault] = []
    for kind, start, end in _outline(sheet):
        lines = [(n + 1, sheet.plain[n]) for n in range(start, end) if sheet.plain[n].strip()]
        if not lines:
            continue
        if kind == "heading_open" and lines[0][1].lstrip().startswith("#"):
            found.append(_heading(lines[0]))
            continue
        read = _READERS.get(kind, _remark)
        items = list(read(sheet, lines, faults))
        if found:
            found[-1].items.extend(items)
        elif items:
            at = Piece(lines[0][1], lines[0][0], 1)
            remedy = 'Start the sheet with "# ", the day and the writer, such as "# 2031-05-14 ld".'
            faults.append(sheet.fault(at, BEFORE, remedy))
    return found, faults


def _outline(sheet: SheetText) -> Iterator[tuple[str, int, int]]:
    for token in _parser().parse("\n".join(sheet.plain)):
        if token.level == 0 and token.map and token.nesting >= 0 and token.type != "hr":
            yield token.type, token.map[0], token.map[1]


def _heading(line: tuple[int, str]) -> RawBlock:
    number, text = line
    hashes = len(text.lstrip()) - len(text.lstrip().lstrip("#"))
    start = text.index("#") + hashes
    return RawBlock(Piece(text[start:].rstrip("# "), number, start + 1).stripped(), hashes)


def _fields(
    sheet: SheetText, lines: list[tuple[int, str]], faults: list[SheetFault]
) -> Iterator[Item]:
    grouped: list[list[tuple[int, str]]] = []
    for number, text in lines:
        if BULLET.match(text) or not grouped:
            grouped.append([(number, text)])
        else:
            grouped[-1].append((number, text))
    for group in grouped:
        number, text = group[0]
        mark = BULLET.match(text)
        start = mark.end() if mark else 0
        colon = text.find(":", start)
        if colon < 0:
            faults.append(
                sheet.fault(
                    Piece(text[start:], number, start + 1),
                    'a line that starts with "- " is a field, and this has no ":"',
                    'Write "- key: value", or take the "- " away to make it a remark.',
                )
            )
            continue
        faults.extend(_swallowed(sheet, group[1:]))
        value = Piece(text[colon + 1 :], number, colon + 2).stripped()
        more = " ".join(rest.strip() for _, rest in group[1:])
        yield RawField(
            Piece(text[start:colon], number, start + 1).stripped(),
            Piece(f"{value.text} {more}".strip(), number, value.column) if more else value,
            tuple(n for n, _ in group),
        )


def _swallowed(sheet: SheetText, lines: list[tuple[int, str]]) -> Iterator[SheetFault]:
    """Yield a fault for every line that Markdown adds to the field above and no reader would."""
    for number, text in lines:
        if not text[:1].isspace() or STARTS.match(text):
            yield sheet.fault(
                Piece(text, number, 1).stripped(),
                "this line would be read as part of the field above it",
                "Leave an empty line before it, and start a field at the beginning of its line; "
                "a long value goes on after spaces.",
            )


def _table(
    sheet: SheetText, lines: list[tuple[int, str]], faults: list[SheetFault]
) -> Iterator[Item]:
    head = cells(lines[0][1], lines[0][0])
    rows = []
    for number, text in lines[2:]:
        row = cells(text, number)
        whole = Piece(text, number, 1)
        if "|" not in text:
            faults.append(
                sheet.fault(
                    whole,
                    "this line would be read as a row of the table above it",
                    "Leave an empty line between a table and what follows.",
                )
            )
        elif len(row) != len(head):
            faults.append(
                sheet.fault(
                    whole,
                    f"the row has {len(row)} cells, and the table has {len(head)} columns",
                    'Give every column a cell; write "not recorded" or "none" where it holds.',
                )
            )
        else:
            rows.append(row)
    if head:
        yield RawTable(head, tuple(rows))


def _paragraph(
    sheet: SheetText, lines: list[tuple[int, str]], faults: list[SheetFault]
) -> Iterator[Item]:
    first = lines[0][1].lstrip()
    if first.startswith("|"):
        rule = lines[1] if len(lines) > 1 else lines[0]
        faults.append(
            sheet.fault(
                Piece(rule[1], rule[0], 1),
                "this begins like a table, but its second line is not a rule of the same width",
                'Under the headings write one "|---" for every column, then "|".',
            )
        )
        return
    if first.startswith("!["):
        for number, text in lines:
            yield from _pictures(sheet, number, text, faults)
        return
    for number, text in lines:
        if image := IMAGE.search(text):
            faults.append(
                sheet.fault(
                    Piece(image[0].rstrip(), number, image.start() + 1),
                    "a picture among words would be kept as words",
                    "Give it a line of its own, with an empty line before it.",
                )
            )
    yield from _remark(sheet, lines, faults)


def _pictures(
    sheet: SheetText, number: int, text: str, faults: list[SheetFault]
) -> Iterator[RawPhoto]:
    at = len(text) - len(text.lstrip())
    while at < len(text.rstrip()):
        image = IMAGE.match(text, at)
        if not image:
            faults.append(
                sheet.fault(
                    Piece(text[at:], number, at + 1),
                    "this is not a picture",
                    'Write "![what it shows](file.jpg)", one to a line.',
                )
            )
            return
        name = "whole" if image["whole"] else "file"
        yield RawPhoto(
            Piece(image["caption"], number, image.start("caption") + 1).stripped(),
            Piece(image[name], number, image.start(name) + 1).stripped(),
        )
        at = image.end()


def _remark(
    sheet: SheetText, lines: list[tuple[int, str]], faults: list[SheetFault]
) -> Iterator[RawRemark]:
    for rule, line in lines[1:]:
        if "|" in line and RULE.match(line):
            faults.append(
                sheet.fault(
                    Piece(line, rule, 1).stripped(),
                    "this looks like a table and would be kept as a remark",
                    'Start its lines with "|", and give headings and rule the same columns.',
                )
            )
    for at, line in lines:
        if CLOSED_UP.match(line):
            faults.append(
                sheet.fault(
                    Piece(line, at, 1).stripped(),
                    "this looks like a heading and would be kept as a remark",
                    'Put a space after the "##".',
                )
            )
    text = " ".join(re.sub(r"^\s*>?\s?", "", line).strip() for _, line in lines)
    number, first = lines[0]
    start = len(first) - len(first.lstrip(" >"))
    yield RawRemark(text, Piece(first[start:], number, start + 1), tuple(n for n, _ in lines))


_READERS = {
    "bullet_list_open": _fields,
    "table_open": _table,
    "paragraph_open": _paragraph,
    "heading_open": _remark,  # text underlined with --- or ===
}
