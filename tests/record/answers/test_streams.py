"""Upstream and downstream: one drip leg, one drain, two ball valves whose plates were swapped."""

import pytest

from record.answers import CannotAnswer, NotFound, json_form
from record.answers.stream_words import stream_words
from record.answers.streams import stream
from tests.record.answers.shelter import block
from tests.record.building import day, view_of
from tests.record.place.measuring import pipe, site

COLUMNS = "x [m] | y [m] | invert [m] | how"


def line(tag, *rows, **fields):
    said = "".join(f"- {name.replace('_', ' ')}: {value}\n" for name, value in fields.items())
    return pipe(*rows, tag=tag, columns=COLUMNS, fields=said)


AIR_IN = line(
    "AIR-IN", "1 foot | 0.00 | 0.00 | 47.85 | staff", "2 wall | 10.00 | 0.00 | 47.65 | staff",
    carries="supply air", **{"from": "intake terminal", "to": "hull", "outlet": "cowl"},
)  # fmt: skip
D_1 = line(
    "D-1", "1 wall | 10.00 | 0.00 | 47.40 | staff", "2 bank | 20.00 | 0.00 | 47.15 | staff",
    carries="condensate", outlet="flap on the bank", **{"from": "drip leg", "to": "bank"},
)  # fmt: skip
DRIP = block(
    "drain DL-1", serves="AIR-IN", at_station="2", discharges="D-1, through the valve",
    through="D-1",
)  # fmt: skip


def valve(tag, run="D-1", **changed):
    fields = {
        "type": "ball", "on_run": run, "x": "12.00 m", "y": "0.00 m",
        "normal_position": "shut", "flow": "to the bank", "isolates": "the drip leg",
        "turns_to_close": "quarter turn", "closes": "clockwise", "reached_by": "hatch",
        "looks_like": "red lever",
        **changed,
    }  # fmt: skip
    return block(f"valve {tag}", **fields)


SITE = (AIR_IN, D_1, DRIP, valve("DV-1"))


def ask(tag, way="downstream", *blocks, later=(), reader="owner"):
    return stream(view_of(site(*(blocks or SITE)), *later, reader=reader), tag, way)


def tags(answer):
    return [step.tag for step in answer.steps]


def told(answer):
    return " ".join(" ".join(stream_words(answer)).split())


def test_water_of_the_air_pipe_goes_by_the_drip_leg_and_its_valve_to_the_bank():
    answer = ask("AIR-IN")
    assert tags(answer) == ["DL-1", "DL-1", "D-1", "DV-1", "D-1", "AIR-IN"]
    assert "to: bank; outlet: flap on the bank" in told(answer)
    assert answer.water == (
        "Water in AIR-IN runs to station 2 wall, invert 47.650 m; DL-1 takes it: D-1, through the "
        "valve.",
    )


def test_from_the_outfall_back_the_same_things_are_met_the_other_way_round():
    assert tags(ask("D-1", "upstream")) == ["DV-1", "DL-1", "D-1"]
    assert tags(ask("D-1/1", "downstream")) == ["DV-1", "D-1"]
    assert tags(ask("D-1/1", "upstream")) == ["DL-1", "D-1"]  # the valve is 2 m beyond it


@pytest.mark.parametrize(("x", "before"), [("11.00 m", True), ("13.00 m", False)])
def test_valves_stand_in_the_order_of_their_places(x, before):
    """DV-1 is 2 m along the drain; another at 1 m is before it, one at 3 m after it."""
    other = valve("V-9", x=x)
    down = tags(ask("DV-1", "downstream", *SITE, other))
    up = tags(ask("DV-1", "upstream", *SITE, other))
    assert ("V-9" in up, "V-9" in down) == (before, not before)


def test_a_valve_without_a_place_may_be_on_either_side_and_is_told_on_both():
    other = valve("V-9", x=None, y=None)
    for way in ("upstream", "downstream"):
        answer = ask("DV-1", way, *SITE, other)
        assert "V-9" in tags(answer)
        assert "before or after, is not recorded" in told(answer)


@pytest.mark.parametrize(("state", "stops"), [("shut", True), ("open", False), (None, False)])
def test_a_valve_left_shut_stops_it_and_one_nobody_wrote_of_is_not_taken_as_shut(state, stops):
    left = [day("2031-06-01", "te", f"## left as DV-1\n\n- state: {state}\n")] if state else []
    answer = ask("AIR-IN", later=left)
    assert [step.tag for step in answer.steps if step.stops] == (["DV-1"] if stops else [])
    assert ("it stops here" in told(answer)) is stops
    assert ("POSITION NOT KNOWN" in told(answer)) is (state is None)


