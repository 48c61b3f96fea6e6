"""An evening → the sheet for tomorrow: what each covering still wants, what must come off."""

from __future__ import annotations

from collections.abc import Iterator

from record.blank.form import Ask, Block, gaps, merged
from record.blank.of_covering import of_covering
from record.evening import Evening, owed_words
from record.facts import KINDS
from record.figures.flood import LIMIT
from record.readers import View


def of_tomorrow(view: View, tonight: Evening) -> tuple[Block, ...]:
    """
    Return the gaps of every covering that may go on by tomorrow, each with its release.

    First the water, while the pit is open; last what is on for a time, and what is owed.
    """
    blocks = [*_water(view, tonight)]
    for one in tonight.coming:
        if one.near:
            tag = one.readiness.covering.tag
            planned = f"planned {one.planned}" if one.planned else "no day planned"
            said = f"BEFORE {tag}, {one.readiness.covering.words('what')}, {planned}"
            blocks += [Block(notes=(said,)), *of_covering(view, tag)]
    return merged([*blocks, *_left(tonight), *_owed(tonight)])


def _water(view: View, tonight: Evening) -> Iterator[Block]:
    if not tonight.marks:
        return
    marks = tuple(f"{mark.hull.tag}: {mark.mark_words}" for mark in tonight.marks)
    asks = (*gaps("at"), Ask(key="what", said="water level"), *gaps("reading", "instrument"))
    pipes = [pipe.tag for pipe in view.built.of_kind("dip pipe")] or [""]
    for tag in pipes:
        notes = (*marks, LIMIT) if tag == pipes[0] else ()
        yield Block(kind=KINDS["reading taken"], tag=tag, notes=notes, asks=asks)


def _left(tonight: Evening) -> Iterator[Block]:
    for one in tonight.on_still:
        notes = (f"STILL ON {one.words}. Take this block out if it stays on.",)
        yield Block(
            kind=KINDS["taken off"], tag=one.thing.tag, notes=notes, asks=gaps("at", "note")
        )


def _owed(tonight: Evening) -> Iterator[Block]:
    if tonight.owed:
        yield Block(notes=tuple(f"OWED {owed_words(one)}" for one in tonight.owed))
