"""The small plan of an emergency page: two rooms in an L, a door, a shaft, things to touch."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from manual.drawings.floor_map import FloorMap, Gap, Mark, Room, floor_map

LIVING = Room("living room", ((20, 10), (11, 10), (11, 12.7), (20, 12.7)))
PLANT = Room("plant room", ((16.4, 8.4), (16.4, 3.6), (14, 3.6), (14, 8.4)))
DOOR = Gap("shelter door", (20, 11), (20, 11.8), (20.45, 11.4), "OUT")
INNER = Gap("link", (15, 10), (15.8, 10), (15.4, 9.5))
MARKS = tuple(
    Mark(n, f"thing {n}", at)
    for n, at in enumerate(((14.1, 6.8), (14.1, 6.5), (14.2, 6.2), (19.8, 12.6)), start=1)
)
PLAN = FloorMap(rooms=(LIVING, PLANT), gaps=(DOOR, INNER), marks=MARKS, turn_deg=180)


def words_of(drawing):
    return [box.text for box in drawing.labels]


@pytest.mark.parametrize("high", [40, 60, 90])
def test_the_plan_is_legible_at_every_size_a_page_has_room_for(legible, high):
    drawing = floor_map(PLAN, width_mm=high + 4, most_high_mm=high)
    legible(drawing)
    assert drawing.height_mm <= high + 16  # what finds no room is said beneath


def test_what_is_touched_is_numbered_and_only_doors_that_lead_out_say_so():
    words = words_of(floor_map(PLAN))
    assert [w for w in words if w.isdigit()] == ["1", "2", "3", "4"]
    assert words.count("OUT") == 1 and "living room" in words


def test_its_words_tell_the_same_as_the_plan():
    alt = floor_map(PLAN).alt
    for said in ("living room", "plant room", "shelter door (OUT)", "3: thing 3"):
        assert said in alt
    assert "link" not in alt


def test_a_plan_turned_by_a_quarter_is_as_wide_as_it_was_high():
    lying = FloorMap(rooms=(LIVING,), gaps=(), marks=())
    upright = FloorMap(rooms=(LIVING,), gaps=(), marks=(), turn_deg=90)
    one, two = (floor_map(p, width_mm=60, most_high_mm=60) for p in (lying, upright))
    assert one.height_mm < two.height_mm


@settings(max_examples=40, deadline=None)
@given(st.lists(st.tuples(st.floats(11, 20), st.floats(10, 12.7)), max_size=9))
def test_numbers_never_cover_each_other_however_close_things_stand(spots):
    marks = tuple(Mark(n, "x", spot) for n, spot in enumerate(spots, start=1))
    drawing = floor_map(FloorMap(rooms=(LIVING,), gaps=(DOOR,), marks=marks))
    numbers = [box for box in drawing.labels if box.text.isdigit()]
    assert len(numbers) == len(spots)
    for k, one in enumerate(numbers):
        assert not any(one.overlaps(two) for two in numbers[k + 1 :])
