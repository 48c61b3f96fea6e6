"""Distances in space, each worked by hand."""

import math

import pytest

from record.calc.apart import bar_in_box_m, bars_apart_m, boxes_share_m

CUBE = (0.0, 0.0, 0.0), (1.0, 1.0, 1.0)


@pytest.mark.parametrize(
    ("other", "apart"),
    [
        (((1, -1, 0.3), (1, 1, 0.3)), 0.3),  # across it
        (((0, 0.4, 0), (2, 0.4, 0)), 0.4),  # beside it all along
        (((5, 0, 4), (5, 0, 4)), 5.0),  # a point past its end: 3, 4, 5
        (((1, 0, -1), (1, 0, 1)), 0.0),  # through it
        (((3, 1, 0), (3, 4, 0)), math.sqrt(2)),  # from end to end
    ],
)
def test_bars(other, apart):
    one = (0, 0, 0), (2, 0, 0)
    assert bars_apart_m(one, other) == pytest.approx(apart, abs=1e-6)
    assert bars_apart_m(other, one) == pytest.approx(apart, abs=1e-6)


@pytest.mark.parametrize(
    ("axis", "apart"),
    [
        (((-5, 1.25, 0.5), (5, 1.25, 0.5)), 0.25),
        (((-5, 0.5, 0.5), (5, 0.5, 0.5)), -0.5),
        (((-5, 0.9, 0.5), (5, 0.9, 0.5)), -0.1),
        (((4, 5, 0.5), (4, 5, 0.5)), 5.0),  # 3 past one face, 4 past another
        (((2, 0, 2), (2, 1, 2)), math.sqrt(2)),  # along an edge
    ],
)
def test_a_bar_and_a_box(axis, apart):
    assert bar_in_box_m(axis, *CUBE) == pytest.approx(apart, abs=1e-6)


def test_boxes():
    assert boxes_share_m(CUBE, ((0.75, -1, -1), (3, 3, 3))) == 0.25
    assert boxes_share_m(CUBE, ((1, 0, 0), (2, 1, 1))) == 0
    assert boxes_share_m(CUBE, ((0, 0, 3.5), (1, 1, 4))) == -2.5
