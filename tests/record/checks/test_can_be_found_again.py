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


MARKER = """
## marker MK-1

- type: {}
- follows: AIR-IN
"""


@pytest.mark.parametrize(
    ("of", "named"), [("tracer wire", 0), ("marker tape", 0), ("marker post", 1)]
)
def test_a_wire_or_tape_recorded_along_the_whole_pipe_is_one(of, named):
    bare = changed(
        TRENCH,
        ("tracer wire: yes", "tracer wire: not recorded"),
        ("marker tape: yes", "marker tape: no"),
    )
    assert len(against(rule, bare + MARKER.format(of))) == named


def test_a_tape_over_part_of_the_pipe_leaves_the_rest_to_be_asked():
    part = MARKER.format("marker tape\n- from station: 2\n- to station: 3")
    bare = changed(TRENCH, ("tracer wire: yes", "tracer wire: not recorded"))
    assert len(against(rule, bare + part)) == 1
