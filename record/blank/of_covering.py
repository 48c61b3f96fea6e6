"""A covering → the form of all that is still wanted before it goes on, and its release."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace

from record.blank import help_earth, help_looks, help_material, help_pipes, help_seams
from record.blank.form import Ask, Block, gaps, merged
from record.checks import Finding, ready
from record.checks.hidden import Hidden, what_it_hides
from record.checks.words import waiver_words
from record.facts import KINDS
from record.readers import View

Help = Callable[[Finding, Hidden], Iterator[Block]]

#: Rule → the blocks that clear a finding against it, once they are filled in.
HELP: Mapping[str, Help] = {
    "all it hides is recorded": help_looks.all_named_recorded,
    "nothing in the way unnamed": help_looks.in_the_way,
    "every entry read": help_looks.nothing,
    "no two statements differ": help_looks.nothing_unsettled,
    "every station levelled": help_pipes.stations,
    "pipe falls the right way": help_pipes.falls_the_right_way,
    "pipe falls enough": help_pipes.falls_enough,
    "trunk large enough for its branches": help_pipes.trunk_large_enough,
    "levels from a closed run": help_looks.nothing,
    "ties agree": help_looks.nothing,
    "two ties and a check tie": help_pipes.two_ties_and_a_check,
    "every thing in one place": help_looks.nothing,
    "in its hull": help_looks.nothing,
    "no two things in one place": help_looks.nothing,
    "drain at every low point": help_pipes.drain_at_low_point,
    "drain outlet clear of frost": help_pipes.outlet_clear_of_frost,
    "check valve at the low end": help_pipes.check_valve_at_low_end,
    "valve turned the right way": help_pipes.valve_turned_right,
    "sealed inside and out": help_pipes.sealed_inside_and_out,
    "weld passed before the first layer": help_seams.weld_passed_first,
    "build-up in the usual order": help_looks.nothing,
    "every coat on": help_seams.every_coat_on,
    "layers in order": help_seams.layers_in_order,
    "waits kept between coats": help_seams.waits_between_coats,
    "coats thick enough": help_seams.coats_thick_enough,
    "steel 3 °C above dew point": help_seams.steel_above_dew_point,
    "batch used in time": help_seams.batch_used_in_time,
    "packing clears the weld": help_seams.packing_clears_the_weld,
    "sides filled alike": help_earth.sides_filled_alike,
    "hull kept its shape": help_earth.shape_kept,
    "cover as designed": help_earth.cover_as_designed,
    "what failed passed again": help_looks.failed_passed_again,
    "no lapsed proof": help_looks.no_lapsed_proof,
    "photo wide and close before cover": help_looks.photo_before_cover,
    "photo of every side of a seam before cover": help_looks.photo_of_every_side,
    "photo with a scale": help_looks.photo_with_a_scale,
    "camera agrees with its sheet": help_looks.nothing,
    "right before it was covered": help_looks.nothing,
    "released before it was covered": help_looks.nothing,
    "water below the float mark": help_looks.water_in_the_pit,
    "a waiver names rule, reason and second": help_looks.waivers,
    "pipe can be found again": help_pipes.can_be_found_again,
    "drain kept open": help_pipes.drain_kept_open,
    "valve can be worked": help_pipes.valve_can_be_worked,
    "nothing temporary left on": help_material.nothing_temporary_left_on,
    "valves in a stated position": help_material.left_as,
    "deliveries balance": help_material.deliveries_balance,
}


def of_covering(view: View, tag: str) -> tuple[Block, ...]:
    """
    Return what `ready` still wants before a covering, as blocks to fill in; its release last.

    What no words can clear stands as a note: it is done on the ground, or two people waive it.
    Raises NoSuchCovering.
    """
    readiness = ready(view, tag)
    hidden = what_it_hides(view, readiness.covering)
    blocks = [block for one in readiness.findings for block in _blocks(one, hidden)]
    return (*merged(blocks), _release(tag))


def _blocks(finding: Finding, hidden: Hidden) -> Iterator[Block]:
    if finding.waived:
        said = f"WAIVED {finding.about}: {finding.says}; {waiver_words(finding.waived)}"
        yield Block(notes=(said,))
        return
    said = f"{'STOPS' if finding.stops else 'LOOK'} {finding.about}: {finding.says}"
    helped = [*HELP.get(finding.rule, help_looks.nothing)(finding, hidden)]
    asking = [block for block in helped if block.asks or block.rows or block.photos]
    if not asking:
        more = [note for block in helped for note in block.notes] or [" ".join(finding.clears)]
        yield Block(notes=(said, *more))
    for block in asking:
        yield replace(block, notes=(said, *block.notes) if block is asking[0] else block.notes)


def _release(tag: str) -> Block:
    return Block(
        kind=KINDS["hold released"],
        tag=tag,
        notes=(
            f"Only once `asburied ready {tag}` names nothing more, or two people waived what it "
            "names. Until then take this block out.",
        ),
        asks=(
            *gaps("at"),
            Ask(key="by", hint="the lead, who releases it"),
            Ask(key="hold", said=f"before {tag}"),
            Ask(key="second", hint="the second person, who looked too"),
        ),
    )
