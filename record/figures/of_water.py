"""Drinking water that is kept against people and days."""

from __future__ import annotations

from collections.abc import Iterator

from record.figures.feeding import field, nothing, reading
from record.figures.worked import Fed, Worked, work
from record.fold import Held
from record.readers import View
from record.units import Dimension
from record.words import tell

WATER = "drinking water"


def of_water(view: View) -> Iterator[Worked]:
    site = view.built.site_thing()
    if site is None:
        yield work(
            "drinking-water", view.built.site, (nothing(tell("figures.site"), '"## site …"'),)
        )
        return
    kept, notes = _kept(view)
    people, days = field(site, "people", "people"), field(site, "days_planned", "days")
    yield work("drinking-water", site.tag, (people, days, kept), notes=notes)


def _kept(view: View) -> tuple[Fed | None, tuple[str, ...]]:
    """Return the litres of drinking water in the stores this reader sees, and notes."""
    litres, rests, notes, found = 0.0, [], [], False
    for store in view.built.of_kind("store"):
        for item in store.parts:
            if WATER not in (item.text("what") or "").casefold():
                continue
            count, each = item.count("count"), reading(item.text("each"), Dimension.VOLUME)
            if count is None or (count and each is None):
                notes.append(tell("figures.how_much_holds_not", tag=item.tag))
                continue
            found = True
            litres += count * (each or 0.0)
            rests += [*item.held("count"), *item.held("each")]
    if not found:
        return None, (*notes, tell("figures.no_drinking_water_recorded"))
    return _fed(litres, rests), tuple(notes)


def _fed(litres: float, rests: list[Held]) -> Fed:
    return Fed(key="kept", value=litres, rests=tuple(rests), how=tell("figures.what_stores_hold"))
