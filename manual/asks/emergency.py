"""The emergency pages: one event a page, in a fixed order, whether or not it was recorded.

What somebody recorded is printed as they wrote it. An event without a drill prints the draft,
filled with what the record knows to be there, and says that it is one; a piece nobody recorded
prints as a gap to be filled in by hand. A page that is not there cannot be missed by someone who
looks for it.
"""

from __future__ import annotations

import html
from collections.abc import Iterator, Sequence
from dataclasses import replace

from markupsafe import Markup

from manual.asks.asking import Answer, Told
from manual.asks.draft import SAND, SAND_BELOW, Draft, drafts, for_event, things_of
from manual.asks.emergency_page import Page, Step, Touched, Words
from manual.asks.recognised import with_photos
from manual.drawings.floor_map import floor_map
from manual.languages import say, term
from manual.plans.drawn import sort_of
from manual.plans.floor import floor_plan, may_be_filled
from manual.plans.reuse import drawn_by, once
from manual.plans.ways import maybe_out, openings_out
from record.facts.kind import OWNER
from record.facts.values import Absent, Why
from record.fold import Thing
from record.readers import View

#: In the order of the pages; what each is headed stands under its name, ``event.get_out``.
EVENTS: tuple[str, ...] = (
    "get out",
    "power lost",
    "air bad",
    "fire inside",
    "smoke outside",
    "water coming in",
    "trapped",
    "collapse inside",
    "start a stay",
    "open after long closure",
)
NOT_RECORDED = Told(Absent(Why.NOT_RECORDED), None)


def heading(event: str) -> str:
    return say(f"event.{event.replace(' ', '_')}")


def last_way() -> str:
    return say("event.last_way")


def never_below() -> str:
    return say("event.never_below")


def pages(view: View) -> list[Page]:
    """Return every emergency page, in order; a second drill for an event has its own page."""
    return once(
        view,
        "emergency pages",
        lambda: [page for event in EVENTS for page in _event(view, event, heading(event))],
    )


def _event(view: View, event: str, heading: str) -> Iterator[Page]:
    drills = [p for p in view.built.of_kind("procedure") if p.text("event") == event]
    through = {p.tag for p in drills if _ways(view, p)}
    plain = [p for p in drills if p.tag not in through]
    if not plain:
        yield _drafted(view, for_event(event), heading)
    for number, one in enumerate(plain, start=1):
        # A loose page must say which event it is for, and that there is another.
        words = (
            heading
            if len(plain) == 1
            else say("emergency.of", heading=heading, number=number, plain=len(plain))
        )
        yield _recorded(view, one, words)
    if event == "get out":
        yield from _last_ways(view, [p for p in drills if p.tag in through])


def _last_ways(view: View, drills: Sequence[Thing]) -> Iterator[Page]:
    """The owner's drill for a filled shaft, or the trade's warning: never both on one page."""
    if view.reader != OWNER:
        # A warning of the trade is whole as it is: nobody has to walk it through.
        yield replace(_drafted(view, drafts()[SAND_BELOW], never_below()), draft=False)
        return
    for drill in drills:
        names = [way.text("name") or way.tag for way in _ways(view, drill)]
        yield _recorded(view, drill, say("emergency.last_way_out", names=", ".join(names)))
    shafts = [way for way in view.built.of_kind("way out") if may_be_filled(way)]
    if not drills and shafts:
        known = any(way.text("fill") for way in shafts)
        yield _drafted(view, drafts()[SAND], last_way() if known else say("event.last_way_unsure"))


def _ways(view: View, drill: Thing) -> list[Thing]:
    tags = {tag for step in drill.parts for tag in step.tags("touches")}
    return [way for way in view.built.of_kind("way out") if way.tag in tags]


def _recorded(view: View, drill: Thing, heading: str) -> Page:
    answer = Answer(drill)
    known = view.built.things
    tags = [tag for step in drill.parts for tag in step.tags("touches") if tag in known]
    numbers = {tag: n for n, tag in enumerate(dict.fromkeys(tags), start=1)}
    steps = tuple(
        Step(
            Answer(step)["do"],
            Answer(step)["caution"],
            tuple(numbers[tag] for tag in step.tags("touches") if tag in numbers),
        )
        for step in drill.parts
    )
    page = Page(
        event=drill.text("event") or "",
        heading=heading,
        draft=False,
        sign=answer["sign"],
        signal=answer["signal word"],
        danger=answer["danger"],
        steps=steps,
        ways_out=_ways_out(view) if answer["ways out"].missing else answer["ways out"],
        call=answer["call"],
        afterwards=answer["afterwards"],
        touched=tuple(_touched(view, numbers)),
    )
    return with_photos(view, _with_plan(view, page))


