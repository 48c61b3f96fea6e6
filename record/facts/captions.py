"""The caption of a picture: how near it is, which way it looks, what it shows.

Phones write the first letter large and tired people leave commas out, so neither matters.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from record.facts.named import BETWEEN, TAG

SHOWS = re.compile(r"(?P<before>.*)\bshows\b:?(?P<tags>.*)", re.IGNORECASE | re.DOTALL)
# "wide looking east" is two pieces; "wide crack at the weld" says nothing of how near it is.
VIEW = re.compile(r"(wide|close)(?:[- ](?:up|shot|view))?(?:\s+(?P<of>of\s.*))?", re.IGNORECASE)
LOOKING = re.compile(
    r"looking\s+(?P<way>.+)|(?P<words>.*\S)\s+looking\s+(?P<to>(?:north|south|east|west|up|down)\b.*)",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class Caption:
    """What a caption says; ``words`` are its other pieces, ``lost`` what "shows" cannot mean."""

    view: str | None
    looking: str | None
    scale: str | None
    words: tuple[str, ...]
    shows: tuple[str, ...]
    lost: tuple[str, ...]


def read_caption(caption: str) -> Caption:
    """
    Return what a caption says.

    >>> read_caption("Wide looking east, rule in view, shows A and SM-1")
    ... # doctest: +NORMALIZE_WHITESPACE
    Caption(view='wide', looking='east', scale='rule in view', words=(),
        shows=('A', 'SM-1'), lost=())
    """
    found = SHOWS.fullmatch(caption)
    before = found["before"] if found else caption
    shown = _parts(BETWEEN.split(found["tags"].rstrip(". "))) if found else []
    view = looking = scale = None
    words = []
    for piece in _parts(before.split(",")):
        rest = piece
        if way := LOOKING.fullmatch(piece):
            looking, rest = way["way"] or way["to"], way["words"] or ""
        if near := VIEW.fullmatch(rest):
            view, rest = near[1].casefold(), (near["of"] or "").strip()
        if "in view" in rest.casefold():
            scale = rest
        elif rest:
            words.append(rest)
    return Caption(
        view=view,
        looking=looking,
        scale=scale,
        words=tuple(words),
        shows=tuple(dict.fromkeys(tag for tag in shown if TAG.fullmatch(tag))),
        lost=tuple(piece for piece in shown if not TAG.fullmatch(piece)),
    )


def _parts(pieces: list[str]) -> list[str]:
    return [piece.strip() for piece in pieces if piece.strip()]
