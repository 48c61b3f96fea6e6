"""What an answer about a panel says beside the places: layers, order, isolations, past, gaps."""

import json

import pytest

from record.answers import CannotAnswer, NotFound, OffPanel, behind, behind_words, json_form
from tests.record.answers.shelter import (
    SITE,
    block,
    fit_out,
    hull,
    panel,
    run,
    sheet,
    shelter,
)
from tests.record.building import day, view_of


def layers(*blocks):
    answer = behind(shelter(*blocks), "P-1")
    return [
        (layer.side, *(None if d is None else round(d, 4) for d in (layer.from_m, layer.to_m)))
        for layer in answer.layers
    ]


def test_layers_add_up_from_the_room_face_to_the_earth():
    """12 + 90 + 10 mm; the hull has no outside build-up, so the earth starts at 112 mm."""
    assert layers(panel()) == [
        ("lining", 0.0, 0.012),
        ("lining", 0.012, 0.102),
        ("shell", 0.102, 0.112),
        ("earth", 0.112, None),
    ]


def test_one_thickness_not_recorded_leaves_every_deeper_depth_not_recorded():
    assert layers(panel(packing_thickness="not recorded")) == [
        ("lining", 0.0, 0.012),
        ("lining", 0.012, None),
        ("shell", None, None),
        ("earth", None, None),
    ]


def test_no_packing_is_a_thickness_of_nothing_and_not_an_unknown_one():
    assert layers(panel(packing="none", packing_thickness="none"))[2] == ("shell", 0.012, 0.022)


def test_outside_layers_come_between_the_plate_and_the_earth():
    """2 mm of primer from 112 to 114 mm, then 70 mm of foam to 184 mm. Cleaning leaves no film,
    and an inside build-up is not outside."""
    build_up = (
        "## build-up BU-1\n\n- side: outside\n\n"
        "| layer | material | coats | thickness |\n|---|---|---|---|\n"
        "| 1 clean | power tool | 1 | none |\n"
        "| 2 primer | primer | 1 | 2 mm |\n| 3 foam | spray foam | 2 | 70 mm |"
    )
    view = view_of(sheet(SITE, build_up, hull(**{"build-up": "BU-1"}), panel()))
    found = [(each.what, each.from_m, each.to_m) for each in behind(view, "P-1").layers[3:]]
    assert [each[0] for each in found] == ["primer", "spray foam", "earth"]
    assert found[0][1:] == pytest.approx((0.112, 0.114))
    assert found[1][1:] == pytest.approx((0.114, 0.184))
    assert found[2][1] == pytest.approx(0.184) and found[2][2] is None


def test_an_outside_build_up_nobody_wrote_down_hides_how_deep_the_earth_is():
    view = view_of(sheet(SITE, hull(**{"build-up": "not recorded"}), panel()))
    assert [layer.from_m for layer in behind(view, "P-1").layers[-2:]] == [None, None]


def test_a_lining_not_recorded_counts_depths_from_the_plate_and_says_so():
    """Against the plate the box is 50 mm to 0 before it, so it starts at nothing."""
    answer = behind(shelter(panel(thickness="not recorded"), fit_out()), "P-1")
    assert answer.depth_from == "inside of the plate"
    assert [item.tag for item in answer.items] == ["FO-1"]
    assert "depths of items count from the inside of the steel plate" in flat(answer)


def test_panels_come_off_in_the_order_that_each_of_them_needs():
    view = shelter(panel(before_it="P-2"), panel(tag="P-2", before_it="P-3, P-1"), panel(tag="P-3"))
    assert behind(view, "P-1").removal.first == ("P-3", "P-2")


def flat(answer):
    return " ".join(" ".join(behind_words(answer)).split())