def _drafted(view: View, draft: Draft, heading: str) -> Page:
    of_step = [things_of(view, step.touches) for step in draft.steps]
    tags = dict.fromkeys(thing.tag for things in of_step for thing in things)
    numbers = {tag: n for n, tag in enumerate(tags, start=1)}
    steps = tuple(
        Step(_filled_in(step.do, things), step.caution, tuple(numbers[t.tag] for t in things))
        for step, things in zip(draft.steps, of_step, strict=True)
    )
    page = Page(
        event=draft.event,
        heading=heading,
        draft=True,
        sign=draft.sign,
        signal=draft.signal,
        danger=draft.danger,
        steps=steps,
        ways_out=_ways_out(view),
        call=draft.call,
        afterwards=draft.afterwards,
        touched=tuple(_touched(view, numbers)),
    )
    return with_photos(view, _with_plan(view, page))


def _filled_in(do: str, things: Sequence[Thing]) -> str:
    """Return a step with how the one thing it touches is known set before it."""
    looks = things[0].text("looks_like") if len(things) == 1 and ":" not in do else None
    return f"{looks[0].upper()}{looks[1:]}: {do[0].lower()}{do[1:]}" if looks else do


def _ways_out(view: View) -> Words:
    names = [opening.text("name") or opening.tag for opening in openings_out(view)]
    return "; ".join((*names, *maybe_out(view))) or NOT_RECORDED


def _touched(view: View, numbers: dict[str, int]) -> Iterator[Touched]:
    for tag, number in numbers.items():
        thing = view.built.things[tag]
        kind = thing.kind
        answer = Answer(thing)
        looks = answer["looks like"] if kind.field("looks like") else NOT_RECORDED
        type_ = thing.text("type") if kind.field("type") else None
        what = term(type_ if type_ and type_ != "other" else kind.word)
        if kind.word == "equipment" and type_ in (None, "other"):
            what = thing.text("name") or term("equipment")
        elif kind.word == "valve":
            what = sort_of(thing)
        yield Touched(number, looks, what, _where(view, thing), tuple(_work(answer)), tag)


def _work(answer: Answer) -> Iterator[tuple[str, Words]]:
    """Yield how a thing is shut, and how it stands when nothing is wrong."""
    thing = answer.thing
    if thing.kind.word == "valve":
        turns, way = answer["turns to close"], answer["closes"]
        if isinstance(thing.value("turns_to_close"), Absent) and not turns.missing:
            yield say("emergency.to_shut"), turns  # none, or not applicable and why
        else:
            yield say("emergency.to_shut"), turns
            yield say("emergency.turn"), way
    if thing.kind.field("normal position") and answer.has("normal position"):
        yield say("emergency.normal"), answer["normal position"]


def _where(view: View, thing: Thing) -> str:
    kind = thing.kind
    hull = thing.text("hull") if kind.field("hull") else None
    if hull:
        rooms = [r.text("name") for r in view.built.of_kind("room") if r.text("hull") == hull]
        named = ", ".join(name for name in rooms if name)
        return named or say("emergency.hull", hull=hull)
    if kind.field("reached by") and thing.text("reached_by"):
        return thing.words("reached_by")
    return say("emergency.place_not_recorded")


def _with_plan(view: View, page: Page) -> Page:
    """Return a page with its own small plan, smaller where its words need the room."""
    named = [(one.number, f"{one.what}, {one.where}", one.tag) for one in page.touched]
    plan = floor_plan(
        view,
        named,
        filled=say("emergency.last_way") if view.reader == OWNER else say("emergency.filled_shaft"),
    )
    if plan is None:
        return page
    high = page.plan_mm
    drawn = drawn_by(
        floor_map,
        plan,
        title=say("emergency.where_it_is", heading=page.heading),
        width_mm=high + 4.0,
        most_high_mm=high,
    )
    label = html.escape(drawn.alt)
    return replace(
        page,
        plan=Markup(f'<figure class="map" aria-label="{label}">\n{drawn.svg.strip()}\n</figure>'),
    )
