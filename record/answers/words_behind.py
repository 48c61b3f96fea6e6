"""The answer to "what is behind this panel?" in plain lines."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from record.answers.behind_values import (
    CROSSES,
    NEAR,
    Behind,
    Hazard,
    Isolation,
    Item,
    Layer,
    Reserved,
    Span,
)
from record.answers.items import ROUND_M
from record.answers.saying import depth, length, section, wrapped
from record.answers.words_past import coat_lines, done_lines, photo_line

EMPTY = (
    "No item is recorded in this space. That is what the record says, and not that the space is "
    "empty."
)
STOP = (
    "This answer is of the record alone. Look, measure and test before you cut, and stop at "
    "anything that is not told here."
)


def behind_words(answer: Behind) -> list[str]:
    """Return the answer in lines of at most 100 columns."""
    return [
        *_title(answer),
        *section("WHAT IS RECORDED", recorded_lines(answer)),
        *section("HOW SURE", how_sure_lines(answer)),
        *section("WHAT IS NOT RECORDED", not_recorded_lines(answer)),
        *section("HAZARDS", map(hazard_line, answer.hazards)),
        *section("ISOLATE FIRST", map(isolation_line, answer.isolations)),
        *section("WHO TO CALL", answer.call),
        *section("HOW IT COMES OFF", removal_lines(answer)),
        *section("LAYERS, from the room face", map(layer_line, answer.layers)),
        *_items(answer),
        *section("WHAT WAS DONE HERE", done_lines(answer)),
        *section(f"COATS IN ROOM {answer.room}, which part of it in words", coat_lines(answer)),
        *section("PHOTOS", map(photo_line, answer.photos)),
        "",
        *wrapped(STOP, 0, 0),
    ]


def _title(answer: Behind) -> Iterator[str]:
    yield f"Behind {answer.tag}"
    size = "size not recorded"
    if answer.width_m is not None and answer.height_m is not None:
        size = f"{length(answer.width_m)} wide, {length(answer.height_m)} high"
        if answer.along_curve:
            size += f" ({answer.along_curve})"
    yield from wrapped(f"hull {answer.hull}, face {answer.face}, room {answer.room}; {size}", 0, 2)
    asked = "Asked of the whole panel"
    if answer.at is not None:
        u, v = (length(each) for each in answer.at)
        asked = f"Asked of {length(ROUND_M)} round {u} across, {v} up"
    day = f", as of {answer.as_of}" if answer.as_of else ""
    yield from wrapped(
        f"{asked}, to {length(answer.reach_m)} from the {answer.depth_from}{day}.", 0, 2
    )
    yield from wrapped(f"Reader: {answer.reader}. {answer.further_entries}", 0, 2)


def recorded_lines(answer: Behind) -> Iterator[str]:
    if answer.reserved:
        yield "RESERVED. Do not open or drill this panel without asking the owner first."
    yield from map(zone_line, answer.zones)
    if answer.not_measured:
        yield (
            "NOTHING CAN BE PLACED behind this panel: these measures are not recorded: "
            f"{', '.join(answer.not_measured)}. Anything recorded may lie behind it."
        )
    elif answer.items:
        count = len(answer.items)
        kinds = ", ".join(dict.fromkeys(item.tag for item in answer.items))
        shapes = "piece lies or may lie" if count == 1 else "pieces lie or may lie"
        yield f"{count} {shapes} in this space, of: {kinds}."
    else:
        yield EMPTY
    if answer.depth_from != "room face":
        yield (
            "The thickness of the lining is not recorded: depths of items count from the inside "
            "of the steel plate, not from the room face."
        )


def zone_line(zone: Reserved) -> str:
    """Return a reserved zone in one line: where in the hull, where on the panel, why."""
    spans = (
        ("from near", zone.from_near),
        ("from left", zone.from_left),
        ("level", zone.level),
    )
    where = "; ".join(f"{name} {_span(span)}" for name, span in spans if span)
    here = ""
    if zone.across and zone.upward:
        here = f"; on this panel {_span(zone.across)} across, {_span(zone.upward)} up"
    return f"Reserved zone {zone.tag}: {where or 'place not recorded'}{here}. {zone.hazard}"


def _span(span: Span) -> str:
    return f"{length(span.from_m)} to {length(span.to_m)}"


def how_sure_lines(answer: Behind) -> Iterator[str]:
    looked = answer.looked_at
    yield f"Behind it before it was closed: {looked.state.upper()} ({looked.words})"
    if looked.worked_since:
        yield f"WORKED ON SINCE anybody looked: {'; '.join(looked.worked_since)}."
    count = [
        (sum(item.assumed for item in answer.items), "rest on an assumed tolerance"),
        (sum(item.interpolated for item in answer.items), "are interpolated between stations"),
        (sum(bool(item.missing) for item in answer.items), "lack a measure, filled out to be safe"),
        (sum(item.cover == "after cover" for item in answer.items), "were written after cover"),
    ]
    said = [f"{number} of {len(answer.items)} {words}" for number, words in count if number]
    if said:
        yield f"Of the pieces: {'; '.join(said)}."
    for each in answer.disagreements:
        yield f"NOT SETTLED: {each.tag} {each.field}: {each.words}"
    for unread in answer.unread:
        plural = "entry" if unread.count == 1 else "entries"
        yield f"{unread.count} {plural} about {unread.tag} unread: this version cannot read it."


def not_recorded_lines(answer: Behind) -> Iterator[str]:
    if answer.no_record_of:
        yield f"No run on record at all for: {', '.join(answer.no_record_of)}."
    if answer.none_placed_of:
        yield f"On record, but no stretch has a place: {', '.join(answer.none_placed_of)}."
    if answer.carries_not_recorded:
        yield f"Runs that do not say what they carry: {', '.join(answer.carries_not_recorded)}."
    said = [each for each in answer.anywhere if each.said_behind]
    rest = [each for each in answer.anywhere if not each.said_behind]
    for each in said:
        said_so = "is said to be behind this panel; its place is not recorded."
        yield f"{each.tag} ({each.words}) {said_so}"
    if rest:
        listed = "; ".join(f"{each.tag} ({each.words})" for each in rest)
        yield f"No place on record, so it may be anywhere: {listed}."


def hazard_line(hazard: Hazard) -> str:
    return f"{hazard.signal}: {hazard.words}{_rests_on(hazard.entries)}"


def isolation_line(isolation: Isolation) -> str:
    """Return what to shut or switch off, where it is and which way it turns."""
    if not isolation.tag:
        return f"{isolation.of}: {isolation.kind}"
    said = (
        ("normally", isolation.normal_position),
        ("left as", isolation.left_as),
        ("turns to close", isolation.turns_to_close),
        ("closes", isolation.closes),
        ("isolates", isolation.isolates),
        ("reached by", isolation.reached_by),
        ("looks like", isolation.looks_like),
    )
    words = "; ".join(f"{name}: {value}" for name, value in said if value != "n/a")
    of = "" if isolation.of == isolation.tag else f"{isolation.of}: "
    return (
        f"{of}{isolation.tag}, {isolation.kind}, {isolation.where}; {words}"
        f"{_rests_on(isolation.entries)}"
    )


def removal_lines(answer: Behind) -> Iterator[str]:
    removal = answer.removal
    yield f"Fixings: {removal.fixings}"
    yield f"Comes off: {removal.comes_off}"
    order = " then ".join(removal.first) if removal.first else removal.first_words
    yield f"Before it: {order}{_rests_on(removal.entries)}"


def layer_line(layer: Layer) -> str:
    """Return a layer with its thickness and its depths, or that they are not recorded."""
    if layer.side == "earth":
        start = "not recorded" if layer.from_m is None else depth(layer.from_m)
        return f"then earth, from {start}"
    spread = "depth not recorded"
    if layer.from_m is not None and layer.to_m is not None:
        spread = f"{depth(layer.from_m)} to {depth(layer.to_m)}"
    elif layer.from_m is not None:
        spread = f"from {depth(layer.from_m)}, to not recorded"
    thick = layer.thickness if layer.thickness_m is None else depth(layer.thickness_m)
    return f"{layer.what}, {thick} thick: {spread}{_rests_on(layer.entries)}"


def _items(answer: Behind) -> Iterator[str]:
    if not answer.items:
        return
    edges = answer.edges or ("across", "up")
    yield ""
    up = f"{edges[1]}, {answer.along_curve}" if answer.along_curve else edges[1]
    yield from wrapped(f"ITEMS, nearest first. Across: {edges[0]}. Up: {up}.", 0, 2)
    told = dict.fromkeys(_heading(item) for item in answer.items)
    for heading in sorted(told, key=HEADINGS.index):
        yield from wrapped(f"- {heading}:")
        for item in answer.items:
            if _heading(item) == heading:
                yield from _item(item, answer)


#: In the order they are told: what comes through the panel is met first.
HEADINGS = (
    "CROSSES THE PANEL ITSELF",
    "HOW DEEP IS NOT RECORDED, keep clear of it at any depth",
    "WITHIN REACH, nearest first",
    "NEAR: recorded outside this space, may be in it by its tolerance",
)


def _heading(item: Item) -> str:
    if item.lies == CROSSES and item.depth_known:
        return HEADINGS[0]
    if not item.depth_known:
        return HEADINGS[1]
    return HEADINGS[3] if item.lies == NEAR else HEADINGS[2]


def _item(item: Item, answer: Behind) -> Iterator[str]:
    yield from wrapped(f"{item.tag}, {item.words}{_rests_on(item.entries)}")
    for line in item_lines(item, answer):
        yield from wrapped(line, 4, 6)
    for layer in item.layers:
        yield from wrapped(layer_line(layer), 6, 8)


def item_line(item: Item) -> str:
    """Return one item in one line: where it is recorded, how deep, how sure."""
    where = f"{_span(item.across)} across, {_span(item.upward)} up, deep {_deep(item.depth)}"
    return (
        f"{item.tag}, {item.words}: {where}; may reach {_span(item.across_may_reach)} across, "
        f"{_span(item.upward_may_reach)} up, deep {_deep(item.depth_may_reach)}; {_sure(item)}"
        f"{_rests_on(item.entries)}"
    )


def item_lines(item: Item, answer: Behind) -> Iterator[str]:
    """Yield where an item is recorded and how far it may reach, and how sure that is."""
    for name, recorded, reach, size in (
        ("across", item.across, item.across_may_reach, answer.width_m),
        ("up", item.upward, item.upward_may_reach, answer.height_m),
    ):
        yield f"{name}: {_within(recorded, size)}; may reach {_within(reach, size)}"
    yield f"deep: {_deep(item.depth)}; may reach {_deep(item.depth_may_reach)}"
    yield _sure(item)


def _within(span: Span, size: float | None) -> str:
    """Return a span on the panel; what passes an edge is said so, and not how far it goes on."""
    size = size or 0.0
    if span.to_m < 0:
        return f"off the panel, {length(-span.to_m)} before 0"
    if span.from_m > size:
        return f"off the panel, {length(span.from_m - size)} past its end"
    low = "beyond 0" if span.from_m < 0 else length(span.from_m)
    high = f"beyond {length(size)}" if span.to_m > size else length(span.to_m)
    return f"{low} to {high}"


def _deep(span: Span) -> str:
    if span.to_m == 0:
        return "in front of the face that depths count from"
    return f"{depth(span.from_m)} to {depth(span.to_m)}"


def _sure(item: Item) -> str:
    basis = "how it was measured is not recorded" if item.basis == "not known" else item.basis
    sure = [
        f"± {depth(item.tolerance_across_m)} across, {depth(item.tolerance_upward_m)} up, "
        f"{depth(item.tolerance_depth_m)} deep" + (", assumed" if item.assumed else ""),
        basis,
        item.cover,
    ]
    if item.interpolated and "interpolated" not in basis:
        sure.append("interpolated")
    if item.missing:
        sure.append(f"not recorded and filled out: {', '.join(item.missing)}")
    return "; ".join(sure)


def _rests_on(entries: Iterable[str]) -> str:
    numbers = ", ".join(dict.fromkeys(entries))
    return f" [{numbers}]" if numbers else ""
