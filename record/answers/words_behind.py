"""The answer to "what is behind this panel?" in plain lines."""

from __future__ import annotations

from collections.abc import Iterator

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
from record.answers.covers import AFTER
from record.answers.items import ROUND_M
from record.answers.saying import depth, length, section, wrapped
from record.answers.words_item import item_lines, rests_on, span_words
from record.answers.words_past import coat_lines, done_lines, photo_line
from record.place.frames import DEPTHS_FROM
from record.words import tell, tell_how_many, term

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
        *section(tell("answers.what_recorded"), recorded_lines(answer)),
        *section(tell("answers.how_sure"), how_sure_lines(answer)),
        *section(tell("answers.what_not_recorded"), not_recorded_lines(answer)),
        *section(tell("answers.hazards"), map(hazard_line, answer.hazards)),
        *section(tell("answers.isolate_first"), map(isolation_line, answer.isolations)),
        *section(tell("answers.who_to_call"), answer.call),
        *section(tell("answers.how_comes_off"), removal_lines(answer)),
        *section(tell("answers.layers_from_room_face"), map(layer_line, answer.layers)),
        *_items(answer),
        *section(tell("answers.what_was_done_here"), done_lines(answer)),
        *section(tell("answers.coats_in_room_which", room=answer.room), coat_lines(answer)),
        *section(tell("answers.photos"), map(photo_line, answer.photos)),
        "",
        *wrapped(term(STOP), 0, 0),
    ]


def _title(answer: Behind) -> Iterator[str]:
    yield tell("answers.behind", tag=answer.tag)
    size = tell("answers.size_not_recorded")
    if answer.width_m is not None and answer.height_m is not None:
        size = tell(
            "answers.wide_high", width_m=length(answer.width_m), height_m=length(answer.height_m)
        )
        if answer.along_curve:
            size += f" ({answer.along_curve})"
    yield from wrapped(
        tell(
            "answers.hull_face_room",
            hull=answer.hull,
            face=term(answer.face),
            room=answer.room,
            size=size,
        ),
        0,
        2,
    )
    asked = tell("answers.asked_whole_panel")
    if answer.at is not None:
        u, v = (length(each) for each in answer.at)
        asked = tell("answers.asked_round_across_up", round_m=length(ROUND_M), u=u, v=v)
    day = tell("answers.as_of", as_of=answer.as_of) if answer.as_of else ""
    yield from wrapped(
        tell(
            "answers.to_from",
            asked=asked,
            reach_m=length(answer.reach_m),
            depth_from=term(answer.depth_from),
            day=day,
        ),
        0,
        2,
    )
    yield from wrapped(
        tell("answers.reader", reader=answer.reader, further_entries=answer.further_entries), 0, 2
    )


def recorded_lines(answer: Behind) -> Iterator[str]:
    if answer.reserved:
        yield tell("answers.reserved_do_not_open")
    yield from (zone_line(zone, answer.width_m, answer.height_m) for zone in answer.zones)
    if answer.not_measured:
        yield (tell("answers.nothing_can_be_placed", not_measured=", ".join(answer.not_measured)))
    elif answer.items:
        count = len(answer.items)
        kinds = ", ".join(dict.fromkeys(item.tag for item in answer.items))
        yield tell_how_many("answers.in_this_space", count, kinds=kinds)
    else:
        yield term(EMPTY)
    if answer.depth_from != DEPTHS_FROM[0]:
        yield (tell("answers.thickness_lining_not_recorded"))


def zone_line(zone: Reserved, width_m: float | None, height_m: float | None) -> str:
    """Return a reserved zone in one line: where in the hull, where on the panel of a size, why."""
    spans = (
        (term("from near"), zone.from_near),
        (term("from left"), zone.from_left),
        (term("level"), zone.level),
    )
    where = "; ".join(f"{name} {span_words(span)}" for name, span in spans if span)
    here = ""
    if zone.across and zone.upward and width_m is not None and height_m is not None:
        across, upward = _cut(zone.across, width_m), _cut(zone.upward, height_m)
        here = tell(
            "answers.on_this_panel_across", across=span_words(across), upward=span_words(upward)
        )
        if (across, upward) == (Span(0.0, width_m), Span(0.0, height_m)):
            here = tell("answers.all_of_this_panel")
    return tell(
        "answers.reserved_zone",
        tag=zone.tag,
        where=where or tell("answers.place_not_recorded"),
        here=here,
        hazard=zone.hazard,
    )


def _cut(span: Span, size: float) -> Span:
    """Return what of a span is on a panel so wide or high."""
    return Span(max(0.0, span.from_m), min(size, span.to_m))