@pytest.mark.parametrize(
    ("tag", "said"),
    [
        ("p-1", "no panel p-1. Did you mean P-1?"),
        ("A", "A is a hull, not a panel"),
        ("Q-99", "no panel Q-99."),
    ],
)
def test_a_tag_that_is_no_panel_is_refused_with_panels_like_it(tag, said):
    with pytest.raises(NotFound, match=said.replace("?", r"\?")) as refused:
        behind(shelter(panel()), tag)
    assert refused.value.close == (("P-1",) if tag == "p-1" else ())


@pytest.mark.parametrize("at", [(-0.01, 0.5), (1.21, 0.5), (0.5, 1.01)])
def test_a_point_off_the_panel_is_refused(at):
    with pytest.raises(OffPanel, match="is not on the panel"):
        behind(shelter(panel()), "P-1", at=at)


@pytest.mark.parametrize("reach", [0.0, -1.0, float("inf"), float("nan")])
def test_a_reach_that_is_no_depth_is_refused(reach):
    with pytest.raises(CannotAnswer, match="m is none; write how deep to look"):
        behind(shelter(panel()), "P-1", reach_m=reach)


@pytest.mark.parametrize(
    ("changed", "missing"),
    [
        ({"width": "not recorded"}, ("P-1 width",)),
        ({"bottom": "not recorded"}, ("P-1 bottom",)),
        ({"from_near": None, "height": "not recorded"}, ("P-1 height", "P-1 from near")),
    ],
)
def test_a_panel_without_its_measures_says_which_and_that_nothing_can_be_placed(changed, missing):
    answer = behind(shelter(panel(**changed), fit_out()), "P-1")
    assert answer.not_measured == missing
    assert answer.items == ()
    assert "NOTHING CAN BE PLACED" in flat(answer)


def test_a_hull_without_its_floor_level_places_nothing_behind_its_panels():
    view = view_of(sheet(SITE, hull(floor_level="not recorded"), panel(), fit_out()))
    assert behind(view, "P-1").not_measured == ("A floor level",)


@pytest.mark.parametrize(
    ("words", "state"),
    [
        ("ld, 2031-05-20, nothing else seen", "looked at, nothing else seen"),
        ("ck, 2031-05-20, partly, the lamp failed", "partly"),
        ("ld, conduit FO-2", "looked at"),
        ("not recorded", "not looked at"),
        ("none", "not looked at"),
        ("not looked at", "not looked at"),
        ("ld, the lower half only, nothing else seen", "partly"),
        ("nobody could look", "not looked at"),
    ],
)
def test_only_a_whole_look_reads_as_looked_at_and_nothing_else_seen(words, state):
    assert behind(shelter(panel(looked_at=words)), "P-1").looked_at.state == state


def test_usual_services_without_a_run_are_named_and_so_are_runs_without_a_place():
    view = shelter(
        panel(),
        run("W-1"),
        run("D-1", carries="condensate", stations=[("1", "0", "0", "50", "20 mm")]),
        run("Q-1", carries="not recorded"),
    )
    answer = behind(view, "P-1")
    assert answer.no_record_of == ("supply air", "exhaust air", "power", "signal")
    assert answer.none_placed_of == ("drinking water",)
    assert answer.carries_not_recorded == ("Q-1",)
    assert {each.tag for each in answer.anywhere} == {"W-1", "D-1", "Q-1"}


def test_what_is_said_to_be_behind_the_panel_without_a_place_comes_first():
    stores = (
        block("store S-8", name="box", looks_like="plain"),
        block("store S-9", name="box", looks_like="plain", behind="P-1"),
    )
    found = behind(shelter(panel(), *stores), "P-1").anywhere
    assert [(each.tag, each.said_behind) for each in found] == [("S-9", True), ("S-8", False)]


def test_an_item_with_two_statements_shows_both_and_is_filled_out():
    """The later writer had not seen the earlier statement, so neither stands over the other."""
    late = sheet(block("fit-out FO-1", from_near="2.90 m"), date="2031-05-15", writer="ck")
    early = sheet(block("fit-out FO-1", from_near="2.60 m"), date="2031-05-15")
    view = view_of(sheet(SITE, hull(), panel(), fit_out()), early, late, unseen={1: 1, 2: 1})
    answer = behind(view, "P-1")
    (item,) = answer.items
    assert item.missing == ("from near",)
    (dispute,) = answer.disagreements
    assert (dispute.tag, dispute.field) == ("FO-1", "from near")
    assert "2.90 m" in dispute.words and "2.60 m" in dispute.words


