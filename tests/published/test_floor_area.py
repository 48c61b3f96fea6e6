"""Floor areas as installers quote them: common practice, no source; the arithmetic is in feet."""

from __future__ import annotations

from decimal import Decimal

import pytest

from record.calc.area import floor_area_m2, total_area_m2, width_in_round_m
from record.units import Dimension, in_both, read_quantity


def in_feet(length: str, width: str) -> Decimal:
    """Read two lengths as a crew writes them and return the floor's square metres."""
    sides = [read_quantity(text, Dimension.LENGTH).si for text in (length, width)]
    return floor_area_m2(*sides)


def test_two_hulls_of_12_by_50_and_10_by_50_feet_have_1100_square_feet():
    """12 × 50 + 10 × 50 = 600 + 500 = 1,100 ft². Common practice, no source."""
    total = total_area_m2([in_feet("50 ft", "12 ft"), in_feet("50 ft", "10 ft")])
    assert total == 1100 * Decimal("0.3048") ** 2
    assert "1100" in in_both(total, Dimension.AREA).replace(",", "")


def test_a_room_of_13_by_10_feet_has_130_square_feet():
    """13 × 10 = 130 ft². Common practice, no source."""
    assert in_feet("13 ft", "10 ft") == 130 * Decimal("0.3048") ** 2


def test_a_floor_without_width_is_refused():
    with pytest.raises(ValueError, match="no area"):
        floor_area_m2(Decimal(9), Decimal(0))
    with pytest.raises(ValueError, match="no area"):
        floor_area_m2(Decimal(0), Decimal(9))


def test_a_closet_of_half_a_metre_by_half_a_metre_has_a_quarter_of_one():
    assert floor_area_m2(Decimal("0.5"), Decimal("0.5")) == Decimal("0.25")


@pytest.mark.parametrize(("height", "width"), [("2", "8"), ("5", "10"), ("8", "8"), ("9", "6")])
def test_a_chord_of_a_circle_of_ten_makes_right_angles_of_3_4_5(height, width):
    """Euclid III.35: half the chord squared is the product of what it parts: 2 × 8 = 4², 5 × 5 =
    5², 9 × 1 = 3²."""
    assert width_in_round_m(Decimal(10), Decimal(height)) == Decimal(width)


@pytest.mark.parametrize("height", ["0", "-1", "10", "11"])
def test_a_floor_outside_a_round_hull_is_refused(height):
    with pytest.raises(ValueError, match="not within"):
        width_in_round_m(Decimal(10), Decimal(height))
