"""A brief to take along: what the record says of one panel or thing, on one or two pages.

Values only: everything in it comes from a reader's view, so that a copy for a technician holds
what a technician may know. What is found is written on the last part, or into the sheet beside it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from manual.drawings.both import in_feet
from manual.drawings.ink import Drawing
from manual.languages import say, term
from record.accounts.left import WITH_A_POSITION
from record.answers import behind
from record.answers.behind_panel import further
from record.answers.behind_values import NEAR, Behind, Hazard, Isolation, Item, Span
from record.answers.found import find_thing
from record.answers.hazards import SIGNALS, of_thing
from record.answers.history import history
from record.answers.isolations import isolations, where
from record.answers.saying import length
from record.answers.show import Shown, show
from record.answers.words_behind import (
    how_sure_lines,
    isolation_line,
    layer_line,
    not_recorded_lines,
    recorded_lines,
    removal_lines,
)
from record.answers.words_item import basis_words
from record.blank import Block
from record.blank.form import gaps
from record.facts import KINDS
from record.fold import Thing
from record.readers import View

PAST = 12  # of the newest; the rest is in the record
LONG = 150  # letters of what one entry says
PANELS = 3  # that a thing is told behind


@dataclass(frozen=True, slots=True)
class Row:
    """One piece that may lie in the space asked about; each measure is two lines, the second in
    feet and inches; the tolerance is across and up."""

    tag: str
    what: str
    across: str
    upward: str
    deep: str
    tolerance: str
    sure: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Brief:
    """One brief, ready to be set on pages; ``past`` is newest last."""

    tag: str
    title: str
    place: str
    reader: str
    further: str
    hazards: tuple[Hazard, ...]
    recorded: tuple[str, ...]
    not_recorded: tuple[str, ...]
    isolations: tuple[str, ...]
    drawing: Drawing | None
    caption: str
    edges: str
    rows: tuple[Row, ...]
    layers: tuple[str, ...]
    comes_off: tuple[str, ...]
    call: tuple[str, ...]
    past: tuple[str, ...]
    earlier: int = 0  # of the past, not printed
    blocks: tuple[Block, ...] = ()


def brief(view: View, tag: str, *, at: tuple[float, float] | None = None) -> Brief:
    """Return the brief of a panel or another thing. Raises NotFound, OffPanel."""
    thing = find_thing(view, tag)
    if thing.kind.word == "panel":
        return _of_panel(view, thing, at)
    return _of_thing(view, thing)


def with_past(whole: Brief, count: int) -> Brief:
    """Return a brief with the last ``count`` of its past by day, and how many are left out."""
    kept = tuple(sorted(whole.past[-count:])) if count else ()
    return replace(whole, past=kept, earlier=len(whole.past) - len(kept))


def _of_panel(view: View, panel: Thing, at: tuple[float, float] | None) -> Brief:
    answer = behind(view, panel.tag, at=at)
    drawing, caption = _elevation(answer)
    return Brief(
        tag=panel.tag,
        title=say("brief.behind", tag=panel.tag),
        place=say(
            "brief.hull_face_room",
            hull=answer.hull,
            face=answer.face,
            room=answer.room,
            answer=_size(answer),
        ),
        reader=view.reader,
        further=answer.further_entries,
        hazards=answer.hazards,
        recorded=(*recorded_lines(answer), *how_sure_lines(answer)),
        not_recorded=tuple(not_recorded_lines(answer)),
        isolations=tuple(map(isolation_line, answer.isolations)),
        drawing=drawing,
        caption=caption,
        edges=_edges(answer),
        rows=tuple(_row(item) for item in answer.items),
        layers=tuple(map(layer_line, answer.layers)),
        comes_off=tuple(removal_lines(answer)),
        call=answer.call,
        past=tuple(_past(answer)),
        blocks=tuple(_blocks(view, panel.tag, answer.isolations, opens=True)),
    )


def _past(answer: Behind) -> Iterator[str]:
    """Yield what was done, coats of the whole room first: those give way before what was done here.

    A long line is cut; the entry's number tells where the rest stands.
    """
    for one in sorted(answer.past, key=lambda each: each.about != answer.room):
        moment = f"{one.on} {one.at}" if one.at else one.on
        words = one.words if len(one.words) <= LONG else f"{one.words[:LONG].rsplit(' ', 1)[0]} …"
        void = f" {one.void}" if one.void else ""
        yield f"{moment} {one.about}: {one.kind}: {words} ({one.who}) [{one.entry}]{void}"


def _size(answer: Behind) -> str:
    if answer.width_m is None or answer.height_m is None:
        return say("brief.size_not_recorded")
    return say("brief.wide_high", width=length(answer.width_m), height=length(answer.height_m))


def _edges(answer: Behind) -> str:
    left, bottom = tuple(map(term, answer.edges or ())) or (
        say("brief.from_its_left_edge"),
        say("brief.from_its_bottom_edge"),
    )
    up = f"{bottom}, {answer.along_curve}" if answer.along_curve else bottom
    return say("brief.across_up_deep_from", left=left, up=up, depth_from=answer.depth_from)


def _elevation(answer: Behind) -> tuple[Drawing | None, str]:
    from manual.drawings.panel_elevation import panel_elevation
    from manual.plans.elevations import panel_drawing

    seen = panel_drawing(answer)
    caption = say("brief.as_you_stand_before", tag=answer.tag)
    if seen is None:
        return None, say("brief.nothing_with_a_recorded", tag=answer.tag)
    return panel_elevation(seen), caption


def _row(item: Item) -> Row:
    across, up = (
        _span(span, f"{span.from_m:.3f}", f"{span.to_m:.3f} m")
        for span in (item.across, item.upward)
    )
    deep = _span(
        item.depth,
        *(
            f"{m * 1000:.0f}{u}"
            for m, u in (
                (item.depth.from_m, ""),
                (item.depth.to_m, " mm"),
            )
        ),
    )
    if not item.depth_known:
        deep = say("brief.depth_not_recorded")
    elif item.depth.to_m < 0.0005:
        deep = say("brief.in_front_of_it")
    off = (item.tolerance_across_m, item.tolerance_upward_m)
    tolerance = "\n".join(
        "± " + " / ".join(dict.fromkeys(map(each, off))) + unit
        for each, unit in ((lambda tol: f"{tol * 1000:.0f}", " mm"), (in_feet, ""))
    )
    sure = [say("brief.by_tolerance")] if item.lies == NEAR else []
    sure += [
        basis_words(item),
        item.cover,
        *([say("brief.tolerance_assumed")] if item.assumed else []),
    ]
    sure += [say("brief.not_recorded", missing=", ".join(item.missing))] if item.missing else []
    return Row(item.tag, item.words, across, up, deep, tolerance, "; ".join(sure))


def _span(span: Span, start: str, to: str) -> str:
    """Return a span as it is told in metres, and under it in feet and inches."""
    feet = say("brief.to", start=in_feet(span.from_m), to=in_feet(span.to_m))
    return f"{say('brief.to', start=start, to=to)}\n{feet}"


def _of_thing(view: View, thing: Thing) -> Brief:
    whole = thing.tag.partition("/")[0]
    owner = view.built.thing(whole) or thing
    shown = show(view, thing.tag)
    met = [s for s in view.shapes if s.thing.tag.partition("/")[0] == whole]
    shut = isolations(view, owner, met)
    answers = tuple(_before(view, owner))
    hazards = {(h.signal, h.words): h for h in of_thing(view.built, owner)}
    hazards |= {(h.signal, h.words): h for each in answers for h in each.hazards}
    drawing, caption = _drawn(view, owner, answers)
    told = history(view, thing.tag).told
    return Brief(
        tag=thing.tag,
        title=f"{thing.tag}: {shown.kind}",
        place=where(thing),
        reader=view.reader,
        further=further(view),
        hazards=tuple(sorted(hazards.values(), key=lambda h: SIGNALS.index(h.signal))),
        recorded=tuple(_fields(shown)),
        not_recorded=tuple(_lacking(shown)),
        isolations=tuple(map(isolation_line, shut)),
        drawing=drawing,
        caption=caption,
        edges=_edges(answers[0]) if answers else "",
        rows=tuple(
            _row(item)
            for item in (answers[0].items if answers else ())
            if item.tag.partition("/")[0] == whole
        ),
        layers=(),
        comes_off=tuple(
            f"{each.tag}: {'; '.join(removal_lines(each))}" for each in answers[:PANELS]
        ),
        call=answers[0].call if answers else (),
        past=tuple(
            f"{told_.entry.content.on} {told_.kind}: {'; '.join(told_.said)} [{told_.entry.number}]"
            for told_ in told
            if told_.entry.content and not told_.over
        ),
        blocks=tuple(_blocks(view, thing.tag, shut, opens=False)),
    )


def _before(view: View, thing: Thing) -> Iterator[Behind]:
    """Yield what lies behind each panel that the thing lies behind, for the first few."""
    hulls = {shape.hull for shape in view.shapes if shape.thing.tag == thing.tag}
    found = 0
    for panel in view.built.of_kind("panel"):
        if found >= PANELS:
            return
        if panel.text("hull") in hulls or thing.text("hull") == panel.text("hull"):
            answer = behind(view, panel.tag)
            if any(item.tag.partition("/")[0] == thing.tag for item in answer.items):
                found += 1
                yield answer


def _drawn(view: View, thing: Thing, answers: Sequence[Behind]) -> tuple[Drawing | None, str]:
    if answers:
        return _elevation(answers[0])
    run = view.built.thing(thing.text("on_run") or thing.text("serves") or thing.tag)
    if run is not None and run.kind.word == "run":
        from manual.drawings.long_section import long_section
        from manual.plans.drawn import run_section

        section = run_section(view, run)
        if section is not None:
            said = say("brief.long_section_not_to", tag=run.tag)
            return long_section(section), said
    return None, say("brief.no_place_is_recorded", tag=thing.tag)


def _fields(shown: Shown) -> Iterator[str]:
    for field in shown.fields:
        numbers = ", ".join(dict.fromkeys(held.entry.number for held in field.held))
        mark = "" if field.settled else say("brief.not_settled")
        yield f"{mark}{field.name}: {field.words} [{numbers}]"
    for proof in shown.lapsed:
        yield f"{proof.name}: {proof.words}"


def _lacking(shown: Shown) -> Iterator[str]:
    if shown.not_recorded:
        yield say("brief.nobody_wrote", not_recorded=", ".join(shown.not_recorded))
    if shown.unread:
        yield say("brief.about_it_too_and", unread=", ".join(shown.unread))


def _blocks(view: View, tag: str, shut: Iterable[Isolation], *, opens: bool) -> Iterator[Block]:
    """Yield what is to be written on the spot: what was found, and how everything was left."""
    if opens:
        opened = gaps("at", "what", "why", "depth", "closed again")
        yield Block(kind=KINDS["opened up"], tag=tag, asks=opened, photos=(_caption(tag),))
    yield Block(kind=KINDS["inspected"], tag=tag, asks=gaps("at", "what", "result", "reading"))
    worked = (one for one in shut if not one.turns_to_close.startswith("n/a,"))  # by nobody's hand
    touched = [one.tag for one in worked if one.tag and view.built.thing(one.tag)]
    thing = view.built.thing(tag)
    if thing is not None and thing.kind.word in WITH_A_POSITION:
        touched.insert(0, tag)
    for each in dict.fromkeys(touched):
        yield Block(kind=KINDS["left as"], tag=each, asks=gaps("at", "state"))
    yield Block(kind=KINDS["remark"], tag=tag, asks=gaps("text"))


def _caption(tag: str) -> str:
    return f"wide, open, rule in view, shows {tag}"
