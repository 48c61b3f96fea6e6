"""Things in hull A: 9.00 by 2.70 by 2.50 m inside, floor at 96.50 m, plate 6 mm, stubs 0.15 m."""

import pytest

from record.checks import lies_in_its_hull as rule
from tests.record.building import view_of
from tests.record.checks.ground import against, changed, sheets, the_one

FAN = """
## equipment FN-1

- type: fan
- hull: A
- from near: 8.40 m
- from left: 0.30 m
- bottom: 97.00 m
- along: 0.40 m
- across: 0.40 m
- height: 0.40 m

## covering FILL

- what: lining
- hides: FN-1
"""


def test_a_thing_within_its_hull_is_right():
    assert against(rule, FAN) == []


def test_a_stub_through_the_wall_is_let_be():
    """8.75 + 0.40 = 9.15 m is 0.15 m past the far end, within the plate and a stub."""
    assert against(rule, changed(FAN, ("near: 8.40 m", "near: 8.75 m"))) == []


@pytest.mark.parametrize(
    ("old", "new", "where"),
    [
        ("near: 8.40 m", "near: 84.0 m", "past its far end"),
        ("left: 0.30 m", "left: 3.00 m", "past its right wall"),
        ("bottom: 97.00 m", "bottom: 99.70 m", "above its ceiling"),
        ("bottom: 97.00 m", "bottom: 9.70 m", "below its floor"),
    ],
)
def test_a_slipped_digit_stops_the_lining(old, new, where):
    found = the_one(rule, changed(FAN, (old, new)))
    assert (found.about, found.stops, found.sure) == ("FN-1", True, "certain")
    assert where in found.says


def test_one_within_its_own_doubt_of_the_wall_is_looked_at():
    """8.80 + 0.40 - 9.00 - 0.156 = 44 mm past, with 50 mm in doubt."""
    near = changed(FAN, ("near: 8.40 m", "near: 8.80 m ± 50 mm"))
    found = the_one(rule, near)
    assert (found.stops, found.sure) == (False, "cannot be told")


def test_a_sump_and_its_pump_are_let_into_the_floor():
    sump = changed(FAN, ("type: fan", "type: sump"), ("bottom: 97.00 m", "bottom: 96.00 m"))
    assert against(rule, sump) == []
    pump = "\n## equipment PU-1\n\n- type: pump\n- part of: FN-1\n- hull: A\n- bottom: 96.00 m\n"
    assert against(rule, changed(sump, ("- hides: FN-1", "- hides: PU-1")) + pump) == []


def test_at_hand_over_everything_is_asked():
    wrong = changed(FAN, ("near: 8.40 m", "near: 84.0 m"), ("- hides: FN-1", "- hides: none"))
    [found] = rule.AT_HANDOVER.find(view_of(*sheets(wrong)))
    assert found.about == "FN-1"
