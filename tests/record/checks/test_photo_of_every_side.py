"""Every side of a finished seam."""

from record.checks import photo_of_every_side as rule
from tests.record.building import day
from tests.record.checks.ground import COVERED, SEAM, against, changed, the_one

WEST = "![close, looking east, SM wrapped, west side, rule in view](sm-west.jpg)\n\n"


def test_a_seam_with_a_photo_of_each_side_is_not_held():
    assert against(rule, SEAM) == []


def test_a_side_nobody_photographed_is_named():
    """The other photo looks west, and shows the east side."""
    found = the_one(rule, changed(SEAM, (WEST, "")))
    assert (found.about, found.says, found.stops) == ("SM", "no photo of its west side", True)


def test_a_comma_left_out_does_not_make_the_way_it_looks_a_side_it_shows():
    unlined = changed(SEAM, (WEST, ""), ("wide, looking west", "wide looking west"))
    found = the_one(rule, unlined)
    assert found.says == "no photo of its west side"


def test_a_window_dug_the_next_day_does_not_make_the_side_seen_before():
    covered = changed(COVERED, ("16:30", "16:10"))
    window = day(
        "2031-05-15",
        "ld",
        "## uncovered FILL\n\n- at: 08:20\n- tags: SM\n- extent: window\n\n"
        + WEST.replace("rule in view", "rule in view, shows SM"),
    )
    found = the_one(rule, changed(SEAM, (WEST, "")) + covered, window)
    assert "no photo of its west side from before it was covered" in found.says
    assert "after cover" in found.says


def test_a_seam_that_does_not_say_its_sides_cannot_be_told():
    for absent in ("not recorded", "none"):
        found = the_one(rule, changed(SEAM, ("sides: east, west", f"sides: {absent}")))
        assert (found.sure, found.stops) == ("cannot be told", True)
    assert against(rule, changed(SEAM, ("sides: east, west", "sides: n/a, one weld"))) == []


def test_the_wrap_itself_may_go_on_with_one_wide_and_one_close_photo():
    assert against(rule, changed(SEAM, (WEST, ""), ("what: backfill", "what: wrap"))) == []
    unknown = changed(SEAM, (WEST, ""), ("what: backfill", "what: not recorded"))
    assert the_one(rule, unknown).stops
