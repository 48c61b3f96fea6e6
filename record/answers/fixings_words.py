"""The answer to "where may I screw?", with a map of the panel as one stands before it."""

from __future__ import annotations

from collections.abc import Iterator

from record.answers.behind_values import Span
from record.answers.fixings_values import KEEP_OUT, NONE_RECORDED, RESERVED, Fixings, Mark
from record.answers.saying import depth, length, section, wrapped
from record.answers.words_behind import hazard_line

SIGNS = {KEEP_OUT: "#", RESERVED: "R", NONE_RECORDED: "."}
STOP = (
    "None of this says that a place is clear: it is where nothing is recorded. Set a depth stop, "
    "start by hand, and stop at anything that is not board or packing."
)
WIDEST = 90  # columns of the map


def fixings_words(answer: Fixings) -> list[str]:
    """Return the answer in lines of at most 100 columns."""
    return [
        *_title(answer),
        *section("WHERE", _where(answer)),
        *section("KEEP OUT OF, margin and tolerance counted in", _kept_out(answer)),
        *_map(answer),
        *section("HOW SURE", (f"Behind it before it was closed: {_looked(answer)}",)),
        *section("HAZARDS", map(hazard_line, answer.hazards)),
        "",
        *wrapped(STOP, 0, 0),
    ]


def _title(answer: Fixings) -> Iterator[str]:
    yield f"Fixings in {answer.tag}"
    size = "size not recorded"
    if answer.width_m is not None and answer.height_m is not None:
        size = f"{length(answer.width_m)} wide, {length(answer.height_m)} high"
    yield from wrapped(f"hull {answer.hull}, face {answer.face}, room {answer.room}; {size}", 0, 2)
    room = ""
    if answer.size_m is not None:
        room = f", room for {length(answer.size_m[0])} by {length(answer.size_m[1])}"
    yield from wrapped(
        f"Holes {depth(answer.depth_m)} deep from the room face, {depth(answer.margin_m)} beside "
        f"anything recorded and from the edges{room}.",
        0,
        2,
    )
    yield from wrapped(f"Reader: {answer.reader}. {answer.further_entries}", 0, 2)


def _where(answer: Fixings) -> Iterator[str]:
    yield f"Depth: {answer.deepest_words}."
    if answer.reserved:
        yield "RESERVED. Do not open or drill this panel without asking the owner first."
    if answer.unknown:
        yield "UNKNOWN. No place for a hole can be named:"
        yield from (f"- {why}" for why in answer.unknown)
    if answer.reserved or answer.unknown:
        return
    if answer.largest is None:
        yield "There is no place that keeps out of everything recorded" + (
            " with room for that." if answer.size_m else "."
        )
        return
    across, up = answer.edges or ("across", "up")
    yield (
        "The largest rectangle with nothing recorded in it to that depth: "
        f"{_span(answer.largest.across)} {across}, {_span(answer.largest.upward)} {up}."
    )


def _span(span: Span) -> str:
    return f"{length(span.from_m)} to {length(span.to_m)}"


def _kept_out(answer: Fixings) -> Iterator[str]:
    told: dict[tuple[str, str], list[Span]] = {}
    numbers: dict[tuple[str, str], tuple[str, ...]] = {}
    for kept in answer.keep_out:
        told.setdefault((kept.tag, kept.reason), []).extend((kept.across, kept.upward))
        numbers[kept.tag, kept.reason] = kept.entries
    for (tag, reason), spans in told.items():
        across = _on(spans[::2], answer.width_m or 0.0)
        upward = _on(spans[1::2], answer.height_m or 0.0)
        slants = ", on a slant" if len(spans) > 2 else ""
        entries = f" [{', '.join(numbers[tag, reason])}]" if numbers[tag, reason] else ""
        yield f"{tag}: {across} across, {upward} up{slants}. {reason}{entries}"


def _on(spans: list[Span], size: float) -> str:
    low = min(max(0.0, min(span.from_m for span in spans)), size)
    high = max(min(size, max(span.to_m for span in spans)), 0.0)
    return _span(Span(low, high))


def _looked(answer: Fixings) -> str:
    return f"{answer.looked_at.state.upper()} ({answer.looked_at.words})"


def _map(answer: Fixings) -> Iterator[str]:
    """Yield the grid of marks, top row first, with what its signs mean."""
    rows: dict[float, list[Mark]] = {}
    for mark in answer.marks:
        rows.setdefault(mark.upward_m, []).append(mark)
    if not rows:
        return
    first = next(iter(rows.values()))
    yield ""
    if len(first) * 2 > WIDEST:
        yield from wrapped(
            f"MARKS: {len(first)} in a row are more than a line holds. Ask with a wider --grid; "
            "--json has them all.",
            0,
            2,
        )
        return
    across, up = answer.edges or ("from its left edge", "from its bottom edge")
    # A floor is looked down on: with its near end at the left, the left wall is at the top.
    yield from wrapped(
        f"MARKS every {length(answer.pitch_m)}, the first {length(first[0].across_m)} {across}; "
        f"each row with how far it is {up}.",
        0,
        2,
    )
    for height in sorted(rows, reverse=answer.face != "floor"):
        signs = " ".join(SIGNS.get(mark.state, "?") for mark in rows[height])
        yield f"  {height:6.3f} m  {signs}"
    yield "  # keep out   . nothing recorded   ? unknown   R reserved, ask the owner"
