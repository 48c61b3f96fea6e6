"""What was planned and came for what goes under."""

from record.checks import deliveries_balance as rule
from tests.record.building import day
from tests.record.checks.ground import TRENCH, against, changed, the_one

PLAN = "\n## expected EX-1\n\n- what: check valve 150\n- amount: 1\n- for: CV-1\n"
BALLS = "\n## expected EX-2\n\n- what: ball valve 40\n- amount: 3\n- before: FILL\n"
CAME = "\n## delivered fern-bank\n\n- what: valves\n- amount: {}\n- item: {}\n"
BACK = "\n## returned fern-bank\n\n- what: valve\n- amount: {}\n- item: {}\n"


def ball(number):
    return (
        f"\n## valve DV-{number}\n\n- type: ball\n- on run: AIR-IN\n- item: EX-2\n"
        "- normal position: shut\n- reached by: left wall\n"
    )


def test_without_a_plan_nothing_is_named():
    assert against(rule, TRENCH) == []


def test_planned_for_what_goes_under_and_never_delivered():
    found = the_one(rule, TRENCH + PLAN)
    assert (found.about, found.stops) == ("EX-1", False)
    assert found.says == "check valve 150: built in, and nothing of it came"
    assert against(rule, TRENCH + PLAN + CAME.format(1, "EX-1")) == []
    before = the_one(rule, TRENCH + BALLS)
    assert before.says == "ball valve 40: planned, and nothing of it came"
    assert "## delivered fern-bank" in before.clears


def test_three_came_and_two_are_fitted_until_one_goes_back():
    two = TRENCH + BALLS + CAME.format(3, "EX-2") + ball(1) + ball(2)
    found = the_one(rule, two)
    assert found.sure == "certain"
    assert found.says == "ball valve 40: 1 came and is neither built in, sent back nor kept"
    assert against(rule, two + BACK.format(1, "EX-2")) == []
    assert against(rule, two + ball(3)) == []
    assert "1 more is accounted for" in the_one(rule, two + ball(3) + BACK.format(1, "EX-2")).says


def test_a_valve_left_out_is_named_by_its_tag():
    plan = TRENCH + changed(PLAN, ("for: CV-1", "for: CV-1, CV-2")) + CAME.format(1, "EX-1")
    assert the_one(rule, plan).says == "check valve 150: planned for CV-2, not recorded"


def test_fewer_came_than_were_planned():
    short = TRENCH + BALLS + CAME.format(2, "EX-2") + ball(1) + ball(2)
    assert the_one(rule, short).says == "ball valve 40: 1 less came than was planned"


def test_what_nobody_wrote_cannot_be_told():
    found = the_one(rule, TRENCH + BALLS + CAME.format("not recorded", "EX-2") + ball(1))
    assert found.sure == "cannot be told" and "cannot be told" in found.says


def test_what_is_planned_for_later_work_is_not_this_coverings_business():
    later = "\n## covering TURF\n\n- what: turf\n- hides: CV-1\n"
    assert against(rule, TRENCH + later + changed(BALLS, ("before: FILL", "before: TURF"))) == []
    assert against(rule, TRENCH + changed(PLAN, ("for: CV-1", "for: AU-1"))) == []


def test_more_of_a_lot_goes_under_than_came():
    lot = "\n## delivered fern-bank\n\n- what: ball valves\n- amount: {}\n- lot: V-9\n"
    balls = "".join(ball(n).replace("item: EX-2", "lot: V-9") for n in (1, 2))
    found = the_one(rule, TRENCH + balls + lot.format(1))
    assert found.about == "DV-1" and "1 more is accounted for than came" in found.says
    assert against(rule, TRENCH + balls + lot.format(2)) == []
    assert against(rule, TRENCH + balls + lot.format(5)) == []  # may wait for later work


def test_who_sees_no_delivery_is_not_told_that_none_came():
    assert against(rule, TRENCH + PLAN, reader="responder") == []


def test_a_delivery_withheld_makes_it_unsure():
    secret = day("2031-05-15", "ld", CAME.format(1, "EX-1") + "- readers: owner\n")
    assert against(rule, TRENCH + PLAN, secret) == []
    assert the_one(rule, TRENCH + PLAN, secret, reader="trade").sure == "cannot be told"
