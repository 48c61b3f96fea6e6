"""Things placed by their length along a run: between its stations, and with its doubts."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from record.answers import behind
from record.answers.find import find
from record.answers.find_words import find_words
from record.place import unplaced
from tests.record.answers.shelter import SITE, block, hull, panel, run, sheet, shelter
from tests.record.building import view_of

few = settings(max_examples=25, deadline=None)
ENDS = (("10", "20", "49 ± 5 mm"), ("14", "20", "49 ± 5 mm"), ("14", "23", "48 ± 5 mm"))


def pipe(ends=ENDS, **changed):
    """Return a run 4 m east, then 3 m north and 1 m down: 7.162 m of pipe, none to spare."""
    rows = [(str(k), *end, "10 mm") for k, end in enumerate(ends, 1)]
    return run(stations=rows, **{"pipe_length": f"{4 + math.sqrt(10):.6f} m"} | changed)


def valve(along="2.40 m ± 20 mm", **changed):
    return block(
        "valve V-1",
        type="gate",
        on_run="W-1",
        along_run=along,
        size="160 mm",
        **changed,
    )


def seen(*blocks):
    return shelter(*blocks)


def shape(*blocks):
    (found,) = [each for each in seen(*blocks).shapes if each.thing.tag == "V-1"]
    return found


def why(*blocks):
    view = seen(*blocks)
    return [each.words for each in unplaced(view.built, view.hulls) if each.thing.tag == "V-1"]


def test_a_length_along_a_run_is_a_place_between_its_stations():
    found = shape(pipe(), valve())
    assert found.form.start == pytest.approx((12.40, 20.0, 49.0))
    assert "2.40 m along W-1 from its first station, interpolated" in found.basis
    assert not why(pipe(), valve())


def test_past_a_bend_a_length_goes_on_up_the_next_stretch():
    """4 m to the bend; half of √(3² + 1²) more is 1.5 m north and 0.5 m down."""
    found = shape(pipe(), valve(f"{4 + math.sqrt(10) / 2:.6f} m"))
    assert found.form.start == pytest.approx((14.0, 21.5, 48.5), abs=1e-5)


def test_less_than_nought_from_a_station_is_back_toward_the_first():
    found = shape(pipe(), valve("-1.00 m ± 20 mm", along_from="2"))
    assert found.form.start == pytest.approx((13.0, 20.0, 49.0))
    assert "back toward its first" in found.basis


@pytest.mark.parametrize(("side", "y"), [("left", 20.30), ("right", 19.70)])
def test_beside_is_to_the_side_of_one_who_looks_along(side, y):
    """Looking east, left is north."""
    found = shape(pipe(), valve(beside="0.30 m ± 10 mm", side=side))
    assert found.form.start == pytest.approx((12.40, y, 49.0))


def test_a_side_nobody_wrote_is_both_sides():
    form = shape(pipe(), valve(beside="0.30 m")).form
    assert sorted((form.start[1], form.end[1])) == pytest.approx([19.70, 20.30])


@pytest.mark.parametrize(("above", "level"), [("0.20 m", 49.28), ("-0.20 m", 48.72)])
def test_above_the_pipe_counts_from_its_outside(above, level):
    """160 mm across: 0.08 m from the axis to the outside."""
    assert shape(pipe(), valve(above_pipe=above)).form.start[2] == pytest.approx(level)


def test_a_height_over_the_pipe_not_recorded_is_any_height():
    assert shape(pipe(), valve(above_pipe="not recorded")).missing == ("level",)
    assert shape(pipe(), valve()).missing == ()


def test_its_tolerance_is_the_tape_and_the_stations_and_what_the_pipe_may_stray():
    """Straight and measured: √(10² + 20²) = 22.4 mm; the pipe 10 mm longer at the least adds its
    slack of 10 mm, and more for the line off the straight."""
    straight = shape(pipe(), valve())
    assert straight.horizontal_m == pytest.approx(math.hypot(0.010, 0.020), abs=0.002)
    slack = shape(pipe(pipe_length=f"{4.01 + math.sqrt(10):.6f} m"), valve())
    assert slack.horizontal_m > straight.horizontal_m + 0.010 + 0.1


@pytest.mark.parametrize(
    ("along", "changed", "said"),
    [
        ("9.00 m", {}, "1.84 m beyond the last station of W-1"),
        ("-0.50 m", {}, "0.50 m before the first station of W-1"),
        ("1.00 m", {"along_from": "7"}, "W-1 has no station 7"),
        ("1.00 m", {"beside": "not recorded"}, "beside not recorded"),
        ("1.00 m", {"along_from": "not recorded"}, "along from not recorded"),
    ],
)
def test_what_cannot_be_placed_is_told_with_why(along, changed, said):
    (words,) = why(pipe(), valve(along, **changed))
    assert words == f"valve, gate, {said}"


def test_a_station_without_a_place_leaves_no_length_to_count():
    ends = (ENDS[0], ("not recorded", "20", "49"), ENDS[2])
    assert why(pipe(ends), valve()) == ["valve, gate, not every station of W-1 has a place"]


def test_where_to_dig_for_it_is_told():
    (spot,) = find(seen(pipe(), valve()), "V-1").spots
    assert (spot.x_m, spot.y_m) == pytest.approx((12.40, 20.0))
    assert "2.40 m along W-1 from its first station" in spot.words
    assert spot.depth is not None and spot.depth.level_m == pytest.approx(49.0)


metres = st.integers(-3000, 3000).map(lambda mm: mm / 1000)


@few
@given(dx=metres, dy=metres)
def test_a_mended_last_station_moves_only_what_lies_next_to_it(dx, dy):
    """Counted from station 2, back: it stays. From station 2 onward: it follows the pipe."""
    moved = (*ENDS[:2], (f"{14 + dx:.3f}", f"{27 + dy:.3f}", "48 ± 5 mm"))
    stays = valve("-1.00 m ± 20 mm", along_from="2")
    assert shape(pipe(moved), stays).form == shape(pipe(), stays).form
    follows = shape(pipe(moved), valve("1.00 m ± 20 mm", along_from="2")).form
    long = math.hypot(dx, 7 + dy, 1)
    assert follows.start == pytest.approx((14 + dx / long, 20 + (7 + dy) / long, 49 - 1 / long))


BEHIND = (("102", "200.25", "51 ± 5 mm"), ("104", "200.25", "51 ± 5 mm"))


def reach(*blocks):
    view = view_of(sheet(SITE, hull(), panel(), *blocks))
    found = [each for each in behind(view, "P-1").items if each.tag == "V-1"]
    lost = [each.words for each in unplaced(view.built, view.hulls) if each.thing.tag == "V-1"]
    return (found[0] if found else None), lost


@pytest.mark.parametrize("left_out", ["side", "beside", "above_pipe", "along_run", "along_from"])
def test_a_measure_not_recorded_never_takes_it_away(left_out):
    """Either it is told as anywhere, or its outline holds the one before."""
    told = {
        "along_run": "0.70 m ± 10 mm",
        "along_from": "1",
        "beside": "0.05 m ± 5 mm",
        "side": "left",
        "above_pipe": "0.05 m ± 5 mm",
    }
    line = run(stations=[(str(k), *e, "10 mm") for k, e in enumerate(BEHIND, 1)])
    place = dict(told)
    one, _ = reach(line, valve(place.pop("along_run"), **place))
    place = told | {left_out: "not recorded"}
    other, lost = reach(line, valve(place.pop("along_run"), **place))
    assert one is not None
    if other is None:
        assert lost
        return
    for name in ("across_may_reach", "upward_may_reach"):
        wide, narrow = getattr(other, name), getattr(one, name)
        assert wide.from_m <= narrow.from_m + 1e-9 and wide.to_m >= narrow.to_m - 1e-9


@few
@given(grown=st.integers(10, 900))
def test_a_grown_tolerance_of_its_length_never_takes_away(grown):
    line = run(stations=[(str(k), *e, "10 mm") for k, e in enumerate(BEHIND, 1)])
    one, _ = reach(line, valve("0.70 m ± 10 mm"))
    other, _ = reach(line, valve(f"0.70 m ± {grown} mm"))
    wide, narrow = other.across_may_reach, one.across_may_reach
    assert wide.from_m <= narrow.from_m + 1e-9 and wide.to_m >= narrow.to_m - 1e-9


def test_it_rests_on_the_stations_of_its_own_stretch_and_no_others():
    """W-1/1, 2 and 3 are one entry each; 2.40 m along lies before the bend, 5 m past it."""
    for along, stretch in (("2.40 m", {"W-1/1", "W-1/2"}), ("5.00 m", {"W-1/2", "W-1/3"})):
        about = {entry.content.about for entry in shape(pipe(), valve(along)).entries}
        assert about == {"V-1"} | stretch


def test_a_layer_rests_on_the_stations_of_its_own_stretch_and_no_others():
    layer = block("insulation I-1", on_run="W-1", order="1", material="foam", thickness="30 mm")
    found = [each for each in seen(pipe(), layer).shapes if each.thing.tag == "I-1"]
    about = [{entry.content.about for entry in each.entries} for each in found]
    assert about == [{"I-1", "W-1/1", "W-1/2"}, {"I-1", "W-1/2", "W-1/3"}]


@pytest.mark.parametrize("reader", ["technician", "trade", "responder"])
def test_along_a_run_that_is_withheld_nothing_is_placed_or_pointed_at(reader):
    """A reader who may not see the run is told no place, no station and no length of it."""
    hidden = pipe().replace("## run W-1\n", "## run W-1\n\n- readers: owner", 1)
    other = pipe(((*ENDS[0][:2], "48 ± 5 mm"), ("30", "40", "47 ± 5 mm"), ENDS[2]))
    other = other.replace("## run W-1\n", "## run W-1\n\n- readers: owner", 1)
    one, two = (shelter(each, panel(), valve(), reader=reader) for each in (hidden, other))
    assert one.built.thing("W-1") is None
    for view in (one, two):
        assert not [each for each in view.shapes if each.thing.tag == "V-1"]
        loose = [each.words for each in unplaced(view.built, view.hulls)]
        assert loose == ["valve, gate, its run is not recorded"]
    assert find_words(find(one, "V-1")) == find_words(find(two, "V-1"))
    assert "station" not in " ".join(find_words(find(one, "V-1")))
    assert [s for s in shelter(hidden, panel(), valve()).shapes if s.thing.tag == "V-1"]
