"""What clears a finding about deliveries, temporary things and positions, as blocks to fill in."""

from __future__ import annotations

from collections.abc import Iterator

from record.blank.form import Ask, Block, gaps
from record.checks.finding import Finding
from record.checks.hidden import Hidden
from record.facts import KINDS


def nothing_temporary_left_on(finding: Finding, hidden: Hidden) -> Iterator[Block]:
    thing = hidden.built.things[finding.about]
    if thing.kind.word != "temporary":
        yield from left_as(finding, hidden)
        return
    note = "Only once it is off. Until then take this block out."
    yield Block(kind=KINDS["taken off"], tag=thing.tag, notes=(note,), asks=gaps("at", "note"))


def left_as(finding: Finding, hidden: Hidden) -> Iterator[Block]:
    thing = hidden.built.things[finding.about]
    hint = f"normally {thing.words('normal_position')}"
    asks = (*gaps("at"), Ask(key="state", hint=hint))
    yield Block(kind=KINDS["left as"], tag=thing.tag, asks=asks)


def deliveries_balance(finding: Finding, hidden: Hidden) -> Iterator[Block]:
    item = hidden.built.thing(finding.about)
    if item is None or item.kind.word != "expected" or not _nothing_came(finding):
        return  # which it is, nobody can tell from here: see what the finding says
    yield Block(
        kind=KINDS["delivered"],
        tag=hidden.built.site,
        asks=(
            Ask(key="what", said=item.words("what")),
            Ask(key="amount", hint=f"planned {item.words('amount')}"),
            Ask(key="item", said=item.tag),
        ),
    )


def _nothing_came(finding: Finding) -> bool:
    return finding.clears[0].startswith("## delivered")
