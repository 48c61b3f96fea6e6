"""Holes through the steel and their seals."""

import pytest

from record.checks import sealed_inside_and_out as rule
from tests.record.checks.ground import TRENCH, against, changed, the_one

HOLE = """
## penetration PN-1

- hull: A
- face: near
- from left: 1.00 m
- above floor: 1.60 m
- size: 200 mm
- passes: fresh air pipe
- carries: AIR-IN
- spare: no
- sleeve: steel
- sealed inside: sealing ring
- sealed outside: sealing ring and mastic
"""
BOTH = TRENCH + HOLE


def test_a_hole_sealed_on_both_sides_is_not_told():
    assert against(rule, BOTH) == []


def test_an_open_outside_stops_the_fill_and_an_open_inside_is_to_be_looked_at():
    outside = changed(BOTH, ("sealed outside: sealing ring and mastic", "sealed outside: none"))
    found = the_one(rule, outside)
    assert (found.about, found.stops, found.sure) == ("PN-1", True, "certain")
    assert found.says == "fresh air pipe through A, near: its seal outside is none"
    inside = changed(BOTH, ("sealed inside: sealing ring", "sealed inside: none"))
    assert the_one(rule, inside).stops is False


def test_before_a_lining_it_is_the_inside_that_stops():
    lined = changed(BOTH, ("what: backfill", "what: lining"))
    inside = changed(lined, ("sealed inside: sealing ring", "sealed inside: none"))
    assert the_one(rule, inside).stops is True


@pytest.mark.parametrize("what", ["backfill", "not recorded"])
def test_a_seal_nobody_wrote_stops_as_one_that_is_not_there(what):
    unsaid = changed(
        BOTH,
        ("sealed outside: sealing ring and mastic", "sealed outside: not recorded"),
        ("what: backfill", f"what: {what}"),
    )
    found = the_one(rule, unsaid)
    assert (found.stops, found.sure) == (True, "cannot be told")


def test_a_side_that_needs_no_seal_says_why_and_is_let_be():
    told = changed(BOTH, ("sealed inside: sealing ring", "sealed inside: n/a, cast in one piece"))
    assert against(rule, told) == []


def test_a_hole_for_something_else_is_not_of_this_covering():
    other = changed(BOTH, ("carries: AIR-IN", "carries: none"), ("sealing ring and mastic", "none"))
    assert against(rule, other) == []
    named = changed(other, ("- hides: AIR-IN", "- hides: AIR-IN, PN-1"))
    assert the_one(rule, named).about == "PN-1"


def test_a_hole_of_which_nobody_wrote_what_passes_may_be_this_pipe_s():
    unsaid = changed(BOTH, ("carries: AIR-IN", "carries: not recorded"), ("ring and mastic", "x"))
    assert against(rule, unsaid) == []
    opened = changed(BOTH, ("- carries: AIR-IN\n", ""), ("sealing ring and mastic", "none"))
    assert the_one(rule, opened).stops is True
    assert against(rule, changed(opened, ("spare: no", "spare: yes"))) == []
