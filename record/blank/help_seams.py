"""What clears a finding about seams, their coats and batches, as blocks to fill in."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from record.blank.form import Ask, Block, Row, gaps
from record.blank.help_pipes import fields_of, things
from record.blank.of_kind import ask, row_name
from record.checks.coats import layer_name, steps, under
from record.checks.finding import CERTAIN, Finding
from record.checks.hidden import Hidden
from record.entry import Entry
from record.facts import KINDS, STORED
from record.facts.looks import INSPECTIONS
from record.facts.values import Absent, Why
from record.fold import Thing

COATED = KINDS["coat applied"]
AIR = ("started", "ended", "lot", "surface", "dew point", "film")


def mend(entry: Entry, *keys: str) -> Block:
    """Return a block that mends fields of one entry of a happening."""
    assert entry.content is not None
    kind = next(kind for kind in KINDS.values() if kind.stored == entry.content.kind)
    asks = (Ask(key="mends", said=entry.number), *gaps("because", *keys))
    return Block(kind=kind, tag=entry.content.about, asks=asks)


def coats_of(finding: Finding) -> Sequence[Entry]:
    """Return the coats a finding rests on."""
    return [e for e in finding.entries if e.content and e.content.kind == COATED.stored]


def weld_passed_first(finding: Finding, hidden: Hidden) -> Iterator[Block]:
    looks = [e for e in finding.entries if e.content and _is_inspection(e)]
    if finding.says.startswith("its weld was passed"):
        return  # too late: only uncovering or a waiver is left
    failed = [e for e in looks if e.content and e.content.body.get("result") == "failed"]
    again = (Ask(key="retest of", said=failed[0].number),) if failed else ()
    yield Block(
        kind=KINDS["inspected"],
        tag=finding.about,
        asks=(
            *gaps("at"),
            Ask(key="what", said="weld all round"),
            *gaps("result"),
            Ask(key="criterion", hint="what the engineer asks of it"),
            *again,
        ),
    )


def _is_inspection(entry: Entry) -> bool:
    kind = STORED.get(entry.content.kind) if entry.content else None
    return kind is not None and kind.word in INSPECTIONS


def every_coat_on(finding: Finding, hidden: Hidden) -> Iterator[Block]:
    seam = hidden.built.things[finding.about]
    found = hidden.built.thing(seam.text("build-up"))
    if found is None:
        yield Block(kind=seam.kind, tag=seam.tag, asks=gaps("build-up"))
        return
    every = under(hidden, seam)
    uncounted = [layer.thing for layer in every if layer.needed is None]
    if uncounted:
        yield layer_rows(hidden, found, uncounted, "coats")
    missing = [step for step in steps(every) if not step.coats]
    rows = tuple(
        (
            Ask(key="layer", said=step.layer.name),
            Ask(key="coat", said=str(step.number)),
            *gaps(*AIR),
        )
        for step in missing
    )
    if rows:
        yield Block(kind=COATED, tag=seam.tag, rows=rows)


def layer_rows(hidden: Hidden, found: Thing, layers: Sequence[Thing], *keys: str) -> Block:
    """Return rows of a build-up that ask what was not recorded of its layers."""
    rows: list[Row] = []
    for layer in layers:
        lacks = [
            key
            for key in keys
            if isinstance(value := layer.value(key.replace(" ", "_")), Absent)
            and value.why is Why.NOT_RECORDED
        ]
        if lacks:
            rows.append((Ask(key="layer", said=row_name(layer)), *gaps(*lacks)))
    return Block(kind=found.kind, tag=found.tag, rows=tuple(rows))


def layers_in_order(finding: Finding, hidden: Hidden) -> Iterator[Block]:
    coats = coats_of(finding)
    if len(coats) == 1:  # of no layer of the build-up; two are a matter of their order
        seam = hidden.built.things[finding.about]
        found = hidden.built.thing(seam.text("build-up"))
        names = ", ".join(layer_name(part) for part in found.parts) if found else ""
        block = mend(coats[0], "layer")
        yield Block(kind=block.kind, tag=block.tag, asks=block.asks, notes=(f"layers: {names}",))


def waits_between_coats(finding: Finding, hidden: Hidden) -> Iterator[Block]:
    if not coats_of(finding):
        yield from _of_layers(finding, hidden, "least wait", "most wait")


def coats_thick_enough(finding: Finding, hidden: Hidden) -> Iterator[Block]:
    coats = coats_of(finding)
    if not coats:
        yield from _of_layers(finding, hidden, "thickness")
    elif finding.sure == CERTAIN:
        layer = str(coats[0].content.body.get("layer", "")) if coats[0].content else ""
        asks = (Ask(key="layer", said=layer), *gaps("coat", *AIR))
        yield Block(kind=COATED, tag=finding.about, asks=asks)
    else:
        yield from (mend(coat, "film") for coat in coats)


def _of_layers(finding: Finding, hidden: Hidden, *keys: str) -> Iterator[Block]:
    found = next(iter(things(finding, hidden, "build-up")), None)
    if found is not None:
        tags = {entry.content.about for entry in finding.entries if entry.content}
        layers = [part for part in found.parts if part.tag in tags]
        yield layer_rows(hidden, found, layers, *keys)


def steel_above_dew_point(finding: Finding, hidden: Hidden) -> Iterator[Block]:
    if finding.sure != CERTAIN:
        for coat in coats_of(finding)[:1]:
            body = coat.content.body if coat.content else {}
            lacks = [k for k in ("surface", "dew point") if _unread(body.get(k.replace(" ", "_")))]
            yield mend(coat, *lacks)


def _unread(form: object) -> bool:
    return form is None or (isinstance(form, dict) and "absent" in form)


def batch_used_in_time(finding: Finding, hidden: Hidden) -> Iterator[Block]:
    if finding.sure == CERTAIN:
        return
    batches = things(finding, hidden, "batch")
    for batch in batches:
        yield fields_of(hidden, batch, "mixed", "workable time", "last used")
    if not batches:
        field = COATED.field("batch")
        assert field is not None
        for coat in coats_of(finding):
            block = mend(coat)
            asked = ask(hidden.built, field)
            yield Block(kind=block.kind, tag=block.tag, asks=(*block.asks, asked))


def packing_clears_the_weld(finding: Finding, hidden: Hidden) -> Iterator[Block]:
    for panel in things(finding, hidden, "panel"):
        asks = (Ask(key="packing thickness", hint="once it is packed out"),)
        yield Block(kind=panel.kind, tag=panel.tag, asks=asks)
    for seam in things(finding, hidden, "seam"):
        yield fields_of(hidden, seam, "weld height")
