"""Photos on an emergency page: what a thing to lay hands on looks like.

On paper only where the sheet has the room: a page that runs over to a second is read by halves.
"""

from __future__ import annotations

import html
from collections.abc import Iterator
from dataclasses import replace

from markupsafe import Markup

from manual.asks.emergency_page import Page, Touched, spare_mm
from manual.plans.photos import alt
from record.fold import Happening
from record.readers import View

LEAST_MM, MOST_MM = 18.0, 30.0  # how high a photo is
UNDER_MM = 13.0  # its number, and what keeps the row apart
ACROSS = 4


def with_photos(view: View, page: Page) -> Page:
    """Return a page with a row of photos of what it touches; without room, on a screen alone."""
    figures = "".join(_figures(view, page))
    if not figures:
        return page
    site = view.built.site_thing()
    address = site.words("address_for_responders") if site else ""
    high = min(spare_mm(page, address) - UNDER_MM, MOST_MM)
    size = "large" if high == MOST_MM else "little" if high >= LEAST_MM else "screen-only"
    return replace(page, seen=Markup(f'<div class="seen-row {size}">{figures}</div>'))


def _figures(view: View, page: Page) -> Iterator[str]:
    """Yield one figure a photo, with the numbers of all it shows of this page."""
    found: dict[str, tuple[Happening, list[Touched]]] = {}
    for touched in page.touched:
        one = photo_of(view, touched.tag)
        if one is not None and (sha := one.text("sha256")):
            found.setdefault(sha, (one, []))[1].append(touched)
    for sha, (one, things) in list(found.items())[:ACROSS]:
        numbers = " ".join(f'<b class="at">{thing.number}</b>' for thing in things)
        yield (
            f'<figure class="seen"><img data-seen="{html.escape(sha)}" '
            f'alt="{html.escape(" ".join(alt(one).split()))}">'
            f"<figcaption>{numbers}</figcaption></figure>"
        )


def photo_of(view: View, tag: str) -> Happening | None:
    """
    Return the photo by which a thing is known: taken close, of little else, the newest.

    None of anything this reader is not told of: a photo would show it.
    """
    close = [
        (-len(shown), place, one)
        for place, one in enumerate(view.built.happened("photographed"))
        if one.text("view") == "close"
        and tag in (shown := one.tags("shows"))
        and all(view.built.thing(each) is not None for each in shown)
    ]
    return max(close, key=lambda each: each[:2])[2] if close else None
