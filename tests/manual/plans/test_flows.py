"""The record → how air and water go."""

import re

from manual.drawings.flow import Join, Sort
from manual.plans.flows import air_flow, water_flow
from manual.plans.pictures import picture
from record.readers import look
from tests.manual.books import entries
from tests.record.building import day, view_of

OUT = """
## run AIR-OUT

- carries: exhaust air
- from: hull A, far wall
- to: discharge terminal

| station | x | y | level | how |
|---|---|---|---|---|
| 1 | 4.00 m | 10.00 m | invert 47.90 m | staff |
| 2 | 0.00 m | 10.00 m | invert 47.80 m | staff |
"""
OVER = (
    "## valve OV-1\n\n- type: overpressure\n- on run: AIR-OUT\n- at station: 1\n- opens at: 60 Pa"
    "\n- flow: outward"
)
TO_A = "## run AIR-IN\n\n- from: intake terminal\n- to: hull A, right wall"
UNIT = "## equipment AU-1\n\n- serves: A, AIR-IN"
DRAIN = "## drain DL-1\n\n- serves: AIR-IN\n- at station: 2\n- discharges: to D-1\n- through: D-1"
PIPE = """
## run D-1

- carries: condensate
- from: hull A, left wall
- to: bank
- outlet: flap

| station | x | y | level | how |
|---|---|---|---|---|
| 1 | 8.00 m | 10.00 m | invert 47.40 m | staff |
| 2 | 8.00 m | 0.00 m | invert 47.15 m | staff |
"""
BALL = (
    "## valve DV-1\n\n- type: ball\n- on run: D-1\n- at station: 1\n- isolates: drip leg"
    "\n- turns to close: quarter turn\n- closes: clockwise\n- normal position: shut"
)
SHUT = "## left as DV-1\n\n- at: 12:00\n- state: shut"


def net(flow):
    """Edges by the tags at their ends, as (start, end): how sure."""
    return {(e.start, e.end): e.join for e in flow.edges}


def node(flow, key):
    return next(each for each in flow.nodes if each.key == key)


def air(*blocks):
    return air_flow(look(entries(*blocks)))


def test_air_is_followed_from_the_terminal_to_the_room_and_out():
    found = net(air(TO_A, UNIT, OUT, OVER))
    assert list(found) == [
        ("AIR-IN", "CV-1"),
        ("AIR-IN from", "AIR-IN"),
        ("CV-1", "AU-1"),
        ("OV-1", "AIR-OUT"),
        ("hull A", "OV-1"),
        ("AIR-OUT", "AIR-OUT to"),
        ("AU-1", "hull A"),
    ]
    assert set(found.values()) == {Join.RECORDED}


def test_a_fan_that_only_stands_in_the_hull_is_joined_by_a_broken_line():
    assert net(air(TO_A))["CV-1", "AU-1"] is Join.NOT_RECORDED


def test_where_nobody_wrote_what_a_pipe_comes_from_there_is_a_gap():
    flow = air()
    (gap,) = [n for n in flow.nodes if n.key == "AIR-IN from"]
    assert (gap.sort, gap.head) == (Sort.GAP, "where AIR-IN comes from: not recorded")


def test_a_check_valve_is_no_shut_off_and_says_which_way_it_lets_through():
    flow = air(TO_A, OUT, OVER)
    assert node(flow, "OV-1").sort is Sort.ITSELF
    assert "lets through: outward" in node(flow, "OV-1").words
    assert "opens at 60 Pa" in node(flow, "OV-1").words
    assert "works by itself; it is no shut-off" in node(flow, "OV-1").words
    assert "lets through: not recorded" in node(flow, "CV-1").words


def test_a_drain_leads_its_water_into_the_pipe_it_is_said_to():
    flow = water_flow(look(entries(DRAIN, PIPE, BALL)))
    assert net(flow) == {
        ("DV-1", "D-1"): Join.RECORDED,
        ("D-1", "D-1 to"): Join.RECORDED,
        ("DL-1", "DV-1"): Join.RECORDED,
        ("AIR-IN", "DL-1"): Join.RECORDED,
    }
    assert node(flow, "D-1 to").words == ("flap",)


def test_a_valve_tells_what_it_isolates_and_how_it_is_shut():
    words = node(water_flow(look(entries(DRAIN, PIPE, BALL))), "DV-1").words
    assert "shut, it isolates: drip leg" in words
    assert "to shut it: quarter turn, clockwise" in words


def test_a_valve_left_shut_stops_the_water_and_one_nobody_wrote_of_is_not_known():
    left = net(water_flow(look(entries(DRAIN, PIPE, BALL, SHUT))))
    assert left["DV-1", "D-1"] is Join.SHUT
    words = " ".join(node(water_flow(look(entries(DRAIN, PIPE, BALL))), "DV-1").words)
    assert "POSITION NOT KNOWN" in words


def test_two_valves_at_one_station_are_one_box_and_which_is_first_is_not_said():
    second = BALL.replace("DV-1", "DV-2")
    flow = water_flow(look(entries(DRAIN, PIPE, BALL, second)))
    both = node(flow, "DV-1 DV-2")
    assert both.head == "DV-1 ball valve + DV-2 ball valve"
    assert "which of them comes first: not recorded" in both.words
    assert "DV-2: shut, it isolates: drip leg" in both.words


def test_water_that_stands_and_where_it_goes_is_told_beneath():
    flow = water_flow(look(entries(DRAIN, PIPE)))
    assert any("Water in D-1 runs to station 2" in note for note in flow.notes)


def test_nothing_recorded_is_a_gap_and_no_empty_picture():
    bare = view_of(day("2031-05-14", "ld", "## landmark H1\n\n- what: x\n- x: 1 m\n- y: 1 m"))
    assert air_flow(bare) is None and water_flow(bare) is None
    assert picture(bare, "air flow").startswith('<p class="gap">')


def test_what_a_reader_may_not_see_is_on_no_way():
    hidden = "## run AIR-X\n\n- readers: owner\n- carries: supply air\n- from: QQSECRET\n- to: A"
    for draw in ("air flow", "water flow"):
        seen = picture(look(entries(TO_A, DRAIN, PIPE, hidden), "technician"), draw)
        assert not re.search("AIR-X|QQSECRET", seen)
        assert "Further entries may exist" in seen
    assert "QQSECRET" in picture(look(entries(TO_A, hidden)), "air flow")


def test_the_sort_of_a_thing_on_a_pipe_is_said_in_the_language_that_is_spoken():
    from dataclasses import replace

    from manual.languages import english, speaking

    terms = {**english().record.terms, "ball": "kugel", "drain": "ablauf"}
    record = replace(english().record, code="de", terms=terms)
    with speaking(replace(english(), code="de", record=record)):
        flow = water_flow(look(entries(PIPE, BALL, DRAIN, TO_A)))
        assert flow is not None and node(flow, "DV-1").head == "DV-1 kugel valve"
        assert node(flow, "DL-1").head == "DL-1 ablauf"