def test_a_measure_filled_out_is_named_and_the_item_is_not_certain():
    """Not recorded how far from the near end: it may be anywhere along the panel."""
    answer = behind(shelter(panel(), fit_out(from_near="not recorded")), "P-1")
    (item,) = answer.items
    assert item.missing == ("from near",)
    assert item.across_may_reach.from_m <= 0 and item.across_may_reach.to_m >= 1.2
    assert not item.certain
    assert "not recorded and filled out: from near" in flat(answer)


VALVE = {
    "type": "ball",
    "on_run": "W-1",
    "hull": "A",
    "from_near": "5.00 m",
    "from_left": "2.50 m",
    "level": "centre 50.30 m",
    "turns_to_close": "1/4",
    "closes": "clockwise",
    "normal_position": "open",
    "isolates": "the tap",
}
ENDS = [("1", "102.60", "201.00", "51.20", "20 mm"), ("2", "102.60", "200.00", "51.10", "20 mm")]


def test_valves_of_a_pipe_met_are_told_with_turns_direction_and_how_they_were_left():
    left = block("left as V-1", at="17:00", state="open, wire off")
    view = shelter(panel(), run(stations=ENDS), block("valve V-1", **VALVE), left)
    (valve,) = behind(view, "P-1").isolations
    assert (valve.of, valve.tag, valve.kind) == ("W-1", "V-1", "valve, ball")
    assert (valve.turns_to_close, valve.closes, valve.normal_position) == (
        "1/4",
        "clockwise",
        "open",
    )
    assert valve.left_as == "open, wire off, 2031-05-14 17:00"
    assert "from near 5.000 m" in valve.where


def test_how_a_valve_was_left_is_what_was_written_last_in_whatever_form_and_lapses_with_work():
    """A service sheet says it too; work that does not say it leaves the position unknown."""
    blocks = (panel(), run(stations=ENDS), block("valve V-1", **VALVE))
    served = sheet(block("serviced V-1", task="greased", left_as="shut"), date="2032-05-01")
    (valve,) = behind(shelter(*blocks, later=[served]), "P-1").isolations
    assert valve.left_as == "shut, 2032-05-01"
    opened = sheet(block("serviced V-1", task="turned"), date="2033-05-01")
    (valve,) = behind(shelter(*blocks, later=[served, opened]), "P-1").isolations
    assert valve.left_as.startswith("NOT KNOWN, last told shut, 2032-05-01")


def test_a_pipe_without_a_valve_on_record_says_so():
    (isolation,) = behind(shelter(panel(), run(stations=ENDS)), "P-1").isolations
    assert (isolation.of, isolation.tag) == ("W-1", "")
    assert isolation.kind == "no valve on it is recorded that a hand shuts"


def test_a_valve_that_works_by_itself_comes_last_and_is_said_to_isolate_nothing():
    """A check valve passes one way and a flap opens again: nobody is safe behind one."""
    flap = block("valve V-0", **{**VALVE, "type": "check"})
    pipe = run(stations=ENDS)
    both = behind(shelter(panel(), pipe, flap, block("valve V-1", **VALVE)), "P-1").isolations
    assert [each.tag for each in both] == ["V-1", "V-0"]
    assert both[1].kind == "valve, check, works by itself and isolates nothing"
    alone = behind(shelter(panel(), pipe, flap), "P-1").isolations
    assert [each.tag for each in alone] == ["", "V-0"]
    assert "no valve on it is recorded that a hand shuts" in alone[0].kind


@pytest.mark.parametrize("carries", ["power", "signal"])
def test_of_wires_in_a_pipe_no_valve_is_missed(carries):
    (isolation,) = behind(shelter(panel(), run(stations=ENDS, carries=carries)), "P-1").isolations
    assert isolation.kind == "switch off where it is fed, lock it, have it proved dead"


