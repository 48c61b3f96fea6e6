"""Labels climb until there is room, and poles pass beside words."""

import itertools

from hypothesis import given
from hypothesis import strategies as st

from manual.drawings.place import POLE_MM, Flag, flags, spread

SPOTS = st.builds(
    Flag,
    x_mm=st.floats(2, 168),
    y_mm=st.just(0.0),
    head=st.text(max_size=30),
    words=st.tuples(st.text(max_size=60)),
)


@given(st.lists(SPOTS, max_size=14))
def test_no_flag_covers_another(wanted):
    for ink in (
        flags(wanted, left_mm=2, right_mm=168).over(0.0),
        flags(wanted, left_mm=2, right_mm=168).under(0.0),
    ):
        for one, two in itertools.combinations(ink.labels, 2):
            assert not one.overlaps(two, gap_mm=-0.001)
        assert all(box.x_mm >= 2 - 1e-9 and box.right_mm <= 168 + 1e-9 for box in ink.labels)


@given(
    st.lists(st.builds(Flag, x_mm=st.floats(2, 120), y_mm=st.just(0.0), head=st.text(max_size=12)))
)
def test_where_there_is_paper_to_the_right_no_pole_goes_through_words(wanted):
    placed = flags(wanted, left_mm=2, right_mm=168)
    for flag in placed.sewn:
        for other in placed.sewn:
            below = other.rise_mm < flag.rise_mm
            words_from = other.left_mm + POLE_MM
            if below:
                assert not words_from < flag.flag.x_mm < other.left_mm + other.width_mm


def test_a_flag_left_of_one_that_turns_back_turns_with_it():
    """The flag at 165 has no paper to its right; its words reach back over the pole at 150, so
    that flag flies to the left too, and higher: the pole at 165 is beside both."""
    near, far = flags(
        [Flag(150, 0, "CV-1"), Flag(165, 0, "overpressure valve")], left_mm=2, right_mm=168
    ).sewn
    low, high = (near, far) if near.rise_mm < far.rise_mm else (far, near)
    assert low.flag.x_mm == 150
    assert high.flag.x_mm >= low.left_mm + low.width_mm


def test_flags_far_apart_stay_in_one_row():
    placed = flags([Flag(10, 0, "bend"), Flag(90, 0, "wall")], left_mm=2, right_mm=168)
    assert [each.rise_mm for each in placed.sewn] == [0, 0]


@given(st.lists(st.tuples(st.floats(0, 100), st.floats(0.1, 9)), max_size=12))
def test_a_spread_keeps_order_and_room(rows):
    wanted = sorted(place for place, _ in rows)
    sizes = [size for _, size in rows]
    starts = spread(wanted, sizes, least=0, most=100)
    for k, (one, two) in enumerate(itertools.pairwise(starts)):
        assert two >= one + sizes[k] - 1e-9
    if starts:
        assert starts[0] >= -1e-9
        assert starts[-1] + sizes[-1] <= max(100, sum(sizes)) + 1e-9
