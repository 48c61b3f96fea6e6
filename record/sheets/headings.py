"""What a block's heading names: a kind of fact, and the tag of a thing."""

from __future__ import annotations

import re
from difflib import get_close_matches

from record.facts import KINDS, Kind
from record.facts.named import TAG
from record.sheets.faults import SheetFault
from record.sheets.gaps import has_gap
from record.sheets.lines import Piece, SheetText
from record.sheets.trade_words import told


def said_key(key: Piece) -> str:
    """Return a key as it is declared, whatever its case and spaces."""
    return re.sub(r"\s+", " ", key.text).casefold().replace("’", "'")


def find_kind(heading: Piece) -> tuple[Kind | None, Piece]:
    """Return the kind that a heading starts with, and what stands after it."""
    words = re.split(r"\s+", heading.text)
    for count in range(min(3, len(words)), 0, -1):
        kind = KINDS.get(" ".join(words[:count]).casefold())
        if kind:
            rest = heading.text
            for word in words[:count]:
                rest = rest[rest.index(word) + len(word) :]
            start = heading.column + len(heading.text) - len(rest)
            return kind, Piece(rest, heading.line, start).stripped()
    return None, heading


def read_heading(
    text: SheetText, heading: Piece, site: str, faults: list[SheetFault]
) -> tuple[Kind, str] | None:
    """Return the kind and tag of a block, or None with the fault added."""
    kind, tag = find_kind(heading)
    if kind is not None and has_gap(tag.text):
        return kind, site  # which stands in for it while the block's other faults are told
    if kind is None or kind.key:
        faults.append(_unknown(text, heading))
        return None
    if not tag.text:
        if kind.tagless or kind.word == "site":  # a sheet is of one site, and names it above
            return kind, site
        faults.append(
            text.fault(
                heading,
                f'"{kind.word}" needs the tag of the thing it is about',
                f'Write "## {kind.word} TAG".',
            )
        )
        return None
    if not TAG.fullmatch(tag.text):
        called = told(" ".join(heading.text.split()[:2]))
        faults.append(
            text.fault(
                tag,
                f'"{tag.text}" is not a tag',
                called or "A tag is letters, digits and dots joined by hyphens, such as AIR-IN.",
            )
        )
        return None
    return kind, tag.text


def nearest_kind(words: list[str]) -> str:
    """Return what to write for words that begin with no kind; nothing where none is like it."""
    names = [kind.word for kind in KINDS.values() if not kind.key]
    tries = (" ".join(words[:2]).casefold(), words[0].casefold())
    for tried in tries:
        if said := told(tried):
            return said
    near = [found for tried in tries for found in get_close_matches(tried, names, 1, 0.7)]
    return f'Did you mean "{near[0]}"?' if near else ""


def _unknown(text: SheetText, heading: Piece) -> SheetFault:
    words = heading.text.split() or [""]
    remedy = nearest_kind(words) or (
        "A heading starts with what it is, or what happened: `asburied blank kinds` lists them. "
        'Where none fits, write "## remark" and say it in your own words.'
    )
    shown = Piece(words[0], heading.line, heading.column)
    return text.fault(shown, f'"{words[0]}" is not a kind of work this version knows', remedy)
