"""Beneath a spot: worked by hand from one pipe, one hull, and tapes by Pythagoras."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from record.answers import json_form
from record.answers.asked_spot import Pull, by_grid, by_tag, by_tapes
from record.answers.beneath import beneath
from record.answers.beneath_words import beneath_words
from record.answers.refused import CannotAnswer, NotFound
from record.place import below
from tests.record.answers.shelter import block, hull
from tests.record.building import day, view_of
from tests.record.place.measuring import landmark, pipe, site

MARKS = {"H1": (10.00, 20.00), "H2": (22.00, 20.00), "W1": (30.50, 14.00), "G1": (4.20, 3.60)}
STANDING = [landmark(tag, *at) for tag, at in MARKS.items()]
COLUMNS = "x [m] | y [m] | invert [m] | ground [m] | how | position tolerance"
DRY = "- carries: supply air\n- pipe length: 12.60 m\n- insulation: none\n"
AIR_IN = pipe(
    "1 foot | 27.00 | 2.00 | 47.850 ± 3 mm | 49.45 | staff | 20 mm",
    "2 bend | 24.00 | 6.00 | 47.750 ± 3 mm | 49.55 | staff | 20 mm",
    "3 hull | 16.40 | 6.00 | 47.598 ± 3 mm | 49.70 | staff | 20 mm",
    columns=COLUMNS,
    fields=DRY,
)
RULE = "## site fern-bank\n\n- dig tolerance: 24 in\n- dig tolerance from: local rule\n"


def ask(at, *blocks, later=(), within=None, **asked):
    view = view_of(site(*STANDING, *(blocks or (AIR_IN,))), *later, **asked)
    spots = (by_tag(view, at, within),) if isinstance(at, str) else (by_grid(*at, within),)
    return beneath(view, "here", spots)


def told(found):
    return " ".join(" ".join(beneath_words(found)).split())


def test_the_bend_lies_as_deep_as_its_levels_and_its_ground_say():
    """Crown 47.750 + 0.156 = 47.906; 49.55 − 47.906 = 1.644; to the invert 1.800."""
    (column,) = ask((24.00, 6.00)).columns
    for hit in column.down:
        assert hit.top_name == "crown"
        assert hit.top_m == pytest.approx(47.906, abs=1e-3)
        assert hit.invert_m == pytest.approx(47.750, abs=1e-3)
        assert hit.depth_m == pytest.approx(1.644, abs=1e-3)
        assert hit.depth_to_invert_m == pytest.approx(1.800, abs=1e-3)
    assert column.surface.level_m == pytest.approx(49.55)
    assert column.surface.on == "2031-05-01"


def test_between_two_stations_ground_and_crown_are_those_of_the_place():
    """Half-way from station 2 to 3, x 20.20: invert 47.674, ground 49.625, so cover 1.795."""
    (column,) = ask((20.20, 6.00)).columns
    (hit,) = column.down
    assert hit.interpolated
    assert hit.depth_m == pytest.approx(49.625 - 47.830, abs=1e-3)


def test_over_the_side_of_a_pipe_its_crown_is_still_that_of_the_pipe():
    """0.06 off the axis the plumb line meets a pipe of 0.08 at 0.053 over its middle, and its
    crown is 0.080 over it: 47.674 + 0.076 + 0.080 = 47.830, and the invert 0.156 below that."""
    (column,) = ask((20.20, 5.94)).columns
    (hit,) = column.down
    assert hit.off_m == 0
    assert hit.top_m == pytest.approx(47.830, abs=1e-3)
    assert hit.invert_m == pytest.approx(47.674, abs=1e-3)


def test_a_spot_at_the_very_edge_of_the_pipe_is_not_told_to_be_beside_it():
    """0.0802 off the axis of a pipe of radius 0.080: a fifth of a millimetre."""
    assert "not under the spot itself" not in told(ask((20.20, 5.9198)))
    assert "not under the spot itself: 0.010 m" in told(ask((20.20, 5.910)))


DIP = block("dip pipe DP-1", x="13.00 m", y="8.80 m", top="50.15 m")


def test_a_dip_pipe_is_told_where_it_stands_and_expected_from_the_surface_down():
    """How far down it goes nobody writes: whoever digs beside it meets it from the first cut on."""
    (column,) = ask((13.05, 8.80), DIP).columns
    (hit,) = column.depth_not_recorded
    assert (hit.tag, hit.off_m) == ("DP-1", 0)
    assert "DP-1, dip pipe" in told(ask((13.05, 8.80), DIP))
    (far,) = ask((16.00, 8.80), DIP).columns
    assert far.depth_not_recorded == () == far.near
    nowhere = DIP.replace("13.00 m", "not recorded")
    assert [one.tag for one in ask((16.00, 8.80), nowhere).anywhere] == ["DP-1"]


def test_a_spot_beside_the_pipe_is_told_how_far_to_its_side():
    """0.50 south of the axis: 0.42 from the outside of the pipe, in hand-digging, not below."""
    (column,) = ask((20.20, 5.50), within=0.0).columns
    assert column.down == ()
    (hit,) = column.near
    assert hit.off_m == pytest.approx(0.42)
    (wide,) = ask((20.20, 5.50), within=0.45).columns
    assert [hit.tag for hit in wide.down] == ["AIR-IN"]


def test_a_pipe_that_may_reach_the_spot_is_told_below_it_and_not_beside_it():
    """0.50 south of the axis, 0.42 from its outside, and known to 0.45."""
    (column,) = ask((20.20, 5.50), AIR_IN.replace("| 20 mm", "| 0.45 m"), within=0.0).columns
    assert [hit.tag for hit in column.down] == ["AIR-IN"] and column.near == ()


def test_the_wider_of_the_legal_tolerance_and_its_own_is_dug_by_hand():
    """24 in is 0.6096 m, wider than 20 mm; a pipe known to 0.90 m is wider than 24 in."""
    later = [day("2031-05-02", "ld", RULE)]
    assert ask((24, 6), later=later).columns[0].down[0].hand_m == pytest.approx(0.6096)
    loose = AIR_IN.replace("| 20 mm", "| 0.90 m")
    assert ask((24, 6), loose, later=later).columns[0].down[0].hand_m == pytest.approx(0.90)


def test_without_a_legal_tolerance_24_in_stands_in_and_the_service_is_asked():
    found = ask((24, 6))
    assert found.dig_tolerance_m is None
    assert found.columns[0].down[0].hand_m == pytest.approx(0.61)
    assert "ask the locating service" in told(found)


def test_the_local_one_call_number_is_told():
    rule = "## site fern-bank\n\n- one-call number: 811\n"
    assert "Ring 811" in told(ask((24, 6), later=[day("2031-05-02", "ld", rule)]))


@pytest.mark.parametrize("at", [(24.0, 6.0), (500.0, 500.0)])
def test_it_never_says_that_a_spot_is_clear(at):
    words = told(ask(at)).casefold()
    for promise in ("clear to dig", "safe to dig", "nothing is there", "nothing here"):
        assert promise not in words
    assert "never a clearance to dig" in words


def test_where_nothing_is_recorded_it_says_that_and_no_more():
    found = ask((500.0, 500.0))
    assert found.columns[0].surface is None and found.columns[0].down == ()
    assert "not that the ground is empty" in told(found)


def test_a_pipe_without_levels_is_expected_from_the_surface_down():
    bare = pipe("1 a | 27.00 | 2.00 | tape", "2 b | 24.00 | 6.00 | tape", fields=DRY)
    (column,) = ask((24, 6), bare).columns
    assert column.down == () and [hit.tag for hit in column.depth_not_recorded] == ["AIR-IN"]
    assert "DEPTH NOT RECORDED" in told(ask((24, 6), bare))


def test_a_run_without_a_place_may_be_here_too():
    lost = "## run P-9\n\n- carries: power\n"
    assert [each.tag for each in ask((24, 6), AIR_IN, lost).anywhere] == ["P-9"]


def test_the_roof_of_a_hull_is_met_before_what_is_in_it():
    """Hull A: floor plate inside 50.00, 2.50 high, 10 mm plate: roof 52.51; ground 54.00."""
    inside = block(
        "equipment FAN", type="fan", hull="A", from_near="2.00 m", from_left="1.00 m",
        bottom="50.50 m", along="0.40 m", across="0.40 m", height="0.50 m",
    )  # fmt: skip
    build_up = (
        "## build-up BU-1\n\n- side: outside\n\n| layer | material | coats | thickness [mm] |\n"
        "|---|---|---|---|\n| 1 | foam | 2 | 70 |\n| 2 | wrap | 1 | 1 |\n"
    )
    whole = (hull(**{"ground_level": "54.00 m", "build-up": "BU-1"}), inside, build_up)
    (column,) = ask((102.2, 198.8), *whole).columns
    (hit,) = column.down
    assert (hit.tag, hit.top_name) == ("A", "roof")
    assert hit.top_m == pytest.approx(52.51)
    assert hit.depth_m == pytest.approx(1.49)
    assert [(layer.what, layer.thickness_m) for layer in hit.layers] == [
        ("foam", 0.07), ("wrap", 0.001),
    ]  # fmt: skip


def test_cover_measured_later_tells_the_ground_of_its_day():
    """Cover 1.170 over a roof at 52.51 puts the ground at 53.680, not the 54.00 of before."""
    later = [day("2032-05-01", "te", block("cover measured A", point="C3", x="102.00 m",
                                           y="198.50 m", cover="1.170 m", how="rod"))]  # fmt: skip
    (column,) = ask((102.2, 198.8), hull(ground_level="54.00 m"), later=later).columns
    assert column.surface.level_m == pytest.approx(53.680)
    assert column.surface.on == "2032-05-01"
    assert column.down[0].depth_m == pytest.approx(1.170)
    assert len(column.covers_measured) == 1


def test_the_day_it_was_covered_is_told():
    covered = [
        day("2031-05-02", "ld", block("covering FILL", what="backfill", hides="AIR-IN")),
        day("2031-05-03", "ld", block("covered FILL", extent="all of it")),
    ]
    hit = ask((24, 6), later=covered).columns[0].down[0]
    assert [(one.covering, one.on) for one in hit.covered] == [("FILL", "2031-05-03")]
    assert hit.cover == "before cover"


# By tag and by tapes.


def test_a_station_is_asked_for_by_its_tag():
    (column,) = ask("AIR-IN/2").columns
    assert (column.x_m, column.y_m, column.within_m) == (24.0, 6.0, 0.02)
    assert column.down


def test_a_whole_run_is_in_no_one_spot():
    with pytest.raises(CannotAnswer, match="AIR-IN/1, AIR-IN/2, AIR-IN/3"):
        ask("AIR-IN")
    with pytest.raises(NotFound):
        ask("AIR-ON/2")


def taped(*pulls, side="", **asked):
    view = view_of(site(*STANDING, AIR_IN), **asked)
    return by_tapes(view, [Pull(tag, long) for tag, long in pulls], side)


def test_two_tapes_meet_at_two_spots_until_a_side_is_told():
    """H1, H2 on y 20; from (24, 6): √(14² + 14²) = 19.799 and √(2² + 14²) = 14.142."""
    both = taped(("H1", 19.799), ("H2", 14.142))
    assert {(round(s.x_m, 1), round(s.y_m, 1)) for s in both} == {(24, 6), (24, 34)}
    (south,) = taped(("H1", 19.799), ("H2", 14.142), side="south")
    assert (south.x_m, south.y_m) == pytest.approx((24, 6), abs=0.002)
    (right,) = taped(("H1", 19.799), ("H2", 14.142), side="right")
    assert (right.x_m, right.y_m) == pytest.approx((24, 6), abs=0.002)
    east = taped(("H1", 19.799), ("H2", 14.142), side="east")
    assert len(east) == 2  # both lie as far east
    assert any("say on which side" in doubt for doubt in both[0].doubts)


def test_the_spot_of_two_tapes_is_looked_round_as_widely_as_they_may_be_out():
    """Wider than one tape alone may be out, 0.02 m and more, and no wider than half a metre."""
    (south,) = taped(("H1", 19.799), ("H2", 14.142), side="south")
    assert 0.03 < south.within_m < 0.5
    three = taped(("H1", 19.799), ("H2", 14.142), ("W1", 10.308))
    assert len(three) == 1 and three[0].within_m < south.within_m


def test_tapes_that_cannot_be_are_refused_in_words():
    for pulls, words in (
        ((("H1", 1.0), ("H2", 1.0)), "measure again"),
        ((("H1", 1.0),), "second landmark"),
        ((("H1", 5.0), ("H9", 5.0)), "H9 is not in this record"),
        ((("H1", 5.0), ("H2", -1.0)), "above 0"),
    ):
        with pytest.raises(CannotAnswer, match=words):
            taped(*pulls)
    with pytest.raises(CannotAnswer, match="is no side"):
        taped(("H1", 19.799), ("H2", 14.142), side="uphill")


def test_a_tape_from_a_landmark_that_is_lost_is_told():
    gone = day("2033-10-19", "gc", "## landmark W1\n\n- state: demolished\n")
    view = view_of(site(*STANDING, AIR_IN), gone)
    spots = by_tapes(view, [Pull("W1", 10.308), Pull("H2", 14.142)], "west")
    assert any("W1 is told to be lost" in doubt for doubt in spots[0].doubts)


def test_three_tapes_that_disagree_widen_the_spot():
    """W1 read 10.808 for 10.308: three tapes cannot all be right."""
    (off,) = taped(("H1", 19.799), ("H2", 14.142), ("W1", 10.808))
    (good,) = taped(("H1", 19.799), ("H2", 14.142), ("W1", 10.308))
    assert off.within_m > good.within_m + 0.1
    assert any("disagree" in doubt for doubt in off.doubts)


# What a reader may not see.

SHAFT = block(
    "way out SH-1", hull="A", x="{x} m", y="{y} m", section_along="0.75 m",
    section_across="0.75 m", fill="sand", fill_from="50.80 m", fill_to="53.00 m",
    opens="from inside",
)  # fmt: skip


def hidden(x, y, at, reader):
    """A shaft at x, y; what a reader is told of a spot. A responder may see it, a trade not."""
    view = view_of(site(*STANDING, hull(), SHAFT.format(x=x, y=y)), reader=reader)
    return beneath(view, "here", (by_grid(*at),))


def test_what_is_withheld_is_reserved_and_in_no_byte_of_the_answer():
    found = hidden(101.5, 198.5, (101.5, 198.5), "trade")
    assert found.columns[0].reserved
    everything = told(found) + str(json_form(found))
    for word in ("SH-1", "shaft", "sand", "way out", "52.99", "53.0"):
        assert word not in everything
    assert "SH-1" in told(hidden(101.5, 198.5, (101.5, 198.5), "owner"))


def test_a_withheld_thing_is_not_found_by_asking_here_and_there():
    """Anywhere over the hull or 3 m round it the answers are the same, wherever the shaft is."""
    spots = [(101.5, 198.5), (105.0, 198.0), (97.5, 202.5), (108.5, 195.0)]
    answers = {
        (x, y): [str(json_form(hidden(x, y, at, "trade"))) for at in spots]
        for x, y in ((101.5, 198.5), (105.2, 197.6))
    }
    assert answers[101.5, 198.5] == answers[105.2, 197.6]
    assert all("'reserved': True" in answer for answer in answers[101.5, 198.5])
    assert not hidden(101.5, 198.5, (140.0, 140.0), "trade").columns[0].reserved


def test_far_from_any_hull_whole_squares_of_the_grid_are_reserved():
    """At (55, 55) the square from 50 to 60: as reserved at its corner as beside the thing."""
    for at, reserved in (((55, 55), True), ((50.5, 59.5), True), ((62, 55), False)):
        assert hidden(55.0, 55.0, at, "trade").columns[0].reserved is reserved


def test_the_owner_is_never_told_reserved():
    assert not hidden(101.5, 198.5, (101.5, 198.5), "owner").columns[0].reserved


def test_a_number_that_is_not_recorded_never_takes_a_thing_out_of_the_answer():
    whole = {hit.tag for hit in ask((24, 6)).columns[0].down}
    for change in (("| 20 mm", "| not recorded"), ("47.750 ± 3 mm", "not recorded"),
                   ("- outside diameter: 160 mm\n", ""), (" ± 3 mm", "")):  # fmt: skip
        (column,) = ask((24, 6), AIR_IN.replace(*change)).columns
        assert whole <= {hit.tag for hit in (*column.down, *column.depth_not_recorded)}


def test_turning_the_question_round_the_pipe_changes_no_depth():
    """Along a circle round the bend every spot is as far from it as the circle is wide."""
    for turn in range(0, 360, 45):
        at = (24 + 0.3 * math.cos(math.radians(turn)), 6 + 0.3 * math.sin(math.radians(turn)))
        hits = ask(at, within=0.3).columns[0].down
        assert hits and min(hit.off_m for hit in hits) <= 0.3 - 0.08 + 1e-9


def test_where_two_lengths_of_a_pipe_meet_it_is_told_as_the_one_pipe_it_is():
    (hit,) = ask((24.00, 6.00)).columns[0].down
    assert hit.words.endswith("1 to 2 and 2 to 3")
    assert len(hit.entries) == 3


#: Pipes known well and badly, one without levels, one in a hull that is turned, a valve, a hull.
CROWDED = (
    hull(bearing="30° ± 0.5°", x="20.00 m", y="8.00 m"),
    AIR_IN,
    pipe("1 a | 18.00 | 0.00 | 47 ± 3 mm | 49 | staff | 0.90 m",
         "2 b | 30.00 | 9.00 | 46 ± 3 mm | 49 | staff | 0.90 m", tag="D-1", columns=COLUMNS),
    pipe("1 a | 16.00 | 9.00 | tape", "2 b | 29.00 | 1.00 | tape", tag="W-1",
         fields="- pipe length: 16.00 m\n"),
    block("valve V-1", type="ball", on_run="D-1", x="24.50 m", y="5.00 m", size="200 mm"),
)  # fmt: skip


@given(x=some.floats(15, 32), y=some.floats(-2, 12), within=some.floats(0, 2.0))
@settings(max_examples=120, deadline=None)
def test_of_all_things_asked_in_turn_none_is_left_out(x, y, within):
    """Every shape of the site held against the spot, without the boxes that are looked at first."""
    (column,) = beneath(CROWD, "here", (by_grid(x, y, within),)).columns
    told = {hit.tag for hit in (*column.down, *column.depth_not_recorded)}
    seen = [(s.thing.tag, below(s, (x, y), within, CROWD.hulls)) for s in CROWD.shapes]
    assert told == {tag for tag, one in seen if one.off_m <= one.tolerance_m + within}
    beside = {hit.tag for hit in column.near} - told
    assert (
        beside
        == {tag for tag, one in seen if one.off_m <= max(0.61, one.tolerance_m) + within} - told
    )


CROWD = view_of(site(*STANDING, *CROWDED))


@given(x=some.floats(15, 32), y=some.floats(-2, 12), turn=some.floats(0, 360),
       east=some.floats(-50, 50), north=some.floats(-50, 50))  # fmt: skip
@settings(max_examples=25, deadline=None)
def test_turning_and_moving_a_whole_site_changes_no_answer(x, y, turn, east, north):
    def moved(px, py):
        c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))
        return c * px + s * py + east, -s * px + c * py + north  # clockwise, as bearings go

    def there(px, py):
        a, b = moved(px, py)
        return f"{a:.6f}", f"{b:.6f}"

    def whole(place, bearing):
        ends = [(place(18.0, 0.0), "47.000"), (place(30.0, 9.0), "46.000")]
        rows = [f"{n} s | {a} | {b} | {level} ± 3 mm | 49 | staff | 0.20 m"
                for n, ((a, b), level) in enumerate(ends, 1)]  # fmt: skip
        a, b = place(20.0, 8.0)
        box = hull(bearing=f"{bearing:.6f}° ± 0.5°", x=f"{a} m ± 10 mm", y=f"{b} m ± 10 mm")
        return view_of(site(pipe(*rows, tag="D-1", columns=COLUMNS), box))

    first = whole(lambda a, b: (f"{a:.6f}", f"{b:.6f}"), 30.0)
    other = whole(there, (30.0 + turn) % 360)
    (one,) = beneath(first, "here", (by_grid(x, y),)).columns
    (two,) = beneath(other, "here", (by_grid(*moved(x, y)),)).columns
    for here, now in ((one.down, two.down), (one.near, two.near)):
        on_edge = any(
            abs(h.off_m - h.tolerance_m - 0.30) < 1e-4 or abs(h.off_m - 0.91) < 1e-4
            for h in (*one.down, *one.near, *two.down, *two.near)
        )
        if on_edge:
            return
        assert [h.tag for h in here] == [h.tag for h in now]
        for h, n in zip(here, now, strict=True):
            assert (n.off_m, n.top_m, n.tolerance_m) == pytest.approx(
                (h.off_m, h.top_m, h.tolerance_m), abs=2e-5
            )
