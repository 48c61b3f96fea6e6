"""A finding before hand-over → the blocks that clear it, to fill in."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import replace

from record.blank import help_earth, help_handover
from record.blank.form import Block, merged
from record.checks import Finding
from record.readers import View

HandoverHelp = Callable[[Finding, View], Iterator[Block]]

#: Handover rule → the blocks that clear a finding against it, once they are filled in.
HANDOVER_HELP: Mapping[str, HandoverHelp] = {
    "way out opens inward": help_handover.opens_inward,
    "way out about a foot below grade": help_handover.near_the_top,
    "way out found from above": help_handover.way_out_tied,
    "sand fits the room": help_handover.sand,
    "heap clear of lids and tools": help_handover.sand,
    "way out walked through": help_handover.way_out_walked,
    "in its hull": help_handover.nothing,
    "cover as designed": help_earth.cover_as_designed,
    "crank turned and timed": help_handover.crank_turned_and_timed,
    "procedure for emergency equipment": help_handover.procedure_for_equipment,
    "a drill for every emergency": help_handover.drill_for_every_event,
    "valve can be found and shut": help_handover.valve_found_and_shut,
    "panel can be taken off": help_handover.panel_comes_off,
    "two coats on cement board, one elsewhere": help_handover.boards_coated,
    "stores listed": help_handover.stores_listed,
    "the manual can say what it must": help_handover.manual_can_say,
    "every open item has somebody's name": help_handover.handed_to_somebody,
}


def of_handover(view: View, findings: Iterable[Finding]) -> tuple[Block, ...]:
    """Return what is still wanted before hand-over, as blocks to fill in; done work as notes."""
    return merged(block for one in findings for block in _blocks(one, view))


def _blocks(finding: Finding, view: View) -> Iterator[Block]:
    said = f"{'STOPS' if finding.stops else 'LOOK'} {finding.about}: {finding.says}"
    find = HANDOVER_HELP.get(finding.rule)
    asking = [b for b in (find(finding, view) if find else ()) if b.asks or b.rows or b.photos]
    if not asking:
        yield Block(notes=(said, " ".join(finding.clears)))
    for block in asking:
        yield replace(block, notes=(said, *block.notes) if block is asking[0] else block.notes)
