"""Places that hang on themselves are told, and no answer hangs or falls over them.

Each circle below could be written by a crew, or come together when two tablets are merged.
"""

import pytest

from record.answers import CannotAnswer, behind
from record.answers.find import find
from record.answers.find_words import find_words
from record.place import unplaced
from record.place.circles import circles
from tests.record.answers.shelter import SITE, block, fit_out, hull, panel, run, sheet
from tests.record.building import view_of


def tie(tag, landmark, length="3.00 m ± 10 mm", **more):
    return block(f"position tied {tag}", landmark=landmark, distance=length, **more)


def post(tag, **place):
    return block(f"landmark {tag}", what="post", **place)


def lone(tag, hull):
    """Return a run whose one station is measured in a hull, or in what is no hull at all."""
    table = [
        "| station | hull | from near [m] | from left [m] | centre [m] | how |",
        "|---|---|---|---|---|---|",
        f"| 1 | {hull} | 1.00 | 1.00 | 49 | tape |",
    ]
    return "\n".join((block(f"run {tag}", carries="supply air"), "", *table))


VALVE = {"type": "gate", "on_run": "W-1", "size": "160 mm", "along_run": "1.00 m"}
RING = ("LM-2", "LM-1", "LM-3")
NO_PLACE = [("1", "not recorded", "not recorded", "49", "10 mm")]
CIRCLES = {
    "a hull that stands in a panel of itself": (
        (panel(hull="P-2"), panel(tag="P-2", hull="P-1")),
        [("P-1", "P-2")],
    ),
    "a thing measured in itself": ((fit_out(hull="FO-1"),), [("FO-1",)]),
    "a post tied from itself": ((post("LM-1"), tie("LM-1", "LM-1")), [("LM-1",)]),
    "two posts, each tied from the other": (
        (post("LM-1"), post("LM-2"), tie("LM-1", "LM-2"), tie("LM-2", "LM-1")),
        [("LM-1", "LM-2")],
    ),
    "three posts in a ring": (
        (*map(post, RING), tie("LM-1", "LM-3"), tie("LM-3", "LM-2"), tie("LM-2", "LM-1")),
        [("LM-1", "LM-3", "LM-2")],
    ),
    "a bend tied from a valve that lies along its run": (
        (run(stations=NO_PLACE), block("valve V-1", **VALVE), tie("W-1", "V-1", point="1")),
        [("V-1", "W-1")],
    ),
    "a run measured in itself": ((lone("W-2", "W-2"),), [("W-2",)]),
    "a valve on itself": ((block("valve V-1", **VALVE | {"on_run": "V-1"}),), [("V-1",)]),
    "a door in itself": ((block("door D-1", **{"in": "D-1"}),), [("D-1",)]),
}


@pytest.mark.parametrize(("blocks", "told"), CIRCLES.values(), ids=CIRCLES.keys())
def test_a_circle_is_told_and_nothing_in_it_is_placed(blocks, told):
    view = view_of(sheet(SITE, hull(), panel(tag="P-9"), *blocks))
    assert list(circles(view.built)) == told
    ringed = {tag for circle in told for tag in circle}
    assert not [shape for shape in view.shapes if shape.thing.tag in ringed]
    assert not {item.tag for item in behind(view, "P-9").items} & ringed
    loose = {each.thing.tag: each.words for each in unplaced(view.built, view.hulls)}
    for tag in ringed & loose.keys():
        assert "its place hangs on itself: " in loose[tag]
    for tag in sorted(ringed):
        try:
            assert find_words(find(view, tag))
        except CannotAnswer as fault:
            assert str(fault)
