"""A form to fill in, as values: its blocks, and what each asks."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from record.facts import Kind, Sort


@dataclass(frozen=True, slots=True, kw_only=True)
class Ask:
    """
    One thing a form asks: a key with a gap to fill.

    ``said`` is printed in place of the gap, where it is part of what is asked (the run a new
    drain serves). ``known`` is what the record holds: it is printed as a hint, so that it is
    read and not stated a second time. Without an answer to what is ``needed`` the sheet is
    refused.
    """

    key: str
    hint: str = ""
    said: str = ""
    known: str = ""
    needed: bool = False


Row = tuple[Ask, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """
    One block of a form. Without a ``kind`` it is notes alone; without a ``tag`` that is a gap.

    ``rows`` are rows of its table, each a cell for every column it asks; rows with the same
    columns make one table. ``photos`` are captions. ``notes`` are hints above the block.
    """

    kind: Kind | None = None
    tag: str = ""
    notes: tuple[str, ...] = ()
    asks: tuple[Ask, ...] = ()
    rows: tuple[Row, ...] = ()
    photos: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Form:
    """A day sheet to fill in: its head (what is empty is a gap), what it is for, its blocks."""

    day: str
    writer: str
    part: str
    site: str
    zone: str
    notes: tuple[str, ...]
    blocks: tuple[Block, ...]


def gaps(*keys: str) -> tuple[Ask, ...]:
    """Return a gap for each key."""
    return tuple(Ask(key=key) for key in keys)


def merged(blocks: Iterable[Block]) -> tuple[Block, ...]:
    """
    Return the blocks with those of one thing made one, in the order they first stand.

    Mends stay apart, and so do happenings that are not the same to the letter: each is an
    entry of its own.
    """
    found: dict[object, Block] = {}
    for block in blocks:
        key = _same(block)
        first = found.get(key)
        found[key] = block if first is None else _both(first, block)
    return tuple(found.values())


def _same(block: Block) -> object:
    together = block.kind is not None and (
        block.kind.sort is Sort.THING or block.kind.word == "remark"
    )
    if together and block.tag and not any(ask.key == "mends" for ask in block.asks):
        return (block.kind, block.tag)
    return replace(block, notes=()) if block.kind else block


def _both(one: Block, other: Block) -> Block:
    return replace(
        one,
        notes=tuple(dict.fromkeys((*one.notes, *other.notes))),
        asks=_once((*one.asks, *other.asks)),
        rows=_rows((*one.rows, *other.rows)),
        photos=tuple(dict.fromkeys((*one.photos, *other.photos))),
    )


def _once(asks: Iterable[Ask]) -> tuple[Ask, ...]:
    found: dict[str, Ask] = {}
    for ask in asks:
        found.setdefault(ask.key, ask)
    return tuple(found.values())


def _rows(rows: Iterable[Row]) -> tuple[Row, ...]:
    """Return the rows with those that name the same part made one."""
    found: dict[object, Row] = {}
    for place, row in enumerate(rows):
        key = row[0].said or place
        found[key] = _once((*found.get(key, ()), *row))
    return tuple(found.values())
