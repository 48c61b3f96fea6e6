"""The rules, in the order a foreman would ask them."""

from __future__ import annotations

from difflib import get_close_matches

from record.checks import (
    all_named_recorded,
    batch_used_in_time,
    boards_coated,
    build_up_in_usual_order,
    camera_agrees,
    can_be_found_again,
    check_valve_at_low_end,
    coats_thick_enough,
    cover_as_designed,
    crank_turned_and_timed,
    deliveries_balance,
    drain_at_low_point,
    drain_kept_open,
    drill_for_every_event,
    every_coat_on,
    every_entry_read,
    every_station_levelled,
    failed_passed_again,
    falls_enough,
    falls_the_right_way,
    handed_to_somebody,
    heap_clear_of_lids,
    in_one_place,
    in_the_way,
    layers_in_order,
    levels_closed,
    lies_in_its_hull,
    manual_can_say,
    no_lapsed_proof,
    nothing_temporary_left_on,
    nothing_unsettled,
    outlet_clear_of_frost,
    packing_clears_the_weld,
    panel_comes_off,
    photo_before_cover,
    photo_of_every_side,
    photo_with_a_scale,
    procedure_for_equipment,
    released,
    right_before_covered,
    sand_fits,
    sealed_inside_and_out,
    shape_kept,
    sides_filled_alike,
    steel_above_dew_point,
    stores_listed,
    ties_agree,
    trunk_large_enough,
    two_in_one_place,
    two_ties_and_a_check,
    valve_can_be_worked,
    valve_found_and_shut,
    valve_turned_right,
    valves_in_a_stated_position,
    waits_between_coats,
    waivers,
    water_in_the_pit,
    way_out_near_the_top,
    way_out_opens_inward,
    way_out_tied,
    way_out_walked,
    weld_passed_first,
)
from record.checks.finding import HandoverRule, Rule
from record.facts.faults import plain

RULES: tuple[Rule, ...] = (
    all_named_recorded.RULE,
    in_the_way.RULE,
    every_entry_read.RULE,
    water_in_the_pit.RULE,
    nothing_unsettled.RULE,
    every_station_levelled.RULE,
    falls_the_right_way.RULE,
    falls_enough.RULE,
    trunk_large_enough.RULE,
    levels_closed.RULE,
    ties_agree.RULE,
    two_ties_and_a_check.RULE,
    lies_in_its_hull.RULE,
    two_in_one_place.RULE,
    in_one_place.RULE,
    drain_at_low_point.RULE,
    outlet_clear_of_frost.RULE,
    check_valve_at_low_end.RULE,
    valve_turned_right.RULE,
    sealed_inside_and_out.RULE,
    weld_passed_first.RULE,
    build_up_in_usual_order.RULE,
    every_coat_on.RULE,
    layers_in_order.RULE,
    waits_between_coats.RULE,
    coats_thick_enough.RULE,
    steel_above_dew_point.RULE,
    batch_used_in_time.RULE,
    packing_clears_the_weld.RULE,
    sides_filled_alike.RULE,
    shape_kept.RULE,
    cover_as_designed.RULE,
    failed_passed_again.RULE,
    no_lapsed_proof.RULE,
    photo_before_cover.RULE,
    photo_of_every_side.RULE,
    photo_with_a_scale.RULE,
    camera_agrees.RULE,
    right_before_covered.RULE,
    released.RULE,
    waivers.RULE,
    can_be_found_again.RULE,
    drain_kept_open.RULE,
    valve_can_be_worked.RULE,
    nothing_temporary_left_on.RULE,
    valves_in_a_stated_position.RULE,
    deliveries_balance.RULE,
)
WORDS = tuple(rule.word for rule in RULES)
#: Asked of the whole record before the crew hands it over: ``rule.find(view)`` yields Findings.
HANDOVER_RULES: tuple[HandoverRule, ...] = (
    way_out_opens_inward.RULE,
    way_out_near_the_top.RULE,
    way_out_tied.RULE,
    sand_fits.RULE,
    heap_clear_of_lids.RULE,
    way_out_walked.RULE,
    lies_in_its_hull.AT_HANDOVER,
    cover_as_designed.AT_HANDOVER,
    crank_turned_and_timed.RULE,
    procedure_for_equipment.RULE,
    drill_for_every_event.RULE,
    valve_found_and_shut.RULE,
    panel_comes_off.RULE,
    boards_coated.RULE,
    stores_listed.RULE,
    manual_can_say.RULE,
    handed_to_somebody.RULE,
)
HANDOVER_WORDS = tuple(rule.word for rule in HANDOVER_RULES)


def rule_named(word: str) -> Rule | HandoverRule | None:
    """Return the rule of that name, in any case and spacing; or the one that begins so."""
    name = plain(word)
    every: tuple[Rule | HandoverRule, ...] = (*RULES, *HANDOVER_RULES)
    found = [rule for rule in every if rule.word.casefold() == name]
    begun = {rule.word: rule for rule in every if rule.word.casefold().startswith(name)}
    if not found and name and len(begun) == 1:
        return next(iter(begun.values()))
    return found[0] if found else None


def explain(word: str) -> str:
    """Return why a rule is one, or the nearest rule's name and the whole list. Never raises."""
    rule = rule_named(word)
    if rule is not None:
        return f"{rule.word}\n{rule.why}"
    every = tuple(dict.fromkeys((*WORDS, *HANDOVER_WORDS)))
    near = get_close_matches(word.casefold(), every, 1, 0.4)
    if near:
        more = "`asburied ready --explain all` lists them."
        return f'"{word}" is no rule. Did you mean "{near[0]}"? {more}'
    return "\n".join((f'"{word}" is no rule. The rules are:', *(f"  {w}" for w in every)))
