"""The emergency pages: one event a page, in a fixed order, whether or not it was recorded.

What nobody recorded prints as a gap to be filled in by hand: a page that is not there cannot
be missed by someone who looks for it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from manual.asking import Answer, Record

#: Event → the page's heading, in the order of the pages.
EVENTS: tuple[tuple[str, str], ...] = (
    ("get out", "Get out"),
    ("power lost", "Power lost: crank by hand"),
    ("air bad", "Bad air, or an alarm sounds"),
    ("fire inside", "Fire or smoke inside"),
    ("smoke outside", "Smoke outside, or the house burns"),
    ("water coming in", "Water coming in"),
    ("trapped", "A door or hatch will not open"),
    ("collapse inside", "Someone has collapsed inside"),
    ("start a stay", "Starting a stay"),
    ("open after long closure", "Opening after a long closure"),
)


@dataclass(frozen=True, slots=True)
class Touched:
    """Something a page tells one to lay hands on: how it is known, where it is, its tag last."""

    looks_like: str
    what: str
    where: str
    tag: str


@dataclass(frozen=True, slots=True)
class Page:
    """One page: its heading, its procedure (none is a gap), and what it touches."""

    event: str
    heading: str
    procedures: tuple[Answer, ...]
    touched: tuple[Touched, ...]


def pages(record: Record) -> list[Page]:
    """Return every emergency page, in order; a second drill for an event has its own page."""
    return [page for event, heading in EVENTS for page in _event(record, event, heading)]


def _event(record: Record, event: str, heading: str) -> Iterator[Page]:
    procedures = record.procedures(event)
    if not procedures:
        yield Page(event, heading, (), ())
    count = len(procedures)
    for number, one in enumerate(procedures, start=1):
        # A loose page must say which event it is for, and that there is another.
        words = heading if count == 1 else f"{heading} ({number} of {count})"
        yield Page(event, words, (one,), _touched(record, (one,)))


def _touched(record: Record, procedures: tuple[Answer, ...]) -> tuple[Touched, ...]:
    tags: dict[str, None] = {}
    for procedure in procedures:
        for step in procedure.parts:
            tags.update(dict.fromkeys(step.touches))
    known = set(record.tags())
    return tuple(_one(record.thing(tag)) for tag in tags if tag in known)


def _one(answer: Answer) -> Touched:
    kind = answer.thing.kind
    looks = str(answer["looks like"]) if kind.field("looks like") else "not recorded"
    if looks == "not recorded":
        looks = "how it looks: not recorded"
    type_ = str(answer.type) if kind.field("type") and answer.has("type") else kind.word
    what = f"{type_} valve" if kind.word == "valve" and "valve" not in type_ else type_
    return Touched(looks, what, _where(answer), str(answer.tag))


def _where(answer: Answer) -> str:
    kind = answer.thing.kind
    if kind.field("hull") and answer.has("hull"):
        return f"hull {answer.hull}"
    if kind.field("reached by") and answer.has("reached by"):
        return str(answer["reached by"])
    return "place not recorded"
