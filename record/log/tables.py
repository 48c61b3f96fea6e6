"""The two tables of the log, and the rows that entries make in them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

import sqlalchemy as sa

from record.entry import Entry

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


#: On PostgreSQL every table carries the site, and is in parts by it.
OFFICE_CONTENTS = sa.Table(
    "contents",
    sa.MetaData(),
    sa.Column("site", sa.Text, primary_key=True),
    sa.Column("hash", sa.Text, primary_key=True),
    sa.Column("kind", sa.Text),
    sa.Column("about", sa.Text),
    sa.Column("line", sa.LargeBinary),
)


def office_pairs(site: str, *more: sa.ColumnElement[Any]) -> sa.Select[Any]:
    """Select the same of one site of many."""
    contents = OFFICE_CONTENTS
    both = LINKS.outerjoin(
        contents, sa.and_(LINKS.c.content == contents.c.hash, contents.c.site == site)
    )
    rows = sa.select(LINKS.c.hash, LINKS.c.line, contents.c.line, *more).select_from(both)
    return rows.where(LINKS.c.site == site)


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


def content_rows(entries: Iterable[Entry], *, site: bool = False) -> Iterator[dict[str, Any]]:
    for entry in entries:
        if entry.content is not None:
            yield {
                "hash": entry.link.content,
                "kind": entry.content.kind,
                "about": entry.content.about,
                "line": entry.content_line,
                **({"site": entry.link.site} if site else {}),
            }
