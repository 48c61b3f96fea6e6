"""A form → the day sheet's own grammar, laid out to be filled on paper or in an editor."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence
from itertools import groupby

from record.blank.form import Ask, Block, Form, Row
from record.facts import Kind
from record.facts.fields import Field
from record.facts.sizes import Measure
from record.units import Dimension

WIDTH = 98  # what an upright page takes in a plain typeface
GAP = "_" * 24
CELL = 8  # letters that a gap of a table has at least, where the page is wide enough
LEAST = "____"
HEAD_SAYS = {
    "site": "the tag that this site goes by, such as larch-end",
    "zone": "the time zone there, such as America/Denver",
}

HOW = (
    "Fill each gap (____) with what was seen or measured, or write not recorded, none, or n/a and "
    "the reason. Take out each line and row that you have nothing for, but none that says needed; "
    "a gap that stays is refused. "
    "What stands between these marks is only to be read: it is not recorded."
)


def write(form: Form) -> str:
    """Return the form as a day sheet. What the record knows stands in it as hints only."""
    head = " ".join(filter(None, ("#", form.day, form.writer or LEAST, form.part)))
    lines = [head, "", *_head("site", form.site), *_head("zone", form.zone), ""]
    for note in (*form.notes, HOW):
        lines += _hint(note)
    for block in form.blocks:
        lines += ["", *_block(block)]
    return "\n".join(lines) + "\n"


def _head(key: str, said: str) -> Iterator[str]:
    yield f"- {key}: {said or f'{LEAST} <!-- {HEAD_SAYS[key]} -->'}"


def _block(block: Block) -> Iterator[str]:
    if block.kind is None:
        for note in block.notes:
            yield from _hint(note)
        return
    yield f"## {block.kind.word} {block.tag or LEAST}"
    yield ""
    for note in block.notes:
        yield from _hint(note)
    if block.notes and block.asks:
        yield ""
    for ask in block.asks:
        yield from _line(block.kind, ask)
    if block.asks and (block.rows or block.photos):
        yield ""
    tables = [list(rows) for _, rows in groupby(_sorted(block.rows), key=_keys)]
    yield from _parted([[*_table(block.kind, rows)] for rows in tables])
    if block.rows and block.photos:
        yield ""
    yield from _parted([[f"![{_plain(one)}]({LEAST})"] for one in block.photos])


def _parted(pieces: Sequence[Sequence[str]]) -> Iterator[str]:
    for place, piece in enumerate(pieces):
        yield from ([""] if place else [])
        yield from piece


def _keys(row: Row) -> tuple[str, ...]:
    return tuple(ask.key for ask in row)


def _sorted(rows: Sequence[Row]) -> list[Row]:
    """Return the rows with those of the same columns together, in the order they first stand."""
    order = list(dict.fromkeys(_keys(row) for row in rows))
    return sorted(rows, key=lambda row: order.index(_keys(row)))


def _line(kind: Kind, ask: Ask) -> Iterator[str]:
    if ask.known:
        yield from _hint(f"{ask.key}: {ask.known}")
        return
    line = f"- {ask.key}: {_plain(ask.said) or GAP}"
    hint = ask.hint or ("" if ask.said else says(kind.field(ask.key)))
    if ask.needed:
        hint = f"needed; {hint}" if hint else "needed"
    whole = f"{line} <!-- {_plain(hint)} -->"
    if not hint or len(whole) <= WIDTH:
        yield whole if hint else line
    else:
        yield from _hint(f"{ask.key}: {hint}")
        yield line


def says(field: Field | None) -> str:
    """Return what a field takes, as its fault would say it; nothing where that is any words."""
    if field is None or field.holds.says == "words":
        return ""
    if isinstance(field.holds, Measure) and field.holds.dimension is Dimension.LENGTH:
        return "with its unit"
    return field.holds.says


def _hint(note: str) -> Iterator[str]:
    return iter(
        textwrap.wrap(
            f"<!-- {_plain(note)} -->",
            WIDTH,
            subsequent_indent="     ",
            break_long_words=False,
            break_on_hyphens=False,
        )
    )


def _table(kind: Kind, rows: Sequence[Row]) -> Iterator[str]:
    row_kind = kind.rows or kind
    keys = _keys(rows[0])
    said = [[row[place].said for row in rows] for place in range(len(keys))]
    widths = [_width(CELL, key, cells) for key, cells in zip(keys, said, strict=True)]
    if sum(widths) + 3 * len(widths) + 1 > WIDTH:
        widths = [_width(len(LEAST), key, cells) for key, cells in zip(keys, said, strict=True)]
    for ask in rows[0]:
        if ask.hint or ((told := says(row_kind.field(ask.key))) and told != "with its unit"):
            yield from _hint(f"{ask.key}: {ask.hint or told}")
    yield _cells([key.ljust(width) for key, width in zip(keys, widths, strict=True)])
    yield "|" + "|".join("-" * (width + 2) for width in widths) + "|"
    for row in rows:
        yield _cells(
            [
                _cell(ask.said).ljust(w) if ask.said else "_" * w
                for ask, w in zip(row, widths, strict=True)
            ]
        )


def _cells(cells: Sequence[str]) -> str:
    return f"| {' | '.join(cells)} |"


def _width(least: int, key: str, said: Sequence[str]) -> int:
    return max(least, len(key), *(len(_cell(one)) for one in said))


def _cell(said: str) -> str:
    return _plain(said).replace("|", "\\|")


def _plain(words: str) -> str:
    """Return words on one line, with nothing in them that would begin or end a hint."""
    return " ".join(words.split()).replace("-->", "->").replace("<!--", "<--")
