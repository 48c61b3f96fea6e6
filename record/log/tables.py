"""The two tables of the log, and the rows that entries make in them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

import sqlalchemy as sa

from record.entry import Entry

REVISION = "0001"  # the newest migration this version reads; a test holds the two together

_tables = sa.MetaData()
LINKS = sa.Table(
    "links",
    _tables,
    sa.Column("hash", sa.String(64), primary_key=True),
    sa.Column("site", sa.Text),
    sa.Column("writer", sa.Text),
    sa.Column("seq", sa.Integer),
    sa.Column("content", sa.String(64)),
    sa.Column("received", sa.Text),
    sa.Column("line", sa.LargeBinary),
)
CONTENTS = sa.Table(
    "contents",
    _tables,
    sa.Column("hash", sa.String(64), primary_key=True),
    sa.Column("kind", sa.Text),
    sa.Column("about", sa.Text),
    sa.Column("line", sa.LargeBinary),
)


def pairs(*more: sa.ColumnElement[Any]) -> sa.Select[Any]:
    """Select stored hash, link line and content line, and ``more``."""
    # SQLite keeps whatever type it is given; the cast makes words of a vandal bytes again.
    lines = (sa.cast(LINKS.c.line, sa.LargeBinary), sa.cast(CONTENTS.c.line, sa.LargeBinary))
    both = LINKS.outerjoin(CONTENTS, LINKS.c.content == CONTENTS.c.hash)
    return sa.select(LINKS.c.hash, *lines, *more).select_from(both)


def link_rows(entries: Iterable[Entry], received: str) -> Iterator[dict[str, Any]]:
    for entry in entries:
        yield {
            "hash": entry.hash,
            "site": entry.link.site,
            "writer": entry.link.writer,
            "seq": entry.link.seq,
            "content": entry.link.content,
            "received": received,
            "line": entry.link_line,
        }


def content_rows(entries: Iterable[Entry]) -> Iterator[dict[str, Any]]:
    for entry in entries:
        if entry.content is not None:
            yield {
                "hash": entry.link.content,
                "kind": entry.content.kind,
                "about": entry.content.about,
                "line": entry.content_line,
            }
