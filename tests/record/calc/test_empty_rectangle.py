"""The largest empty rectangle, against all rectangles that could be, tried one by one."""

import itertools

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some
from shapely.geometry import box
from shapely.ops import unary_union

from record.calc.empty_rectangle import largest_empty

WALL = (0.0, 0.0, 6.0, 4.0)
at = some.integers(-2, 14).map(lambda half: half / 2)
rectangles = some.lists(
    some.tuples(at, at, at, at).map(
        lambda r: (min(r[0], r[2]), min(r[1], r[3]), max(r[0], r[2]), max(r[1], r[3]))
    ),
    max_size=6,
)


def every_empty(bounds, kept_out):
    """Every rectangle whose sides are those of something; its emptiness asked of shapely."""
    xs = sorted({bounds[0], bounds[2], *(x for one in kept_out for x in (one[0], one[2]))})
    ys = sorted({bounds[1], bounds[3], *(y for one in kept_out for y in (one[1], one[3]))})
    xs = [x for x in xs if bounds[0] <= x <= bounds[2]]
    ys = [y for y in ys if bounds[1] <= y <= bounds[3]]
    full = unary_union([box(*one) for one in kept_out]) if kept_out else None
    for (x0, x1), (y0, y1) in itertools.product(
        itertools.combinations(xs, 2), itertools.combinations(ys, 2)
    ):
        one = box(x0, y0, x1, y1)
        line = any(
            a[0] < x1 and a[2] > x0 and a[1] < y1 and a[3] > y0
            for a in kept_out
            if a[0] == a[2] or a[1] == a[3]  # a line has no area for shapely to meet
        )
        if not line and (full is None or one.intersection(full).area < 1e-12):
            yield (x0, y0, x1, y1)


def area(one):
    return (one[2] - one[0]) * (one[3] - one[1])


@given(kept_out=rectangles, least=some.tuples(some.sampled_from([0, 1.5]), some.just(1.0)))
@settings(max_examples=150, deadline=None)
def test_no_other_empty_rectangle_is_larger(kept_out, least):
    fitting = [
        one
        for one in every_empty(WALL, kept_out)
        if one[2] - one[0] >= least[0] and one[3] - one[1] >= least[1]
    ]
    found = largest_empty(WALL, kept_out, least)
    if not fitting:
        assert found is None
    else:
        assert found is not None and found in fitting
        assert area(found) == pytest.approx(max(map(area, fitting)))


def test_an_empty_wall_is_free_whole_and_a_full_one_not_at_all():
    assert largest_empty(WALL, []) == WALL
    assert largest_empty(WALL, [(-1, -1, 7, 5)]) is None


def test_a_pipe_across_a_wall_leaves_the_higher_part():
    """A band 1.0 to 1.5 up a wall 4.0 high leaves 2.5 above it and 1.0 below."""
    assert largest_empty(WALL, [(0, 1.0, 6, 1.5)]) == (0, 1.5, 6, 4)


def test_room_that_is_wide_enough_and_too_low_does_not_count():
    """Beside a post 3.0 to 6.0 wide and 3.5 high: 3.0 by 4.0 is left, and 6.0 by 0.5 on top."""
    post = [(3.0, 0.0, 6.0, 3.5)]
    assert largest_empty(WALL, post, (2.0, 2.0)) == (0, 0, 3, 4)
    assert largest_empty(WALL, post, (5.0, 0.4)) == (0, 3.5, 6, 4)
    assert largest_empty(WALL, post, (5.0, 0.6)) is None


@pytest.mark.parametrize("wrong", [(1, 0, 0, 1), (0, 1, 1, 0), (0, 0, float("nan"), 1)])
def test_what_is_no_rectangle_is_refused(wrong):
    with pytest.raises(ValueError, match="is none"):
        largest_empty(WALL, [wrong])
