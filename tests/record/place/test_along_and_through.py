"""What follows a run and what goes through a face: where it lies, worked by hand.

Hull A: inside 6.00 × 3.00 × 2.50 m, plate 10 mm, looking east from x 100, y 200, level 50.
The run C-1 is 32 mm across, at level 51.00 (centre), y 199.90, from x 101.00 to 104.00.
"""

import pytest

from record.facts import KINDS, Sort
from record.place import hull_frames, shapes, unplaced
from record.place.shapes import WITH_A_PLACE
from record.place.solids import Block, Capsule
from tests.record.answers.shelter import SITE, block, hull, run, sheet
from tests.record.building import view_of

ENDS = [
    ("1", "101.00", "199.90", "51.00", "20 mm"),
    ("2", "104.00", "199.90", "51.00", "20 mm"),
    ("3", "104.00", "201.00", "51.00", "20 mm"),
]
#: Asked about, part of a run, or leave to work somewhere.
PLACED_OTHERWISE = {"room", "panel", "reserved zone", "station", "work pass"}


def conduit(stations=ENDS):
    return run("C-1", stations, carries="power", outside_diameter="32 mm")


def state(*blocks):
    return view_of(sheet(SITE, hull(), *blocks)).built


def shapes_of(tag, *blocks):
    built = state(*blocks)
    return [s for s in shapes(built, hull_frames(built)) if s.thing.tag == tag]


def loose(*blocks):
    built = state(*blocks)
    return {each.thing.tag for each in unplaced(built, hull_frames(built))}


def hole(**said):
    fields = {
        "hull": "A",
        "face": "left",
        "from_near": "2.60 m",
        "from_left": "1.00 m",
        "level": "51.00 m",
        "size": "100 mm",
        "passes": "not recorded",
        **said,
    }
    return block("penetration PN-1", **fields)


def layer(tag, order, thickness):
    return block(
        f"insulation {tag}",
        on_run="C-1",
        from_station="1",
        to_station="3",
        order=str(order),
        material="foam",
        thickness=thickness,
    )


def marker(**said):
    return block("marker MK-1", type="tracer wire", follows="C-1", **said)


def test_every_kind_that_says_where_it_is_has_a_place_or_is_told_to_have_none():
    names = ("hull", "on_run", "follows", "in_run", "in")
    where = {
        kind.word
        for kind in KINDS.values()
        if kind.sort is Sort.THING and any(kind.field(name) for name in names)
    }
    assert where - PLACED_OTHERWISE <= set(WITH_A_PLACE)


@pytest.mark.parametrize(
    ("face", "low", "high"),
    [
        ("left", (2.55, -0.01, 0.95), (2.65, 0.0, 1.05)),
        ("right", (2.55, 3.0, 0.95), (2.65, 3.01, 1.05)),
        ("near", (-0.01, 0.95, 0.95), (0.0, 1.05, 1.05)),
        ("far", (6.0, 0.95, 0.95), (6.01, 1.05, 1.05)),
        ("floor", (2.55, 0.95, -0.01), (2.65, 1.05, 0.0)),
        ("ceiling", (2.55, 0.95, 2.5), (2.65, 1.05, 2.51)),
    ],
)
def test_a_hole_goes_through_the_plate_of_its_face_round_its_middle(face, low, high):
    """100 mm wide: 50 mm each way of 2.60 m along, 1.00 m across, level 51.00, 1.00 m up."""
    (shape,) = shapes_of("PN-1", hole(face=face))
    assert isinstance(shape.form, Block) and shape.missing == ()
    assert (shape.form.low, shape.form.high) == (pytest.approx(low), pytest.approx(high))


def test_a_sleeve_longer_than_the_plate_may_stand_out_on_either_side():
    """300 mm of sleeve through 10 mm of plate: 290 mm more on either side."""
    (shape,) = shapes_of("PN-1", hole(sleeve_size="120 mm", sleeve_length="300 mm"))
    assert (shape.form.low[1], shape.form.high[1]) == pytest.approx((-0.30, 0.29))
    assert (shape.form.low[0], shape.form.high[0]) == pytest.approx((2.54, 2.66))


def test_a_hole_half_known_spans_its_whole_face():
    (shape,) = shapes_of("PN-1", hole(from_near="not recorded", level=None, above_floor="0.40 m"))
    assert (shape.form.low[0], shape.form.high[0]) == (0.0, 6.0)
    assert shape.missing == ("from near",)
    assert (shape.form.low[2], shape.form.high[2]) == pytest.approx((0.35, 0.45))


def test_a_hole_of_no_known_face_has_no_place():
    assert "PN-1" in loose(hole(face="not recorded"))
    assert "PN-1" not in loose(hole())


