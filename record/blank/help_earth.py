"""What clears a finding about earth and hulls, as blocks to fill in."""

from __future__ import annotations

from collections.abc import Iterator

from record.blank.form import Ask, Block, Row, gaps
from record.blank.help_pipes import fields_of
from record.blank.help_seams import mend
from record.checks.finding import Finding
from record.checks.hidden import Hidden
from record.facts import KINDS
from record.fold import Thing
from record.readers import View


def cover_as_designed(finding: Finding, hidden: Hidden | View) -> Iterator[Block]:
    hull = hidden.built.things[finding.about]
    for name, keys in (
        ("design cover", ("design cover", "design cover by")),
        ("at most", ("most cover", "most cover by")),
    ):
        if name in finding.says:
            yield fields_of(hidden, hull, *keys)
            return
    row: Row = gaps("point", "x", "y", "cover", "how")
    again = [KINDS["cover measured"].stored]
    points = [
        str(entry.content.body.get("point", ""))
        for entry in finding.entries
        if entry.content and entry.content.kind in again
    ]
    if "less earth" in finding.says or "more earth" in finding.says:
        rows = tuple((Ask(key="point", said=point), *gaps("cover", "how")) for point in points)
        note = "Only once earth was added or taken off. Until then take this block out."
        yield Block(kind=KINDS["cover measured"], tag=hull.tag, notes=(note,), rows=rows)
        return
    yield Block(kind=KINDS["cover measured"], tag=hull.tag, rows=(row,) * 5)


def sides_filled_alike(finding: Finding, hidden: Hidden) -> Iterator[Block]:
    lift = finding.entries[0].content
    if lift is not None and finding.stops:
        asks = gaps("at", "lift", "side", "material", "to level")
        yield Block(kind=KINDS["backfilled"], tag=lift.about, asks=asks)


def shape_kept(finding: Finding, hidden: Hidden) -> Iterator[Block]:
    hull: Thing = hidden.built.things[finding.about]
    if finding.says.startswith("no inside length"):
        asks = (
            *gaps("at"),
            Ask(key="what", said="inside height, middle"),
            Ask(key="stage", said="before"),
            *gaps("measured", "limit", "limit from"),
        )
        yield Block(kind=KINDS["shape measured"], tag=hull.tag, asks=asks)
    elif "the limit is not known" in finding.says:
        yield mend(finding.entries[-1], "limit", "limit from")
