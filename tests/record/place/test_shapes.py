"""Things → shapes: where measures are missing they are filled out, and what has none is told."""

import pytest

from record.place import hull_frames, shapes, unplaced
from record.place.solids import Block, Capsule
from tests.record.answers.shelter import SITE, block, fit_out, hull, run, sheet
from tests.record.building import view_of

ENDS = [("1", "102.60", "201.00", "51.20", "20 mm"), ("2", "102.60", "200.00", "51.10", "20 mm")]


def built(*blocks):
    return view_of(sheet(SITE, hull(), *blocks)).built


def shapes_of(tag, *blocks):
    state = built(*blocks)
    return [s for s in shapes(state, hull_frames(state)) if s.thing.tag == tag]


def loose(*blocks):
    state = built(*blocks)
    return [(each.thing.tag, each.words) for each in unplaced(state, hull_frames(state))]


def test_a_shaft_stands_along_its_hull_and_not_along_the_grid():
    """Hull A looks east, near-left-floor corner at x 100, y 200: a shaft centred at x 106.50,
    y 198.00 is at a 6.50, l 2.00. 0.80 along a is 6.10 to 6.90, 0.60 across l is 1.70 to 2.30;
    its fill from level 50.75 to 53.45 is h 0.75 to 3.45."""
    shaft = block(
        "way out SH-1",
        hull="A",
        x="106.50 m ± 20 mm",
        y="198.00 m",
        section_along="0.80 m",
        section_across="0.60 m",
        fill="sand",
        fill_from="50.75 m",
        fill_to="53.45 m",
        opens="not recorded",
    )
    (shape,) = shapes_of("SH-1", shaft)
    assert isinstance(shape.form, Block)
    assert shape.form.low == pytest.approx((6.10, 1.70, 0.75))
    assert shape.form.high == pytest.approx((6.90, 2.30, 3.45))
    # It was placed on the grid, so the hull's 10 mm come in: √(20² + 10²) = 22.4 mm.
    assert shape.horizontal_m == pytest.approx(0.02236, abs=1e-4)


def test_a_run_with_a_station_without_a_level_stands_at_every_level_there():
    pipe = run(stations=[ENDS[0], ("2", "102.60", "200.00", "not recorded", "20 mm")])
    (shape,) = shapes_of("W-1", pipe)
    assert isinstance(shape.form, Capsule) and shape.missing == ("level",)
    low = shape.form.start[2]
    assert low < -10_000 and low + shape.form.rises_m > 10_000


def test_a_station_without_a_place_leaves_its_neighbour_a_ball_and_a_gap_to_tell_of():
    pipe = run(stations=[ENDS[0], ("2", "not recorded", "200.00", "51.10", "20 mm")])
    (shape,) = shapes_of("W-1", pipe)
    assert isinstance(shape.form, Capsule) and shape.form.start == shape.form.end
    assert loose(pipe) == [("W-1", "run, drinking water, 1 to 2")]


def test_a_run_without_stations_may_lie_anywhere():
    assert loose(run()) == [("W-1", "run, drinking water, its way")]


def test_a_valve_that_names_only_its_station_stands_there_and_is_told_to_have_no_place():
    valve = block("valve V-1", type="ball", on_run="W-1", at_station="2")
    (shape,) = shapes_of("V-1", run(stations=ENDS), valve)
    assert isinstance(shape.form, Capsule)
    assert shape.form.start == pytest.approx((102.60, 200.00, 51.10))
    assert ("V-1", "valve, ball, at station 2, no place of its own") in loose(
        run(stations=ENDS), valve
    )


def test_a_machine_whose_place_is_half_known_is_told_and_not_drawn():
    fan = block("equipment AU-1", type="air unit", hull="A", from_near="2.00 m")
    assert shapes_of("AU-1", fan) == []
    assert loose(fan) == [("AU-1", "equipment, air unit")]


def test_a_size_nobody_wrote_down_runs_on_past_the_end_of_the_hull():
    """Inside length 6.00 m and a metre round it."""
    (shape,) = shapes_of("FO-1", fit_out(along="not recorded"))
    assert isinstance(shape.form, Block) and shape.form.high[0] == 7.0
    assert shape.missing == ("along",)


def test_a_level_of_nought_on_the_datum_is_a_level():
    post = fit_out(hull="not recorded", x="102 m", y="201 m", bottom="0.00 m", from_near=None)
    (shape,) = shapes_of("FO-1", post)
    assert shape.missing == () and shape.form.start[2] == 0.0


def test_a_seam_round_an_opening_is_four_strips_as_wide_as_its_layers_reach():
    """1.00 wide, 2.00 high from a 2.00, level 50.20, reaching 150 mm: the bottom strip runs from
    a 1.85 to 3.15 and h 0.05 to 0.35, in the 10 mm of plate of the left wall (l −0.01 to 0)."""
    seam = block(
        "seam SM-1",
        joins="door frame",
        hull="A",
        face="left",
        from_near="2.00 m",
        bottom="50.20 m",
        width="1.00 m",
        height="2.00 m",
        **{"build-up": "not recorded", "build-up_reaches": "150 mm"},
    )
    found = {s.words: s.form for s in shapes_of("SM-1", seam)}
    assert len(found) == 4
    bottom = found["seam, welded, its bottom side"]
    assert isinstance(bottom, Block)
    assert bottom.low == pytest.approx((1.85, -0.01, 0.05))
    assert bottom.high == pytest.approx((3.15, 0.0, 0.35))


@pytest.mark.parametrize(
    ("nominal_mm", "outside_mm"),
    [(6, 10.3), (15, 21.3), (25, 33.4), (50, 60.3), (100, 114.3), (150, 168.3)],
)
def test_a_pipe_known_by_its_nominal_size_is_taken_no_thinner_than_it_is(nominal_mm, outside_mm):
    """Outside diameters of DN 6 to DN 150 of ASME B36.10M, from memory."""
    pipe = run(stations=ENDS, outside_diameter="not recorded", size=f"{nominal_mm} mm")
    (shape,) = shapes_of("W-1", pipe)
    assert isinstance(shape.form, Capsule)
    assert shape.form.radius_m * 2000 >= outside_mm
    assert shape.assumed


@pytest.mark.parametrize(
    ("changed", "radius"),
    [
        ({"insulation": "none"}, 0.080),
        ({"insulation": "n/a, inside"}, 0.080),
        ({"insulation": "foam", "insulation_thickness": "30 mm"}, 0.110),
        ({"insulation": "not recorded"}, 0.130),
        ({"insulation": "foam", "insulation_thickness": "not recorded"}, 0.130),
    ],
)
def test_insulation_nobody_measured_is_taken_to_be_50_mm(changed, radius):
    (shape,) = shapes_of("W-1", run(stations=ENDS, **changed))
    assert isinstance(shape.form, Capsule) and shape.form.radius_m == pytest.approx(radius)
