"""What lies below this spot? From the surface down, how sure, and what is not recorded."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from record.answers.asked_spot import AskedSpot
from record.answers.behind_panel import call, further
from record.answers.behind_values import Anywhere, Disagreement
from record.answers.beneath_hits import hits, surface_at
from record.answers.beneath_values import Beneath, Column, Hit
from record.answers.digging import before_digging, legal_m
from record.answers.gaps import disagreements_of, services, taint
from record.answers.saying import length
from record.fold import natural
from record.readers import View

COVER_NEAR_M = 3.0  # cover measured this near to the spot is told beside it


def beneath(view: View, asked: str, spots: Sequence[AskedSpot]) -> Beneath:
    """
    Return what the record says lies below each spot, and what it does not say.

    ``asked`` is the question in the asker's words. It never says that a place is clear to dig.
    """
    site = view.built.site_thing()
    columns = tuple(_column(view, spot) for spot in spots)
    met = [hit.tag for column in columns for hit in _all(column)]
    no_record, none_placed, _ = services(view)
    return Beneath(
        asked=asked,
        columns=columns,
        dig_tolerance=site.words("dig_tolerance") if site else "not recorded",
        dig_tolerance_m=legal_m(site),
        before_digging=tuple(before_digging(site)),
        anywhere=tuple(anywhere_outside(view)),
        no_record_of=no_record,
        none_placed_of=none_placed,
        unread=taint(view, met),
        disagreements=tuple(_disagreements(view, met)),
        call=call(view.built),
        reader=view.reader,
        as_of=view.built.as_of,
        further_entries=further(view),
    )


def _all(column: Column) -> tuple[Hit, ...]:
    return (*column.depth_not_recorded, *column.down, *column.near)


def _column(view: View, spot: AskedSpot) -> Column:
    at = (spot.x_m, spot.y_m)
    surface = surface_at(view, at)
    found = sorted(hits(view, at, spot.within_m, surface), key=_down)
    here = [hit for hit in found if hit.off_m <= hit.tolerance_m + spot.within_m]
    near = [hit for hit in found if hit.off_m > hit.tolerance_m + spot.within_m]
    return Column(
        x_m=spot.x_m,
        y_m=spot.y_m,
        within_m=spot.within_m,
        placed_by=spot.placed_by,
        doubts=spot.doubts,
        reserved=view.reserved_below(at, spot.within_m),
        surface=surface,
        depth_not_recorded=tuple(hit for hit in here if hit.top_m is None),
        down=tuple(_joined([hit for hit in here if hit.top_m is not None])),
        near=tuple(near),
        covers_measured=tuple(_covers_measured(view, at)),
    )


def _down(hit: Hit) -> tuple[object, ...]:
    """From the surface down; what has no level first, as it may be met at once."""
    level = 0.0 if hit.top_m is None else round(hit.top_m, 4)
    return (hit.top_m is not None, -level, natural(hit.tag), hit.words)


def _joined(down: Sequence[Hit]) -> Iterator[Hit]:
    """Yield hits, two lengths of one run that meet over the spot as one: it is one pipe there."""
    kept: list[Hit] = []
    for hit in down:
        one = kept[-1] if kept else None
        if one is None or hit.kind != "run" or not _meet(one, hit):
            kept.append(hit)
            continue
        kept[-1] = replace(
            one,
            words=f"{one.words} and {hit.words.rpartition(', ')[2]}",
            tolerance_m=max(one.tolerance_m, hit.tolerance_m),
            tolerance_up_m=max(one.tolerance_up_m, hit.tolerance_up_m),
            hand_m=max(one.hand_m, hit.hand_m),
            depth_may_be_m=_widest(one, hit),
            basis="; ".join(dict.fromkeys((one.basis, hit.basis))),
            assumed=one.assumed or hit.assumed,
            measured_since=tuple(dict.fromkeys((*one.measured_since, *hit.measured_since))),
            entries=tuple(dict.fromkeys((*one.entries, *hit.entries))),
        )
    yield from kept


JOINT_M = 0.002  # levels nearer than this are of one pipe


def _meet(one: Hit, other: Hit) -> bool:
    tops = (one.top_m, other.top_m)
    return (
        one.tag == other.tag
        and one.off_m == other.off_m == 0
        and abs((tops[0] or 0.0) - (tops[1] or 0.0)) < JOINT_M
        and (one.cover, one.covered, one.missing) == (other.cover, other.covered, other.missing)
        and one.surface_on == other.surface_on
    )


def _widest(one: Hit, other: Hit) -> tuple[float, float] | None:
    if one.depth_may_be_m is None or other.depth_may_be_m is None:
        return None
    return (
        min(one.depth_may_be_m[0], other.depth_may_be_m[0]),
        max(one.depth_may_be_m[1], other.depth_may_be_m[1]),
    )


def _covers_measured(view: View, at: tuple[float, float]) -> Iterator[str]:
    """Yield cover measured near the spot, oldest first, and where the soil was touched since."""
    for one in view.built.happened("cover measured"):
        x, y = one.si("x"), one.si("y")
        if x is None or y is None:
            continue
        off = ((float(x) - at[0]) ** 2 + (float(y) - at[1]) ** 2) ** 0.5
        if off <= COVER_NEAR_M:
            yield (
                f"{one.words('cover')} over {one.about} at {one.words('point')}, "
                f"{length(off)} from here, on {one.on} ({one.entry.number})"
            )


def anywhere_outside(view: View) -> Iterator[Anywhere]:
    """Yield what has no place on record, or no whole one: it may lie here too."""
    found = {(each.thing.tag, each.words) for each in view.nearby.unplaced}
    for tag, words in sorted(found, key=lambda pair: (natural(pair[0]), pair[1])):
        thing = view.built.thing(tag)
        if thing is not None and not _inside(view, thing.text("hull")):
            yield Anywhere(tag=tag, words=words, said_behind=False)


def _inside(view: View, hull: str | None) -> bool:
    return hull is not None and hull in view.hulls


def _disagreements(view: View, tags: Sequence[str]) -> Iterator[Disagreement]:
    for tag in dict.fromkeys(tags):
        thing = view.built.thing(tag)
        for stated in (thing, *thing.parts) if thing else ():
            yield from disagreements_of(stated.tag, stated)
