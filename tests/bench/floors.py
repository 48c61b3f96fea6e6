"""The floors: the least that each thing could cost on this machine, in this run."""

from __future__ import annotations

import hashlib
import json
import sqlite3
from collections.abc import Sequence
from datetime import datetime
from decimal import Decimal
from pathlib import Path
from typing import Any

import msgspec

from record.entry import Entry

#: A whole process that imports the command line's and the database's libraries, and asks once.
QUESTION = """
import sys
import typer
import sqlalchemy as sa

app = typer.Typer()

@app.command()
def ask(path: str) -> None:
    engine = sa.create_engine(f"sqlite:///{path}")
    with engine.connect() as connection:
        lines = sa.table("contents", sa.column("line"), sa.column("about"))
        rows = connection.execute(sa.select(lines.c.line)).all()
    print(len(rows))

app()
"""

#: The same, and reads one entry of however many there are.
ONE = QUESTION.replace("sa.select(lines.c.line)", "sa.select(lines.c.line).limit(1)")

#: A whole process that imports the command line's library and one calculation, works it on numbers
#: in SI units and prints one line: no reading of units, no help, no source, no caution.
RECKON = """
import decimal, fractions, re
import typer

app = typer.Typer()

@app.command()
def work(name: str) -> None:
    if name == "heap":
        from record.calc.sand_heap import wedge
        print(wedge(1.519, 2.7, 34.0))
    else:
        from record.calc.air_run import Length, air_at, run_drop
        one = Length(name="a", length_m=15.2, diameter_m=0.152, roughness_m=4.572e-5,
                     coefficients=(0.8,))
        print(run_drop([one], 100 / 3600, air_at(1180, 10)).total_pa)

app()
"""


def bodies(entries: Sequence[Entry]) -> list[tuple[dict[str, Any], dict[str, Any]]]:
    """Return what the floor encodes: the same links and contents, as plain values."""
    return [
        (json.loads(entry.link_line), json.loads(entry.content_line or b"{}")) for entry in entries
    ]


def read_and_write(
    text: str, pairs: Sequence[tuple[dict[str, Any], dict[str, Any]]], path: Path
) -> None:
    """Read the sheet as Markdown with the library alone, and write its entries."""
    from markdown_it import MarkdownIt

    MarkdownIt("commonmark").enable("table").disable(["inline", "reference"]).parse(text)
    write(pairs, path)


def write(pairs: Sequence[tuple[dict[str, Any], dict[str, Any]]], path: Path) -> None:
    """Encode, hash and insert in one go, with sqlite3 alone: no reading, asking or folding."""
    path.unlink(missing_ok=True)
    connection = sqlite3.connect(path, isolation_level=None)
    connection.execute("PRAGMA journal_mode = WAL")
    connection.execute("PRAGMA synchronous = FULL")
    connection.execute("CREATE TABLE links (hash TEXT PRIMARY KEY, line BLOB)")
    connection.execute("CREATE TABLE contents (hash TEXT PRIMARY KEY, line BLOB)")
    connection.execute("BEGIN IMMEDIATE")
    for table, place in (("contents", 1), ("links", 0)):
        rows = []
        for pair in pairs:
            line = (json.dumps(pair[place], ensure_ascii=False) + "\n").encode()
            rows.append((hashlib.sha256(line).hexdigest(), line))
        connection.executemany(f"INSERT INTO {table} VALUES (?, ?)", rows)
    connection.execute("COMMIT")
    connection.close()


class Measured(msgspec.Struct, frozen=True, gc=False, omit_defaults=True):
    """A value as an object: every field that a measured or absent value may have, typed."""

    text: str = ""
    si: Decimal | None = None
    unit: str = ""
    tol: Decimal | None = None
    part: str | None = None
    estimated: bool = False
    absent: str | None = None
    reason: str = ""


class LinkLine(msgspec.Struct, frozen=True, gc=False):
    site: str
    writer: str
    seq: int
    recorded: str
    content: str
    prev: str | None


class MendLine(msgspec.Struct, frozen=True, gc=False):
    entry: str
    number: str
    fields: tuple[str, ...]


class ContentLine(msgspec.Struct, frozen=True, gc=False):
    salt: str
    kind: str
    v: int
    about: str
    on: str
    at: str | None
    zone: str | None
    did: str | None
    saw: str | None
    by: str | None
    readers: tuple[str, ...]
    seen: dict[str, str]
    body: dict[str, Measured | str | bool | int | tuple[str, ...]]
    replaces: tuple[MendLine, ...]
    because: str | None
    source: dict[str, str | int] | None = msgspec.field(name="from")


_link, _content = msgspec.json.Decoder(LinkLine), msgspec.json.Decoder(ContentLine)


def decode(pairs: Sequence[tuple[str, bytes, bytes]]) -> list[tuple[LinkLine, ContentLine]]:
    """
    Decode lines into typed, frozen values, and nothing else.

    Every field of both lines, as an entry has them, and each measured number with its decimals.
    Nothing is checked, hashed, shared between entries or held together by what it is about.
    """
    return [(_link.decode(link), _content.decode(content)) for _, link, content in pairs]


def weasyprint_alone(page: str, stamp: datetime) -> bytes:
    """Lay out and write the same page, with the same style, and nothing else."""
    from weasyprint import CSS, HTML  # type: ignore[import-untyped]
    from weasyprint.text.fonts import FontConfiguration  # type: ignore[import-untyped]

    from manual import theme

    fonts = FontConfiguration()
    style = CSS(string=f"{theme.font_rules()}\n{theme.stylesheet()}", font_config=fonts)
    document = HTML(string=page).render(font_config=fonts, stylesheets=[style])
    return bytes(document.write_pdf(pdf_variant="pdf/ua-1"))