def test_a_wire_met_names_the_machines_that_may_feed_it():
    machine = block("equipment AU-1", type="air unit", hull="A", serves="A", name="fan")
    store = block("equipment CR-1", type="hand crank", hull="A", name="crank")
    view = shelter(panel(), fit_out(what="conduit 25 mm"), machine, store)
    tags = [each.tag for each in behind(view, "P-1").isolations]
    assert tags == ["AU-1", ""]
    machine = behind(view, "P-1").isolations[0]
    assert machine.kind == "equipment, air unit, may keep it live by itself"
    assert machine.isolates == "n/a", "what an air unit serves is not made safe by stopping it"


@pytest.mark.parametrize("kind", ["alarm", "radio", "lighting", "heater", "pump"])
def test_an_alarm_or_a_lamp_is_no_isolation(kind):
    """To switch one off leaves the wire live: only what feeds it is told, and that it be proved."""
    machine = block("equipment AL-1", type=kind, hull="A", serves="A")
    view = shelter(panel(), fit_out(what="conduit 25 mm"), machine)
    assert [each.tag for each in behind(view, "P-1").isolations] == [""]


@pytest.mark.parametrize(("kind", "tags"), [("alarm", [""]), ("pump", ["EQ-1", ""])])
def test_of_machines_behind_the_panel_itself_an_alarm_is_still_no_isolation(kind, tags):
    machine = block(
        "equipment EQ-1", type=kind, hull="A", from_near="2.30 m", from_left="0.00 m",
        bottom="50.80 m", along="0.20 m", across="0.05 m", height="0.10 m",
    )  # fmt: skip
    answer = behind(shelter(panel(), machine), "P-1")
    assert [item.tag for item in answer.items] == ["EQ-1"]
    assert [each.tag for each in answer.isolations] == tags


def test_a_breaker_that_is_said_to_feed_what_was_met_is_told_with_its_place():
    ends = {"from": "panel", "to": "lamp"}
    cable = block(
        "cable C-1", in_run="E-1", voltage="230 V", breaker="B4", isolates="FO-1",
        breaker_at="panel by the door", **ends,
    )  # fmt: skip
    power = block("run E-1", carries="power")
    view = shelter(panel(), fit_out(what="conduit 25 mm"), power, cable)
    first = behind(view, "P-1").isolations[0]
    assert (first.tag, first.kind, first.where) == ("C-1", "breaker B4", "panel by the door")


def lies(*blocks, **asked):
    return {item.tag: item.lies for item in behind(shelter(panel(), *blocks), "P-1", **asked).items}


def test_what_comes_through_the_board_is_told_from_what_is_behind_it():
    """102 mm of lining: from 0.20 in the room to 0.05 outside goes through; 0.05 deep does not."""
    through = fit_out("FO-2", from_left="-0.05 m", across="0.25 m")
    assert lies(through, fit_out()) == {"FO-2": "crosses the panel", "FO-1": "within reach"}
    words = behind_words(behind(shelter(panel(), through, fit_out()), "P-1"))
    crossing = words.index("  - CROSSES THE PANEL ITSELF:")
    assert crossing < words.index("  - WITHIN REACH, nearest first:")


def test_a_pipe_that_slants_is_told_by_where_its_middle_comes_onto_the_panel_and_leaves_it():
    """From level 50.60 at 1.50 along to 51.20 at 3.50: 0.30 a metre. The panel begins at 2.00, at
    level 50.50: there it is at 50.75, 0.25 up; at 3.20 it is at 51.11, 0.61 up."""
    ends = [
        ("1", "101.50", "200.30", "50.60", "20 mm"),
        ("2", "103.50", "200.30", "51.20", "20 mm"),
    ]
    said = flat(behind(shelter(panel(), run(stations=ends)), "P-1"))
    assert (
        'slants: its middle from 0.000 m (0") across, 0.250 m (9 13/16") up to 1.200 m '
        "(3' 11 1/4\") across, 0.610 m (2' 0\") up"
    ) in said
    level = [(*end[:3], "50.90", end[4]) for end in ends]
    assert "slants" not in flat(behind(shelter(panel(), run(stations=level)), "P-1"))
    beside = [(end[0], str(float(end[1]) + 5), *end[2:]) for end in ends]
    assert "slants" not in flat(behind(shelter(panel(), run(stations=beside)), "P-1"))