def test_layers_of_insulation_lie_over_each_other_from_the_pipe_outward():
    """16 mm of pipe and 13 mm are 29 mm; 19 mm more are 48 mm."""
    blocks = (conduit(), layer("IN-2", 2, "19 mm"), layer("IN-1", 1, "13 mm"))
    radii = {
        t: {round(s.form.radius_m, 4) for s in shapes_of(t, *blocks)} for t in ("IN-1", "IN-2")
    }
    assert radii == {"IN-1": {0.029}, "IN-2": {0.048}}


def test_a_layer_of_no_known_thickness_is_taken_for_thick_and_says_so():
    (first, _) = shapes_of("IN-1", conduit(), layer("IN-1", 1, "not recorded"))
    assert first.form.radius_m == pytest.approx(0.016 + 0.05) and first.assumed


def test_a_wire_lies_over_its_pipe_by_what_was_measured():
    """Centre 51.000, 16 mm to the crown, 300 mm above: 51.316."""
    (wire,) = shapes_of(
        "MK-1", conduit(), marker(from_station="1", to_station="2", above_pipe="0.30 m")
    )
    assert wire.form.start == pytest.approx((101.0, 199.9, 51.316))
    assert wire.form.end == pytest.approx((104.0, 199.9, 51.316)) and wire.missing == ()


def test_a_wire_of_no_known_height_may_lie_anywhere_over_its_pipe():
    first, second = shapes_of("MK-1", conduit(), marker())
    assert first.missing == second.missing == ("level",)
    assert isinstance(first.form, Capsule) and first.form.rises_m > 10_000
    assert first.form.start == pytest.approx((101.0, 199.9, 51.0))


def test_a_post_has_a_place_of_its_own():
    (post,) = shapes_of("MK-1", conduit(), marker(x="110.00 m", y="190.00 m"))
    assert post.form.start[:2] == pytest.approx((110.0, 190.0))


def test_a_cable_lies_with_its_conduit_and_is_told_as_a_cable():
    cable = block(
        "cable CB-1",
        in_run="C-1",
        **{"from": "board", "to": "fan"},
        voltage="230 V",
        breaker="7",
        breaker_at="board",
    )
    first, _ = shapes_of("CB-1", conduit(), cable)
    assert first.words == "cable, with C-1, 1 to 2"
    assert first.form.radius_m == pytest.approx(0.016)
    nowhere = conduit([("1", "not recorded", "199.90", "51.00", "20 mm")])
    assert {"CB-1", "C-1"} <= loose(nowhere, cable)


def test_a_bend_at_a_station_is_found_there_and_said_to_have_no_place_of_its_own():
    bend = block("fitting FT-1", type="bend", on_run="C-1", at_station="2", size="40 mm")
    (shape,) = shapes_of("FT-1", conduit(), bend)
    assert shape.form.start == pytest.approx((104.0, 199.9, 51.0))
    assert shape.form.radius_m == pytest.approx(0.02)
    assert "FT-1" in loose(conduit(), bend)


OPENING = block(
    "opening OP-1",
    hull="A",
    face="near",
    from_left="1.00 m",
    bottom="50.20 m",
    width="0.90 m",
    height="1.90 m",
)


def test_a_door_fills_the_opening_it_shuts_and_one_that_shuts_nothing_has_no_place():
    """From left 1.00 to 1.90 m, level 50.20 to 52.10: h 0.20 to 2.10."""
    (leaf,) = shapes_of("DR-1", OPENING, block("door DR-1", **{"type": "door", "in": "OP-1"}))
    assert leaf.form.low == pytest.approx((-0.01, 1.0, 0.2))
    assert leaf.form.high == pytest.approx((0.0, 1.9, 2.1))
    assert "DR-1" in loose(block("door DR-1", type="door"))


def test_a_hatch_in_a_shaft_stands_somewhere_in_the_shaft():
    shaft = block(
        "way out SH-1",
        hull="A",
        x="106.50 m",
        y="198.00 m",
        section_along="0.80 m",
        section_across="0.60 m",
        fill_from="50.75 m",
        fill_to="53.45 m",
        opens="inward",
    )
    hatch = block("door HT-1", **{"type": "hatch", "in": "SH-1"})
    (one,), (other,) = shapes_of("HT-1", shaft, hatch), shapes_of("SH-1", shaft, hatch)
    assert one.form == other.form and one.words == "door, hatch, in SH-1"


def test_a_concealed_entry_lies_in_its_face():
    entry = block(
        "concealed entry CE-1",
        hull="A",
        face="right",
        from_near="4.50 m",
        bottom="50.20 m",
        width="0.70 m",
        height="1.20 m",
        opens="pull",
    )
    (shape,) = shapes_of("CE-1", entry)
    assert shape.form.low == pytest.approx((4.5, 3.0, 0.2))
    assert shape.form.high == pytest.approx((5.2, 3.01, 1.4))
