"""Wire and tape."""

import pytest

from record.checks import can_be_found_again as rule
from tests.record.checks.ground import TRENCH, against, changed, the_one


def test_a_plastic_pipe_with_wire_and_tape_is_not_named():
    assert against(rule, TRENCH) == []
    assert against(rule, changed(TRENCH, ("tracer wire: yes", "tracer wire: no"))) == []


@pytest.mark.parametrize("what", ["tracer wire", "marker tape"])
def test_what_nobody_wrote_is_to_be_looked_at_and_does_not_stop(what):
    found = the_one(rule, changed(TRENCH, (f"{what}: yes", f"{what}: not recorded")))
    assert (found.says, found.stops) == (f"{what} not recorded", False)


def test_neither_wire_nor_tape_is_named():
    bare = changed(
        TRENCH, ("tracer wire: yes", "tracer wire: no"), ("marker tape: yes", "marker tape: none")
    )
    assert the_one(rule, bare).says == "it has neither tracer wire nor marker tape"


@pytest.mark.parametrize(
    ("material", "named"), [("galvanised steel", 0), ("not recorded", 1), ("HDPE", 1)]
)
def test_a_metal_pipe_is_heard_without_and_an_unknown_one_is_not(material, named):
    bare = changed(
        TRENCH,
        ("tracer wire: yes", "tracer wire: not recorded"),
        ("material: plastic pipe", f"material: {material}"),
    )
    assert len(against(rule, bare)) == named