def test_a_flap_hangs_shut_and_is_no_isolation():
    flap = valve("FV-1", type="flap", normal_position="hangs shut")
    answer = ask("FV-1", "upstream", AIR_IN, D_1, DRIP, flap)
    assert "is no isolation" in told(answer)
    left = [day("2031-06-01", "te", "## left as FV-1\n\n- state: hangs shut\n")]
    seen = ask("AIR-IN", "downstream", AIR_IN, D_1, DRIP, flap, later=left)
    assert "FV-1" in tags(seen) and not any(step.stops for step in seen.steps)


def test_what_a_shut_valve_isolates_is_told_with_how_to_shut_it():
    words = told(ask("DV-1"))
    assert "Shut, it isolates (as written): the drip leg." in words
    assert "no condensate of D-1 goes on from drip leg to bank" in words
    assert "turns to close: quarter turn; closes: clockwise" in words


def test_the_plates_that_were_swapped_are_read_as_meant_and_told():
    """As first written DV-2 shut the drip leg; the swap makes it DV-1, and says so."""
    other = line("PD-1", "1 a | 10 | 5 | 47.6 | staff", "2 b | 20 | 5 | 47.4 | staff",
                 carries="pumped water", **{"from": "sump", "to": "bank"})  # fmt: skip
    written = (AIR_IN, D_1, DRIP, other, valve("DV-2"), valve("DV-1", run="PD-1", y="5.00 m"))
    swap = day("2031-05-23", "ck", block(
        "tags swapped DV-1", **{"with": "DV-2", "from": "2031-05-01", "found_by": "ck"},
        because="the pour came out at the other",
    ))  # fmt: skip
    assert "DV-2" in tags(ask("AIR-IN", "downstream", *written))
    answer = ask("AIR-IN", "downstream", *written, later=[swap])
    assert "DV-1" in tags(answer) and "DV-2" not in tags(answer)
    assert any("written of DV-2" in each for each in answer.swapped)


def test_without_levels_nobody_says_where_water_goes():
    bare = D_1.replace("47.15", "not recorded")
    assert "cannot be told" in ask("D-1", "downstream", bare).water[0]


def test_water_stands_in_a_sag():
    """Down to 47.10 at 5 m and up to 47.15 at the end: 50 mm deep."""
    sag = line("D-1", "1 a | 0 | 0 | 47.40 | staff", "2 b | 5 | 0 | 47.10 | staff",
               "3 c | 10 | 0 | 47.15 | staff", carries="condensate")  # fmt: skip
    water = ask("D-1", "downstream", sag).water
    assert any("runs to station 2 b" in each and "no drain there" in each for each in water)
    assert any("50 mm deep at 5.00 m" in each for each in water)


def test_a_breaker_is_upstream_of_what_it_feeds_and_takes_the_rest_with_it():
    cable = block("cable C-1", in_run="E-1", what="feed", voltage="230 V", breaker="B4",
                  breaker_at="panel by the door", isolates="FAN, LAMP",
                  **{"from": "panel", "to": "FAN"})  # fmt: skip
    rest = ("## run E-1\n\n- carries: power\n", block("equipment FAN", type="fan"),
            block("equipment LAMP", type="lighting"), cable)  # fmt: skip
    up = ask("FAN", "upstream", *rest)
    assert tags(up) == ["C-1"] and "breaker B4, panel by the door" in told(up)
    assert tags(ask("C-1", "downstream", *rest)) == ["FAN", "LAMP"]
    assert "takes with it: FAN, LAMP" in told(ask("C-1", "downstream", *rest))


def test_a_tag_is_found_in_words_whole_and_a_single_letter_only_after_its_kind():
    runs = (line("W-1", carries="drinking water", to="A tee nobody named"),
            line("W-10", carries="drinking water", **{"from": "W-1"}),
            line("W-2", carries="drinking water", **{"from": "W-10"}),
            block("equipment A", type="pump"))  # fmt: skip
    assert tags(ask("W-1", "downstream", *runs)) == ["W-10", "W-2", "W-2", "W-10", "W-1"]
    assert ask("A", "upstream", *runs).steps == ()


def test_runs_that_go_round_are_told_once():
    ring = (
        line("W-1", **{"from": "W-2", "to": "W-2"}),
        line("W-2", **{"from": "W-1", "to": "W-1"}),
    )
    assert len(tags(ask("W-1", "downstream", *ring))) < 8


def test_what_a_reader_may_not_see_is_in_no_byte():
    hidden = valve("DV-9", x="14.00 m") + "\n- readers: owner"
    answer = ask("AIR-IN", "downstream", *SITE, hidden, reader="technician")
    assert "DV-9" not in told(answer) + str(json_form(answer))
    assert "DV-9" in tags(ask("AIR-IN", "downstream", *SITE, hidden))


def test_what_is_on_no_run_is_refused():
    with pytest.raises(NotFound):
        ask("DV-8")
    with pytest.raises(CannotAnswer, match="is a landmark"):
        ask("H1", "upstream", block("landmark H1", what="corner", x="0.00 m", y="0.00 m"))
