"""The answer to "what lies below this spot?" for somebody with a spade, from the surface down."""

from __future__ import annotations

from collections.abc import Iterator

from record.answers.behind_values import Layer
from record.answers.beneath_values import Beneath, Column, Hit, Surface
from record.answers.saying import depth, length, section, wrapped
from record.answers.words_behind import hazard_line

EMPTY = (
    "No thing is recorded below this spot. That is what the record says, and not that the ground "
    "is empty."
)
RESERVED = "RESERVED. Do not dig or drive anything here without asking the owner first."

BESIDE_M = 0.001  # nearer than this is over it


def beneath_words(answer: Beneath) -> list[str]:
    """Return the answer in lines of at most 100 columns."""
    lines = list(
        wrapped(
            f"BENEATH {answer.asked}. This is what was recorded, never a clearance to dig.", 0, 2
        )
    )
    lines += wrapped(f"Reader: {answer.reader}. {answer.further_entries}", 0, 2)
    lines += section("BEFORE ANY DIGGING", answer.before_digging)
    if len(answer.columns) > 1:
        lines += ["", "IT MAY BE AT EITHER OF TWO SPOTS. Both are told; say on which side you are."]
    for column in answer.columns:
        lines += _column(column)
    lines += section("WHAT IS NOT RECORDED", _not_recorded(answer))
    lines += section("WHO TO CALL", answer.call)
    return lines


def _column(column: Column) -> Iterator[str]:
    yield ""
    yield from wrapped(
        f"AT x {length(column.x_m)}, y {length(column.y_m)} on the site grid, "
        f"{column.placed_by}; looked {length(column.within_m)} round it.",
        0,
        2,
    )
    for doubt in column.doubts:
        yield from wrapped(f"Note: {doubt}.")
    if column.reserved:
        yield from wrapped(RESERVED)
    yield from section(
        "DEPTH NOT RECORDED: expect it from the surface down",
        (text for hit in column.depth_not_recorded for text in (_title(hit), *_more(hit))),
    )
    yield ""
    yield "FROM THE SURFACE DOWN"
    yield from wrapped(_surface(column.surface))
    if not column.down and not column.depth_not_recorded:
        yield from wrapped(EMPTY)
    for hit in column.down:
        yield from wrapped(f"{_deep(hit)}: {_title(hit)}")
        for text in (*_levels(hit), *_more(hit)):
            yield from wrapped(text, 4, 6)
    near = "BESIDE IT, where digging is by hand only"
    yield from section(near, (f"{_title(h)}: {_deep(h)}; {_beside(h)}" for h in column.near))
    yield from section("COVER MEASURED NEAR HERE", column.covers_measured)


def _surface(surface: Surface | None) -> str:
    if surface is None:
        return "The level of the ground here is not recorded: depths are told as levels only."
    assumed = ", assumed" if surface.assumed else ""
    off = f", {length(surface.off_m)} from here" if surface.off_m > 0.005 else ""
    return (
        f"Ground {surface.level_m:.3f} m ± {depth(surface.tolerance_m)}{assumed}, as it was on "
        f"{surface.on}: {surface.of}{off} [{', '.join(surface.entries)}]. It may have been raised "
        "or lowered since."
    )


def _deep(hit: Hit) -> str:
    if hit.top_m is None:
        return "depth not recorded, expect it from the surface down"
    if hit.depth_m is None:
        return f"its {hit.top_name} at level {hit.top_m:.3f} m"
    if hit.depth_m < 0:
        return f"its {hit.top_name} {length(-hit.depth_m)} ABOVE the ground"
    return f"its {hit.top_name} {length(hit.depth_m)} down"


def _title(hit: Hit) -> str:
    numbers = f" [{', '.join(hit.entries)}]" if hit.entries else ""
    return f"{hit.tag}, {hit.words}{numbers}"


def _levels(hit: Hit) -> Iterator[str]:
    if hit.top_m is None or hit.bottom_m is None:
        return
    said = f"{hit.top_name} at level {hit.top_m:.3f} m"
    if hit.invert_m is not None:
        said += f", invert {hit.invert_m:.3f} m"
        if hit.depth_to_invert_m is not None:
            said += f", {length(hit.depth_to_invert_m)} down"
    said += f"; ± {depth(hit.tolerance_up_m)} up or down"
    yield said
    if hit.depth_may_be_m is not None:
        low, high = hit.depth_may_be_m
        yield (
            f"with every doubt it may start at {length(low)} and end at {length(high)} below the "
            f"ground of {hit.surface_on}"
        )


def _beside(hit: Hit) -> str:
    return f"{length(hit.off_m)} to its side, ± {depth(hit.tolerance_m)}"


def _more(hit: Hit) -> Iterator[str]:
    if hit.off_m >= BESIDE_M:
        yield f"not under the spot itself: {_beside(hit)}"
    assumed = ", assumed" if hit.assumed else ""
    basis = "how it was measured is not recorded" if hit.basis == "not known" else hit.basis
    yield f"place ± {depth(hit.tolerance_m)}{assumed}; {basis}; written: {hit.cover}"
    yield f"by hand only within {length(hit.hand_m)} either side of it"
    for one in hit.covered:
        moment = f"{one.on} {one.at}" if one.at else one.on
        yield f"covered {moment} by {one.covering} [{one.entry}]"
    for since in hit.measured_since:
        yield f"cover there: {since}"
    if hit.missing:
        yield f"not recorded and filled out: {', '.join(hit.missing)}"
    if hit.layers:
        yield f"over it, from outside inward: {'; '.join(map(_layer, reversed(hit.layers)))}"
    yield from (hazard_line(hazard) for hazard in hit.hazards)


def _layer(layer: Layer) -> str:
    thick = layer.thickness if layer.thickness_m is None else depth(layer.thickness_m)
    return f"{layer.what}, {thick} thick"


def _not_recorded(answer: Beneath) -> Iterator[str]:
    if answer.no_record_of:
        yield f"No run on record at all for: {', '.join(answer.no_record_of)}."
    if answer.none_placed_of:
        yield f"On record, but no stretch has a place: {', '.join(answer.none_placed_of)}."
    if answer.anywhere:
        listed = "; ".join(f"{each.tag} ({each.words})" for each in answer.anywhere)
        yield f"No place on record, so it may be here too: {listed}."
    for each in answer.disagreements:
        yield f"NOT SETTLED: {each.tag} {each.field}: {each.words}"
    for unread in answer.unread:
        yield f"Entries about {unread.tag} that this version cannot read: {unread.count}."
    yield "What nobody wrote down: older lines, lines of others, roots, stones."