def test_what_is_recorded_beside_the_space_is_near_and_not_within_reach():
    """Left of the panel by 20 mm and known to 50; and 20 mm deeper than the 0.10 asked for."""
    beside = fit_out("FO-2", from_near="1.78 m ± 50 mm")
    assert lies(beside) == {"FO-2": "near"}
    deep = fit_out("FO-3", from_left="-0.118 m ± 50 mm", across="0.10 m", from_near="2.30 m")
    assert lies(deep, reach_m=0.10) == {"FO-3": "near"}
    assert lies(deep) == {"FO-3": "within reach"}


def test_without_the_lining_nothing_is_told_to_come_through_the_panel():
    bare = panel(thickness="not recorded")
    through = fit_out("FO-2", from_left="-0.05 m", across="0.25 m")
    items = behind(shelter(bare, through), "P-1").items
    assert {item.lies for item in items} == {"within reach"}


def test_what_has_no_depth_on_record_is_told_apart_and_kept_clear_of():
    found = behind(shelter(panel(), fit_out(from_left="not recorded"), fit_out("FO-2")), "P-1")
    assert {item.tag: item.depth_known for item in found.items} == {"FO-1": False, "FO-2": True}
    words = behind_words(found)
    apart = next(n for n, line in enumerate(words) if "HOW DEEP IS NOT RECORDED" in line)
    deep = [line for line in words[apart:] if line.startswith("    deep: ")]
    assert deep[0] == "    deep: not recorded, keep clear of it at any depth" and "mm" in deep[1]
    assert apart < next(n for n, line in enumerate(words) if line.startswith("  FO-1,"))
    assert next(n for n, line in enumerate(words) if line.startswith("  FO-1,")) < words.index(
        "  - WITHIN REACH, nearest first:"
    )


def test_photos_of_the_panel_and_of_what_lies_behind_it_are_told_with_their_file():
    picture = "![close, looking north, rule in view, shows FO-1](IMG_7.jpg)"
    other = "![wide, shows P-2](IMG_8.jpg)"
    blocks = (panel("right", "P-2"), fit_out() + "\n\n" + picture, "## remark\n\n" + other)
    found = behind(shelter(panel(), *blocks), "P-1")
    (photo,) = found.photos
    assert photo.shows == ("FO-1",) and photo.looking == "north"
    assert photo.file.startswith("photos/") and len(photo.file) == 7 + 64
    words = " ".join(behind_words(found))
    assert "PHOTOS" in words and words.count("rule in view") >= 1


def test_past_work_counts_what_others_did_within_the_panel():
    """From near 2.50 and level 51.00 are 0.50 across and 0.50 up: on the panel. 5.00 is not."""
    here = block(
        "worked by others",
        at="10:00",
        what="hole",
        hull="A",
        from_near="2.50 m",
        from_left="0.00 m",
        level="51.00 m",
        depth="40 mm",
    )
    there = here.replace("2.50 m", "5.00 m").replace("10:00", "11:00")
    other_wall = here.replace("- from left: 0.00 m", "- from left: 3.00 m").replace("10:", "12:")
    found = behind(shelter(panel(), here, there, other_wall), "P-1").past
    assert [(each.at, each.kind) for each in found] == [("10:00", "worked by others")]
    assert "depth: 0.040 m" in found[0].words


