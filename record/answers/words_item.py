"""One item behind a panel in plain lines: where it is, how deep, how far it may reach, how sure."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from record.answers.behind_values import Behind, Item, Span
from record.answers.saying import depth, length
from record.place.along_shapes import ALONG_ITS_RUN
from record.place.unrolled import clip
from record.words import tell, term

SLANTS_M = 0.02  # less than this, across or up, is level or upright to a tape


def item_line(item: Item) -> str:
    """Return one item in one line: where it is recorded, how deep, how sure."""
    where = tell(
        "answers.across_up_deep",
        across=span_words(item.across),
        upward=span_words(item.upward),
        depth=_deep(item, item.depth),
    )
    return tell(
        "answers.may_reach_across_up",
        tag=item.tag,
        words=item.words,
        where=where,
        across_may_reach=span_words(item.across_may_reach),
        upward_may_reach=span_words(item.upward_may_reach),
        depth_may_reach=_deep(item, item.depth_may_reach),
        item=_sure(item),
        entries=rests_on(item.entries),
    )


def item_lines(item: Item, answer: Behind) -> Iterator[str]:
    """Yield where an item is recorded and how far it may reach, and how sure that is."""
    for name, recorded, reach, size in (
        (tell("answers.across"), item.across, item.across_may_reach, answer.width_m),
        (tell("answers.up"), item.upward, item.upward_may_reach, answer.height_m),
    ):
        yield tell(
            "answers.may_reach",
            name=name,
            recorded=_within(recorded, size),
            reach=_within(reach, size),
        )
    yield from _slanting(item, answer)
    if item.depth_known:
        yield tell(
            "answers.deep_may_reach",
            depth=_deep(item, item.depth),
            depth_may_reach=_deep(item, item.depth_may_reach),
        )
    else:
        yield tell("answers.deep_not_recorded")
    yield _sure(item)


def _slanting(item: Item, answer: Behind) -> Iterator[str]:
    """Yield where the middle of a pipe that slants comes onto the panel and leaves it."""
    if item.axis is None or answer.width_m is None or answer.height_m is None:
        return
    (u0, v0), (u1, v1) = item.axis
    on_it = clip(((u0, v0, 0.0), (u1, v1, 0.0)), (0, 0, 0), (answer.width_m, answer.height_m, 0))
    if on_it is None or min(abs(u1 - u0), abs(v1 - v0)) < SLANTS_M:
        return
    (u0, v0, _), (u1, v1, _) = sorted(on_it)
    yield tell("answers.slants", u0=length(u0), v0=length(v0), u1=length(u1), v1=length(v1))


def _within(span: Span, size: float | None) -> str:
    """Return a span on the panel; what passes an edge is said so, and not how far it goes on."""
    size = size or 0.0
    if span.to_m < 0:
        return tell("answers.off_panel_before", what=length(-span.to_m))
    if span.from_m > size:
        return tell("answers.off_panel_past_its", from_m=length(span.from_m - size))
    low = tell("answers.beyond_0") if span.from_m < 0 else length(span.from_m)
    high = tell("answers.beyond", size=length(size)) if span.to_m > size else length(span.to_m)
    return tell("answers.to_3", low=low, high=high)


def _deep(item: Item, span: Span) -> str:
    if not item.depth_known:
        return term("not recorded")
    if span.to_m == 0:
        return tell("answers.in_front_face_that")
    return tell("answers.to_2", from_m=depth(span.from_m), to_m=depth(span.to_m))


def basis_words(item: Item) -> str:
    """Return how a place was measured, or that nobody wrote it."""
    return tell("answers.how_was_measured_not") if item.basis == "not known" else term(item.basis)


def _sure(item: Item) -> str:
    sure = [
        tell(
            f"answers.sure.{'assumed' if item.assumed else 'known'}",
            tolerance_across_m=depth(item.tolerance_across_m),
            tolerance_upward_m=depth(item.tolerance_upward_m),
            tolerance_depth_m=depth(item.tolerance_depth_m),
        ),
        basis_words(item),
        term(item.cover),
    ]
    if item.interpolated and item.basis == ALONG_ITS_RUN:
        sure.append(tell("answers.interpolated"))
    if item.missing:
        sure.append(
            tell("answers.not_recorded_and_filled", missing=", ".join(map(term, item.missing)))
        )
    return "; ".join(sure)


def rests_on(entries: Iterable[str]) -> str:
    numbers = ", ".join(dict.fromkeys(entries))
    return f" [{numbers}]" if numbers else ""


def span_words(span: Span) -> str:
    return tell("answers.to_2", from_m=length(span.from_m), to_m=length(span.to_m))
