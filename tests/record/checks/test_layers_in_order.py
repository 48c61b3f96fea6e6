"""One layer after the other."""

from record.checks import layers_in_order as rule
from tests.record.checks.ground import SEAM, against, changed, the_one


def test_layers_in_their_order_are_not_held():
    assert against(rule, SEAM) == []


def test_tar_before_primer_is_certainly_wrong():
    found = the_one(rule, changed(SEAM, ("| 10:00 | 10:30 |", "| 07:40 | 07:55 |")))
    assert (found.sure, found.stops) == ("certain", True)
    assert found.says == (
        "tar coat 1 of 2031-05-14 07:40 was begun before primer coat 1 of 2031-05-14 08:00 was "
        "finished"
    )


def test_a_coat_begun_while_the_one_below_is_still_going_on_is_wrong():
    """The primer ended at 08:30."""
    assert (
        the_one(rule, changed(SEAM, ("| 10:00 | 10:30 |", "| 08:20 | 09:00 |"))).sure == "certain"
    )


def test_a_coat_whose_end_nobody_wrote_cannot_be_told():
    found = the_one(rule, changed(SEAM, ("| 08:00 | 08:30 |", "| 08:00 | not recorded |")))
    assert (found.sure, found.stops) == ("cannot be told", True)


def test_a_coat_of_a_layer_that_is_not_in_the_build_up_is_asked_about():
    found = the_one(rule, changed(SEAM, ("| wrap | 1 | 15:00", "| tape | 1 | 15:00")))
    assert "tape coat 1" in found.says
    assert found.stops