def test_past_work_tells_tests_of_the_whole_hull_that_a_hole_may_void():
    tested = block(
        "tested A",
        test="tightness",
        result="passed",
        reading="21 m³/h at 60 Pa",
        limit="30 m³/h",
        instrument="fan 2",
    )
    (past,) = behind(shelter(panel(), tested), "P-1").past
    assert past.words.startswith("tightness; result: passed")
    assert past.who == "wrote ld"


def test_a_test_of_the_hull_that_a_hole_here_undid_is_told_as_void():
    tested = block(
        "tested A",
        at="11:00",
        test="tightness",
        result="passed",
        reading="21 m³/h at 60 Pa",
        limit="30 m³/h",
        instrument="door fan",
    )
    hole = day(
        "2031-06-14", "ld", "## opened up P-1\n\n- at: 09:00\n- what: drilled\n- why: a bracket"
    )
    found = behind(shelter(panel(), tested, later=(hole,)), "P-1")
    test, drilled = found.past
    assert test.void.startswith("VOID since 2031-06-14 09:00, not passed since")
    assert drilled.kind == "opened up" and drilled.void == ""
    assert "VOID since 2031-06-14 09:00" in "\n".join(behind_words(found))
    assert json_form(found)["past"][0]["void"] == test.void


def test_past_work_tells_the_coats_of_the_room_and_not_those_of_another():
    rooms = [block(f"room {tag}", name="room", hull="A") for tag in ("RM-1", "RM-2")]
    coats = [
        block(f"coat applied {tag}", layer="epoxy", coat="1", started=at, lot="E-1")
        for tag, at in (("RM-1", "09:00"), ("RM-2", "10:00"))
    ]
    found = behind(shelter(*rooms, panel(room="RM-1"), *coats), "P-1").past
    assert [(each.kind, each.about) for each in found] == [("coat applied", "RM-1")]


def test_words_never_promise_and_fit_the_page():
    answer = behind(shelter(panel(), reader="technician"), "P-1")
    words = behind_words(answer)
    assert all(len(line) <= 100 for line in words)
    said = flat(answer).casefold()
    assert "nothing is there" not in said and "clear to" not in said and "safe to" not in said
    assert "not that the space is empty" in said
    assert "further entries may exist" in said


def test_words_open_with_what_is_recorded_then_how_sure_and_close_with_items():
    view = shelter(panel(coats="2", packing="foam"), fit_out(), run(stations=ENDS))
    words = behind_words(behind(view, "P-1"))
    order = [line.split(",")[0] for line in words if line and line == line.lstrip()]
    headings = [each for each in order if each.isupper()]
    assert headings == [
        "WHAT IS RECORDED",
        "HOW SURE",
        "WHAT IS NOT RECORDED",
        "HAZARDS",
        "ISOLATE FIRST",
        "WHO TO CALL",
        "HOW IT COMES OFF",
        "LAYERS",
        "ITEMS",
    ]


def test_json_has_metres_to_a_tenth_of_a_millimetre_and_numbers_of_entries():
    form = json_form(behind(shelter(panel(), run(stations=ENDS, pipe_length="1.00 m")), "P-1"))
    json.dumps(form, allow_nan=False)
    (item,) = form["items"]
    # 0.52 to 0.68, and √(20² + 10²) = 22.4 mm more
    assert item["across_may_reach"] == {"from_m": 0.4976, "to_m": 0.7024}
    assert item["entries"] == ["ld-5", "ld-6"]
    assert form["layers"][0]["to_m"] == 0.012
    assert form["layers"][-1]["to_m"] is None


def test_a_level_nobody_took_is_not_a_thousand_metres_high_in_an_answer():
    ends = [(key, x, y, "not recorded", tol) for key, x, y, _, tol in ENDS]
    form = json_form(behind(shelter(panel(), run(stations=ends)), "P-1"))
    (item,) = form["items"]
    assert item["missing"] == ["level"]
    assert item["upward_may_reach"]["from_m"] < 0 and item["upward_may_reach"]["to_m"] > 1.0
    assert item["upward_may_reach"]["to_m"] < 2.0
