"""Films against what was asked."""

from record.checks import coats_thick_enough as rule
from tests.record.checks.ground import SEAM, against, changed, the_one


def test_enough_tar_and_foam_is_not_held():
    """2.6 mm of 2.5; 35 + 35 = 70 mm of 70."""
    assert against(rule, SEAM) == []


def test_thin_tar_is_certainly_thin():
    found = the_one(rule, changed(SEAM, ("| 2.6 mm |", "| 2.4 mm |")))
    assert (found.sure, found.stops) == ("certain", True)
    assert found.says == "tar is 2.4 mm thick (2.4 mm), 2.5 mm asked"


def test_lifts_add_up_and_of_two_areas_the_thinner_counts():
    """A second area of lift 2 has 30: 35 + 30 = 65 mm."""
    row = "| foam | 2 | 13:40 | 13:50 | F-1 | M-1 | 14.0 °C | 8.6 °C | 35 mm |\n"
    found = the_one(rule, changed(SEAM, (row, row + row.replace("35 mm", "30 mm"))))
    assert found.says.startswith("foam is 65 mm thick")


def test_a_film_nobody_read_holds_where_a_thickness_is_asked():
    for absent in ("not recorded", "none"):
        found = the_one(rule, changed(SEAM, ("| 2.6 mm |", f"| {absent} |")))
        assert (found.sure, found.stops) == ("cannot be told", True)


def test_a_thickness_nobody_gave_holds():
    found = the_one(rule, changed(SEAM, ("hot tar | 1 | 2.5 mm |", "hot tar | 1 | not recorded |")))
    assert (found.sure, found.stops) == ("cannot be told", True)
