"""The record → what the drawings take: a long section and a plan of the small shelter."""

import pytest

from manual.asks.asking import Answer
from manual.asks.floors import round_floor_area, round_inside
from manual.plans.drawn import fall_words, run_section, site_plan
from manual.plans.pictures import picture
from record.readers import look
from tests.manual.books import MARK_UP, Page, entries
from tests.record.building import day, view_of

DRAIN = "## drain DR-1\n\n- serves: AIR-IN\n- at station: 2\n- discharges: to the floor"


def section(*blocks):
    view = look(entries(*blocks))
    return run_section(view, view.built.thing("AIR-IN"))


def test_a_pipe_is_drawn_from_its_stations_with_the_fall_between_them():
    # 48.00 - 47.80 = 0.20 m over 20.00 - 10.00 = 10.00 m: 2 in the hundred.
    drawn = section()
    assert [s.chainage_m for s in drawn.stations] == [0, 10]
    assert [s.invert_m for s in drawn.stations] == [48.0, 47.8]
    (fall,) = drawn.falls
    assert (fall.from_m, fall.to_m, fall.words) == (0, 10, "2.000 % fall")
    assert not fall.wrong_way
    assert drawn.outside_diameter_m == 0.16


def test_what_sits_on_a_pipe_is_drawn_at_its_station():
    found = {(f.tag, f.kind, f.chainage_m) for f in section(DRAIN).fittings}
    assert found == {("CV-1", "check valve", 10), ("DR-1", "drain", 10)}


def test_a_pipe_that_rises_is_said_to_rise():
    assert fall_words(-0.01, -0.1) == 'RISES 0.100 m (3 15/16")'
    assert fall_words(0.01, 0.1) == "1.000 % fall"


def test_a_pipe_with_one_level_has_no_section_and_prints_a_gap_in_its_place():
    run = (
        "## run W-1\n\n- carries: drinking water\n\n| station | x | y | level | how |\n"
        "|---|---|---|---|---|\n| 1 | 1.00 m | 1.00 m | invert 48.00 m | staff |"
    )
    view = look(entries(run))
    assert run_section(view, view.built.thing("W-1")) is None
    html = picture(view, "long section W-1")
    assert html.startswith('<p class="gap">W-1: long section')
    assert html.endswith("not recorded</p>")


def test_the_plan_shows_hulls_pipes_and_landmarks_and_waits_for_the_first_hull():
    mark = "## landmark H1\n\n- what: house, corner\n- x: 1.00 m\n- y: 2.00 m\n- state: standing"
    plan = site_plan(look(entries(mark)))
    assert [o.tag for o in plan.outlines] == ["A"]
    assert [(r.tag, r.points_m) for r in plan.routes] == [("AIR-IN", ((20, 10), (10, 10)))]
    assert [(s.tag, s.name, s.x_m, s.y_m) for s in plan.landmarks] == [("H1", "house", 1, 2)]
    assert site_plan(view_of(day("2031-05-14", "ld", mark))) is None


def test_a_plan_never_shows_what_the_reader_may_not_see():
    view = look(entries(), "technician")
    assert "S-1" not in picture(view, "site plan")


@pytest.mark.parametrize("drawing", ["site plan", "long section AIR-IN"])
def test_every_drawing_tells_in_words_what_it_shows(drawing):
    page = Page(picture(look(entries()), drawing))
    (figure,) = [attrs for name, attrs in page.tags if name == "figure"]
    assert len(figure["aria-label"].split()) > 5
    assert {"svg", "figcaption"} <= {name for name, _ in page.tags}


@pytest.mark.parametrize("drawing", ["site plan", "long section AIR-IN"])
def test_names_that_look_like_mark_up_are_letters_in_a_drawing(drawing):
    blocks = (
        f"## run AIR-IN\n\n- name: {MARK_UP}",
        f"## hull A\n\n- name: {MARK_UP}",
        f"## landmark H1\n\n- what: {MARK_UP}\n- x: 1.00 m\n- y: 2.00 m\n- state: standing",
    )
    html = picture(look(entries(*blocks)), drawing)
    assert "<script" not in html
    assert "script" not in {name for name, _ in Page(html).tags}


def test_a_round_hull_is_called_round_on_the_plan_where_it_looks_like_a_box():
    """And its floor is as wide as the chord: 2 √(0.25 × 2.25) = 1.50 m, over 6.00 m 9.00 m²."""
    from tests.record.place.test_round_hulls import seen as round_one

    view = round_one(floor_above_bottom="0.25 m")
    (outline,) = site_plan(view).outlines
    assert outline.name == "hull, round, 2.50 m across inside"
    hull = Answer(view.built.thing("A"))
    assert round_inside(hull) and round_floor_area(hull).startswith("9.0")
    low = round_one(floor_above_bottom="not recorded")
    unknown = round_floor_area(Answer(low.built.thing("A")))
    assert unknown == "cannot be worked: a measure is not recorded"
    assert not round_inside(Answer(look(entries()).built.thing("A")))


def test_a_landmark_that_is_lost_is_drawn_as_lost():
    mark = "## landmark W1\n\n- what: well head\n- x: 30.50 m\n- y: 14.00 m"
    (stands,) = site_plan(look(entries(mark))).landmarks
    (lost,) = site_plan(look(entries(f"{mark}\n- state: demolished"))).landmarks
    assert (stands.tag, lost.tag) == ("W1", "W1 (lost)")


MARKS = """
## landmark H1

- what: house, corner
- x: 20.00 m
- y: 20.00 m

## landmark H2

- what: house, corner
- x: 17.00 m
- y: 14.00 m
- state: demolished
"""
TAPED = """
## position tied AIR-IN

| landmark | point | distance |
|---|---|---|
| H1 | 1 | 10.000 m |
| H2 | 1 | 5.000 m |
"""


def test_the_plan_shows_every_tape_from_its_landmark_to_the_point_it_was_pulled_to():
    """Station 1 is at (20, 10): 10 m south of H1, and 3 and 4 from H2, so 5 m."""
    ties = site_plan(look(entries(MARKS, TAPED))).ties
    told = [(t.from_tag, t.to_words, t.from_m, t.to_m, t.distance_m) for t in ties]
    assert told == [
        ("H1", "AIR-IN 1", (20, 20), (20, 10), 10.0),
        ("H2 (lost)", "AIR-IN 1", (17, 14), (20, 10), 5.0),
    ]


def test_a_tape_to_what_a_reader_may_not_see_is_not_on_their_plan():
    way = "## way out SH-1\n\n- hull: A\n- opens: inward\n- x: 3.60 m\n- y: 11.20 m"
    tape = "## position tied SH-1\n\n| landmark | point | distance |\n|---|---|---|\n"
    blocks = (MARKS, TAPED, way, f"{tape}| H1 | top | 18.600 m |")
    assert "SH-1" in picture(look(entries(*blocks)), "site plan")
    seen = picture(look(entries(*blocks), "technician"), "site plan")
    assert "SH-1" not in seen and "18.600" not in seen and "10.000" in seen


def test_a_scale_bar_is_in_both_units_and_north_is_shown():
    """A foot is 0.3048 m: 5 m are 16.4 ft, 10 m 32.8 ft, 15 m 49.2 ft, 20 m 65.6 ft."""
    page = Page(picture(look(entries(MARKS)), "site plan"))
    assert any(
        f"{metres} m ({feet} ft)" in page.text
        for metres, feet in ((4, "13.1"), (6, "19.7"), (5, "16.4"), (10, "32.8"), (15, "49.2"))
    )
    assert "grid north" in page.text
