"""What is looked through before exact shapes leaves nothing out: held against every shape in turn.

The oracle is :func:`record.place.outline` of every shape, with no index. Boxes are held against
every box in turn. No time is asked here.
"""

import math
import random

from hypothesis import given, settings
from hypothesis import strategies as st

from record.answers import behind
from record.facts import KINDS
from record.fold import Thing
from record.place import FaceFrame, HullFrame, Nearby, Shape, openings, outline
from record.place.boxes import Boxes, meet
from record.place.frames import on_curve
from record.place.nearby import panel_box, shape_box
from record.place.solids import ANY_M, Arc, Block, Capsule
from record.place.strays import Stray
from tests.record.answers.shelter import SITE, hull, panel, sheet
from tests.record.building import view_of

THING = Thing(fields={}, tag="R-1", kind=KINDS["run"])
FACES = ("left", "right", "near", "far", "floor", "ceiling")
CURVED = ("left", "right", "floor", "ceiling")


def hull_at(chance: random.Random, tag: str) -> HullFrame:
    across = chance.uniform(2.0, 3.5)
    return HullFrame(
        tag=tag,
        length_m=chance.uniform(3, 12),
        width_m=across,
        height_m=across,
        plate_m=0.006,
        origin=tuple(chance.uniform(-8, 8) for _ in range(3)),
        bearing_deg=chance.choice((0.0, 90.0, chance.uniform(0, 360))),
        walking_floor_m=0.0,
        horizontal_m=chance.choice((0.0, chance.uniform(0, 0.4))),
        vertical_m=chance.choice((0.0, chance.uniform(0, 0.4))),
        bearing_tol_deg=chance.choice((0.0, 2.0)),
        assumed=False,
        round=True,
        floor_known=True,
    )


def point(chance: random.Random) -> tuple[float, float, float]:
    return (chance.uniform(-10, 10), chance.uniform(-10, 10), chance.uniform(-6, 6))


def shape_at(chance: random.Random) -> Shape:
    one, other = point(chance), point(chance)
    if chance.random() < 0.5:
        other = tuple(a + chance.uniform(-0.6, 0.6) for a in one)
    low, high = (tuple(f(*pair) for pair in zip(one, other, strict=True)) for f in (min, max))
    stray = None
    match chance.choice(("bar", "bar", "risen", "box", "arc")):
        case "bar":
            form = Capsule(one, other, chance.uniform(0.01, 0.4))
            apart = math.dist(one, other)
            stray = chance.choice((None, Stray(apart * 1.02 + 0.05, apart, True)))
        case "risen":
            rises = chance.choice((1.5, 2 * ANY_M))
            form = Capsule(one, other, chance.uniform(0.01, 0.4), rises)
        case "box":
            form = Block(low, high)
        case "arc":
            radius = chance.uniform(0.8, 1.7)
            turns = sorted(chance.uniform(-1.5, 3.0) for _ in range(2))
            box = ((0.0, 0.0, 0.0), (6.0, 2 * radius, 2 * radius))
            form = Arc(*box, chance.choice(CURVED), tuple(turns), (radius, radius + 0.1))
    return Shape(
        thing=THING,
        words="run",
        form=form,
        hull=chance.choice(("", "A", "B")),
        horizontal_m=chance.choice((0.0, chance.uniform(0, 0.5))),
        vertical_m=chance.choice((0.0, chance.uniform(0, 0.5))),
        basis="measured",
        assumed=False,
        entries=(),
        strays=stray,
    )


def panel_at(chance: random.Random, of: HullFrame) -> FaceFrame:
    face = chance.choice(FACES)
    size = {"width_m": chance.uniform(0.2, 2.5), "height_m": chance.uniform(0.2, 2.5)}
    flat = FaceFrame(
        hull=of,
        face=face,
        origin=tuple(chance.uniform(0, 3) for _ in range(3)),
        lining_m=chance.choice((None, 0.0, 0.12)),
        faced=chance.random() < 0.2,
        **size,
    )
    if face not in CURVED or chance.random() < 0.4:
        return flat
    arc = chance.uniform(-0.5, 2.0)
    curved = FaceFrame(
        hull=of,
        face=face,
        origin=on_curve(of, face, chance.uniform(0, 3), arc),
        arc=arc,
        lining_m=chance.choice((None, 0.1)),
        **size,
    )
    if chance.random() < 0.5:
        return curved
    return FaceFrame(
        hull=of,
        face=face,
        origin=flat.origin,
        lining_m=None,
        adrift=True,
        or_else=curved,
        **size,
    )


