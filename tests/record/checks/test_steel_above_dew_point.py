"""Steel and dew point: 3 °C (5 °F) apart is common coating practice, no source."""

import pytest

from record.checks import steel_above_dew_point as rule
from tests.record.checks.ground import SEAM, against, changed, the_one

TAR = "| T-1 | none | 14.0 °C | 8.6 °C |"


def tarred(surface, dew_point):
    return changed(SEAM, (TAR, f"| T-1 | none | {surface} | {dew_point} |"))


def test_steel_well_above_the_dew_point_is_not_held():
    """14.0 - 8.6 = 5.4."""
    assert against(rule, SEAM) == []


def test_steel_near_the_dew_point_is_held():
    """The morning of the hold: 10.5 - 8.3 = 2.2, where 11.3 is needed."""
    found = the_one(rule, tarred("10.5 °C", "8.3 °C"))
    assert (found.sure, found.stops) == ("certain", True)
    assert "surface 10.5 °C, dew point 8.3 °C: 2.2 °C above it" in found.says


@pytest.mark.parametrize(("surface", "held"), [("11.3 °C", False), ("11.2 °C", True)])
def test_three_degrees_are_just_enough(surface, held):
    assert bool(against(rule, tarred(surface, "8.3 °C"))) is held


@pytest.mark.parametrize(
    ("surface", "dew_point"),
    [("not recorded", "8.6 °C"), ("14.0 °C", "not recorded"), ("14.0 °C", "none")],
)
def test_a_reading_nobody_took_cannot_be_told(surface, dew_point):
    found = the_one(rule, tarred(surface, dew_point))
    assert (found.sure, found.stops) == ("cannot be told", True)


def test_a_layer_for_which_the_question_does_not_arise_says_why():
    assert against(rule, tarred("n/a, hot work", "8.6 °C")) == []
