"""A brief → its pages and the sheet beside it."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import UTC, datetime

from manual import theme
from manual.brief.told import PAST, Brief, with_past
from manual.languages import say, spoken
from manual.printing import press
from record.entry import checkpoint
from record.facts.happenings import LEFT_AS
from record.readers import View

PAGES = 2
#: What gives way where the pages would be more: how much of the past, how high the drawing is in
#: millimetres, and last the size of letters in points.
STEPS = (
    (PAST, 130, 9.0),
    (8, 110, 8.8),
    (5, 95, 8.3),
    (3, 80, 7.6),
    (1, 60, 7.0),
)


@dataclass(frozen=True, slots=True)
class Pressed:
    """The PDF, how many pages it has, and how much of the past is left out."""

    pdf: bytes
    pages: int
    earlier: int


def press_brief(view: View, whole: Brief, *, sheet: str, asked: str = "") -> Pressed:
    """
    Return a brief as a PDF: of the past no more than fits on two pages, of the rest all.

    The same record gives the same bytes. Raises PressFault.
    """
    laid: dict[int, tuple[Brief, str, int]] = {}
    low, high = 0, len(STEPS) - 1  # each step takes less room than the one before
    while low not in laid:
        middle = (low + high) // 2
        laid[middle] = _at_step(view, whole, middle, sheet, asked)
        fits = laid[middle][2] <= PAGES
        low, high = (low, middle) if fits else (min(middle + 1, high), high)
        if low == high and low not in laid:
            laid[low] = _at_step(view, whole, low, sheet, asked)
    kept, page, pages = laid[low]
    identifier = hashlib.sha256(page.encode()).hexdigest().encode()[:32]
    pdf = press.lay_out(page, stamp=_stamp(view), identifier=identifier)
    return Pressed(pdf, pages, kept.earlier)


def _at_step(view: View, whole: Brief, step: int, sheet: str, asked: str) -> tuple[Brief, str, int]:
    """Return the brief at a step, its page, and how many pages that comes to."""
    count, high_mm, size_pt = STEPS[step]
    kept = with_past(whole, count)
    style = f".brief {{ font-size: {size_pt}pt; }} .brief figure svg {{ max-height: {high_mm}mm; }}"
    page = page_of(view, kept, sheet=sheet, asked=asked, style=style)
    return kept, page, press.page_count(page)


def page_of(view: View, kept: Brief, *, sheet: str, asked: str, style: str = "") -> str:
    """Return a brief as one HTML page; whatever a crew typed is escaped."""
    from jinja2 import Environment
    from markupsafe import Markup

    text = spoken().pages["brief.html.jinja"]
    environment = Environment(autoescape=True, trim_blocks=True, lstrip_blocks=True)
    name = view.built.site_name()
    days = [entry.content.on for entry in view.built.entries if entry.content]
    body = environment.from_string(text).render(
        brief=kept,
        left=[block for block in kept.blocks if block.kind is LEFT_AS],
        blocks=[block for block in kept.blocks if block.kind is not LEFT_AS],
        drawing=Markup(kept.drawing.svg) if kept.drawing else None,
        entries=_entries,
        site=name,
        copy=say("brief.s_copy", reader=view.reader),
        recorded_to=max(days, default="nothing"),
        checkpoint=checkpoint(view.built.site, view.built.entries).hash[:16],
        asked=asked,
        style=Markup(style),
        sheet=sheet,
    )
    return theme.page(body, title=f"{name}: {kept.title}", lang=spoken().code)


def _entries(numbers: Iterable[str]) -> str:
    said = ", ".join(dict.fromkeys(numbers))
    return f" [{said}]" if said else ""


def _stamp(view: View) -> datetime:
    newest = max(entry.link.recorded for entry in view.built.entries)
    return datetime.fromisoformat(newest.replace("Z", "+00:00")).astimezone(UTC)