@given(st.integers(0, 2**32).map(random.Random))
@settings(max_examples=300, deadline=None)
def test_no_shape_that_may_lie_behind_a_panel_is_left_out(chance: random.Random):
    hulls = {tag: hull_at(chance, tag) for tag in ("A", "B")}
    frame, reach = panel_at(chance, hulls["A"]), chance.uniform(0.05, 4.0)
    space = panel_box(frame, reach)
    for _ in range(40):
        shape = shape_at(chance)
        if outline(shape, frame, reach, hulls) is not None:
            assert meet(shape_box(shape, hulls), space)


def box_at(chance: random.Random) -> tuple[float, ...]:
    low = [chance.uniform(-30, 30) for _ in range(3)]
    size = chance.choice((0.0, 0.5, 5.0, 60.0, 2e7))
    return (*low, *(at + chance.uniform(0, size) for at in low))


@given(st.integers(0, 2**32).map(random.Random))
@settings(max_examples=100, deadline=None)
def test_boxes_found_by_the_ground_are_those_that_meet_held_against_each_in_turn(
    chance: random.Random,
):
    every = [box_at(chance) for _ in range(chance.randint(0, 60))]
    boxes = Boxes(every)
    for _ in range(5):
        space = box_at(chance)
        assert boxes.meeting(space) == [n for n, box in enumerate(every) if meet(box, space)]


def test_boxes_that_touch_meet():
    assert meet((0, 0, 0, 1, 1, 1), (1, 1, 1, 2, 2, 2))
    for axis in range(3):
        apart = [1.0, 1.0, 1.0]
        apart[axis] = 1.001
        assert not meet((0, 0, 0, 1, 1, 1), (*apart, 2, 2, 2))
        assert not meet((*apart, 2, 2, 2), (0, 0, 0, 1, 1, 1))


def test_a_box_stands_round_a_level_bar_and_all_that_is_not_sure_of_it():
    """
    From (2, 3, 4) to (6, 3, 4), radius 0.1, 0.2 across and 0.3 up: 0.1 + 0.2 + 0.3 = 0.6 each way
    up, √2 · 0.6 = 0.8485 across, as the panel it is asked from may be turned.
    """
    shape = Shape(
        thing=THING,
        words="run",
        form=Capsule((2, 3, 4), (6, 3, 4), 0.1),
        hull="",
        horizontal_m=0.2,
        vertical_m=0.3,
        basis="measured",
        assumed=False,
        entries=(),
    )
    found = [round(edge, 4) for edge in shape_box(shape, {})]
    assert found == [1.1515, 2.1515, 3.4, 6.8485, 3.8485, 4.6]


def many_runs(chance: random.Random, count: int) -> str:
    """Runs here and there about the hull, of two stations each."""
    blocks = []
    for n in range(count):
        x, y, level = chance.uniform(98, 108), chance.uniform(198, 204), chance.uniform(50, 52)
        over = [(x, y, level), (x + chance.uniform(-4, 4), y + chance.uniform(-4, 4), level)]
        rows = "".join(
            f"| {k} bend | {a:.2f} | {b:.2f} | {c:.2f} | staff |\n"
            for k, (a, b, c) in enumerate(over, 1)
        )
        blocks.append(
            f"## run R-{n}\n\n- carries: drinking water\n- outside diameter: 60 mm\n"
            f"- inside diameter: 52 mm\n\n| station | x [m] | y [m] | invert [m] | how |\n"
            f"|---|---|---|---|---|\n{rows}"
        )
    return "\n".join(blocks)


def test_a_panel_among_many_runs_is_told_as_with_every_shape_asked_in_turn(monkeypatch):
    view = view_of(sheet(SITE, hull(), panel("left"), many_runs(random.Random(7), 150)))
    found = behind(view, "P-1", reach_m=2.5)
    assert 3 <= len(found.items) < 150

    def every(self: Nearby, frame: FaceFrame, reach_m: float):
        return iter((*view.shapes, *openings(view.built, view.hulls)))

    monkeypatch.setattr(Nearby, "behind", every)
    assert behind(view, "P-1", reach_m=2.5) == found