def how_sure_lines(answer: Behind) -> Iterator[str]:
    looked = answer.looked_at
    yield tell(
        "answers.behind_before_was_closed", upper=term(looked.state).upper(), words=looked.words
    )
    if looked.worked_since:
        yield tell("answers.worked_on_since_anybody", worked_since="; ".join(looked.worked_since))
    count = [
        (sum(item.assumed for item in answer.items), tell("answers.rest_on_assumed_tolerance")),
        (
            sum(item.interpolated for item in answer.items),
            tell("answers.are_interpolated_between_stations"),
        ),
        (sum(bool(item.missing) for item in answer.items), tell("answers.lack_measure_filled_out")),
        (
            sum(item.cover == AFTER for item in answer.items),
            tell("answers.were_written_after_cover"),
        ),
    ]
    said = [
        tell("answers.of", number=number, items=len(answer.items), words=words)
        for number, words in count
        if number
    ]
    if said:
        yield tell("answers.pieces", said="; ".join(said))
    for each in answer.disagreements:
        yield tell("answers.not_settled", tag=each.tag, field=term(each.field), words=each.words)
    for unread in answer.unread:
        yield tell_how_many("answers.unread", unread.count, tag=unread.tag)


def not_recorded_lines(answer: Behind) -> Iterator[str]:
    if answer.off_grid:
        yield tell("answers.hull_off_grid", hull=answer.hull, off_grid=", ".join(answer.off_grid))
    if answer.no_record_of:
        yield tell("answers.no_run_on_record", no_record_of=", ".join(answer.no_record_of))
    if answer.none_placed_of:
        yield tell("answers.on_record_but_no", none_placed_of=", ".join(answer.none_placed_of))
    if answer.carries_not_recorded:
        yield tell(
            "answers.runs_that_do_not", carries_not_recorded=", ".join(answer.carries_not_recorded)
        )
    said = [each for each in answer.anywhere if each.said_behind]
    rest = [each for each in answer.anywhere if not each.said_behind]
    for each in said:
        said_so = tell("answers.said_to_be_behind")
        yield f"{each.tag} ({each.words}) {said_so}"
    if rest:
        listed = "; ".join(f"{each.tag} ({each.words})" for each in rest)
        yield tell("answers.no_place_on_record", listed=listed)


def hazard_line(hazard: Hazard) -> str:
    return f"{term(hazard.signal.lower()).upper()}: {hazard.words}{rests_on(hazard.entries)}"


def isolation_line(isolation: Isolation) -> str:
    """Return what to shut or switch off, where it is and which way it turns."""
    if not isolation.tag:
        return f"{isolation.of}: {isolation.kind}"
    said = (
        (term("normally"), isolation.normal_position),
        (term("left as"), isolation.left_as),
        (term("turns to close"), isolation.turns_to_close),
        (term("closes"), isolation.closes),
        (term("isolates"), isolation.isolates),
        (term("reached by"), isolation.reached_by),
        (term("looks like"), isolation.looks_like),
    )
    words = "; ".join(f"{name}: {value}" for name, value in said if value != term("n/a"))
    of = "" if isolation.of == isolation.tag else f"{isolation.of}: "
    return (
        f"{of}{isolation.tag}, {isolation.kind}, {isolation.where}; {words}"
        f"{rests_on(isolation.entries)}"
    )


def removal_lines(answer: Behind) -> Iterator[str]:
    removal = answer.removal
    yield tell("answers.fixings", fixings=removal.fixings)
    yield tell("answers.comes_off", comes_off=removal.comes_off)
    order = f" {tell('answers.then')} ".join(removal.first) or removal.first_words
    yield tell("answers.before", order=order, entries=rests_on(removal.entries))


def layer_line(layer: Layer) -> str:
    """Return a layer with its thickness and its depths, or that they are not recorded."""
    if layer.side == "earth":
        start = term("not recorded") if layer.from_m is None else depth(layer.from_m)
        return tell("answers.then_earth_from", start=start)
    spread = tell("answers.depth_not_recorded")
    if layer.from_m is not None and layer.to_m is not None:
        spread = tell("answers.to_2", from_m=depth(layer.from_m), to_m=depth(layer.to_m))
    elif layer.from_m is not None:
        spread = tell("answers.from_to_not_recorded", from_m=depth(layer.from_m))
    thick = layer.thickness if layer.thickness_m is None else depth(layer.thickness_m)
    return tell(
        "answers.thick",
        what=layer.what,
        thick=thick,
        spread=spread,
        entries=rests_on(layer.entries),
    )


def _items(answer: Behind) -> Iterator[str]:
    if not answer.items:
        return
    edges = tuple(map(term, answer.edges or ())) or (tell("answers.across"), tell("answers.up"))
    yield ""
    up = f"{edges[1]}, {answer.along_curve}" if answer.along_curve else edges[1]
    yield from wrapped(tell("answers.items_nearest_first_across", edges=edges[0], up=up), 0, 2)
    told = dict.fromkeys(_heading(item) for item in answer.items)
    for heading in sorted(told, key=HEADINGS.index):
        yield from wrapped(f"- {term(heading)}:")
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
    yield from wrapped(f"{item.tag}, {item.words}{rests_on(item.entries)}")
    for line in item_lines(item, answer):
        yield from wrapped(line, 4, 6)
    for layer in item.layers:
        yield from wrapped(layer_line(layer), 6, 8)
