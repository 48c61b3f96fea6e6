"""What clears a finding before hand-over, as blocks to fill in."""

from __future__ import annotations

from collections.abc import Iterator

from record.blank.form import Ask, Block, Row, gaps
from record.blank.of_kind import ask, of_kind, row_name
from record.checks.finding import Finding
from record.checks.two_ties_and_a_check import WANTED, landmarks
from record.checks.way_out_walked import EVENT
from record.facts import KINDS
from record.place import tied_points
from record.readers import View


def handed_to_somebody(finding: Finding, view: View) -> Iterator[Block]:
    item = view.built.things[finding.about]
    yield Block(kind=item.kind, tag=item.tag, asks=(Ask(key="by whom", hint="who settles it"),))


def nothing(finding: Finding, view: View) -> Iterator[Block]:
    """Nothing can be typed that clears it: it is done on the ground first."""
    return iter(())


def opens_inward(finding: Finding, view: View) -> Iterator[Block]:
    thing = view.built.things[finding.about]
    key, hint = ("opens", "inward, and how") if thing.kind.word == "way out" else ("swing", "")
    yield Block(
        kind=thing.kind,
        tag=thing.tag,
        notes=("Only once it was tried, empty. Until then take this block out.",),
        asks=(Ask(key=key, hint=hint),),
    )


def near_the_top(finding: Finding, view: View) -> Iterator[Block]:
    if finding.stops:
        way = view.built.things[finding.about]
        yield Block(kind=way.kind, tag=way.tag, asks=gaps("top below grade"))


def way_out_tied(finding: Finding, view: View) -> Iterator[Block]:
    known = landmarks(tied_points(view.built), (finding.about,))
    point = Ask(key="point", said="middle of the top")
    row: Row = (*gaps("landmark"), point, *gaps("distance", "side"))
    rows = (row,) * (WANTED - len(known))
    yield Block(kind=KINDS["position tied"], tag=finding.about, rows=rows)


def sand(finding: Finding, view: View) -> Iterator[Block]:
    """The measures of the shaft that lack; a heap that does not fit is not mended by words."""
    way = view.built.things[finding.about]
    if way.kind.word != "way out" or finding.sure == "certain":
        return
    keys = ("face", "section along", "section across", "fill from", "fill to")
    lacks = [
        key
        for key in keys
        if way.text(name := key.replace(" ", "_")) is None and way.si(name) is None
    ]
    if view.built.thing(way.text("receives_fill")) is None:
        lacks.append("receives fill")
    if "keep clear" in finding.says:
        lacks.append("keep clear")
    if lacks:
        yield Block(kind=way.kind, tag=way.tag, asks=gaps(*lacks))


def way_out_walked(finding: Finding, view: View) -> Iterator[Block]:
    kind = KINDS["procedure"]
    drill = next(
        (one for one in view.built.of_kind("procedure") if f" {one.tag} " in finding.says), None
    )
    if drill is not None:
        yield Block(kind=kind, tag=drill.tag, asks=gaps("walked by", "took"))
        return
    event = Ask(key="event", said=EVENT)
    yield _procedure(finding.about, event, *gaps("walked by"))


def procedure_for_equipment(finding: Finding, view: View) -> Iterator[Block]:
    yield _procedure(finding.about, *gaps("event"))


def drill_for_every_event(finding: Finding, view: View) -> Iterator[Block]:
    lacks = finding.says.partition(": ")[2].partition(";")[0].split(", ")
    for event in lacks:
        yield _procedure("", Ask(key="event", said=event))


def _procedure(touches: str, event: Ask, *more: Ask) -> Block:
    touched = (Ask(key="touches", said=touches),) if touches else ()
    step: Row = (*gaps("step", "do", "caution"), *touched)
    asks = (event, *gaps("sign", "signal word", "danger"), *more)
    return Block(kind=KINDS["procedure"], asks=asks, rows=(step,))


def crank_turned_and_timed(finding: Finding, view: View) -> Iterator[Block]:
    reading = Ask(key="reading", hint="the flow, the turns a minute by a watch, how many people")
    yield Block(
        kind=KINDS["tested"],
        tag=finding.about,
        asks=(
            *gaps("at"),
            Ask(key="test", said="flow by crank"),
            *gaps("result"),
            reading,
            *gaps("limit", "instrument"),
        ),
    )


def valve_found_and_shut(finding: Finding, view: View) -> Iterator[Block]:
    valve = view.built.things[finding.about]
    lacks = [key for key in ("turns to close", "closes") if f"{key} not recorded" in finding.says]
    inside = ("from near", "from left") if valve.text("hull") else ("x", "y")
    if "no two ties" in finding.says:
        lacks += [key for key in inside if valve.si(key.replace(" ", "_")) is None]
    if lacks:
        yield Block(kind=valve.kind, tag=valve.tag, asks=gaps(*lacks))
    if "no photo" in finding.says:
        caption = f"close, looking ____, {valve.tag}: ____, rule in view, shows {valve.tag}"
        yield Block(kind=KINDS["remark"], tag=valve.tag, photos=(caption,))


def panel_comes_off(finding: Finding, view: View) -> Iterator[Block]:
    for tag in dict.fromkeys(entry.content.about for entry in finding.entries if entry.content):
        panel = view.built.things[tag]
        yield Block(kind=panel.kind, tag=tag, asks=gaps("comes off"))


def boards_coated(finding: Finding, view: View) -> Iterator[Block]:
    note = "Only once they are on. Until then take this block out."
    for tag in dict.fromkeys(entry.content.about for entry in finding.entries if entry.content):
        panel = view.built.things[tag]
        yield Block(kind=panel.kind, tag=tag, notes=(note,), asks=gaps("coats"))


def stores_listed(finding: Finding, view: View) -> Iterator[Block]:
    store = view.built.things[finding.about]
    lacks = [part for part in store.parts if part.count("count") is None]
    rows: tuple[Row, ...] = tuple(
        (Ask(key="item", said=row_name(part)), *gaps("count")) for part in lacks
    )
    if not store.parts:
        rows = (gaps("item", "what", "count", "each", "expires"),)
    yield Block(kind=store.kind, tag=store.tag, rows=rows)


def manual_can_say(finding: Finding, view: View) -> Iterator[Block]:
    """A field of the site is asked; of a kind that is not there at all, a whole new thing."""
    words = finding.says.removeprefix("no ").partition(" is recorded")[0]
    if words in KINDS and finding.says.startswith("no "):
        yield of_kind(view.built, KINDS[words])
        return
    field = KINDS["site"].field(finding.says.partition(":")[0])
    if field is not None:
        yield Block(kind=KINDS["site"], tag=view.built.site, asks=(ask(view.built, field),))
