"""A site moved and turned as a whole answers alike, and a place not recorded opens nothing."""

import math
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from record.answers import behind
from record.answers.find import find
from record.place import stations
from tests.record.answers.shelter import SITE, block, fit_out, hull, panel, run, sheet
from tests.record.answers.test_behind_properties import contains, spans, turned
from tests.record.building import view_of

few = settings(max_examples=8, deadline=None)
ROUND = {
    "shape": "round",
    "inside_diameter": "2.50 m ± 3 mm",
    "inside_width": "n/a, round",
    "inside_height": "n/a, round",
    "floor_above_bottom": "0.50 m",
}
#: A pipe past the left wall of hull A, a bend to the north, and what lies along it and is tied.
WAY = [(99.0, 200.2, 51.3), (104.0, 200.3, 51.2), (104.5, 206.0, 51.0)]
MARKS = {"LM-1": (95.0, 205.0), "LM-2": (110.0, 208.0), "LM-3": (100.0, 215.0)}
TIED = (103.0, 210.0)


def site(rounded, angle_deg=0, shift=(0.0, 0.0), **left_out):
    """Return the day sheet of the site, turned counterclockwise about the peg and shifted."""
    angle = math.radians(angle_deg)

    def at(x, y):
        x, y, _ = turned((x, y, 0.0), angle, shift)
        return f"{x:.9f}", f"{y:.9f}"

    def on_grid(x, y, tolerance="10 mm"):
        return {n: f"{v} m ± {tolerance}" for n, v in zip("xy", at(x, y), strict=True)}

    rows = [(str(k), *at(x, y), f"{z} ± 3 mm", "20 mm") for k, (x, y, z) in enumerate(WAY, 1)]
    shape = ROUND if rounded else {}
    place = {**on_grid(100.0, 200.0), "bearing": f"{(90 - angle_deg) % 360}° ± 0.05°"}
    along = {"type": "gate", "on_run": "W-1", "size": "120 mm", "beside": "0.10 m ± 5 mm"}
    along |= {"side": "right", "along_run": "3.20 m ± 20 mm"}
    return sheet(
        SITE,
        hull(**shape | place | left_out),
        panel(follows_curve="yes" if rounded else None, bottom="50.80 m"),
        fit_out(),
        run(stations=rows, pipe_length="10.80 m"),
        block("valve V-1", **along),
        block("marker M-1", type="marker tape", follows="W-1", above_pipe="0.20 m"),
        *(block(f"landmark {t}", what="post", **on_grid(*p, "5 mm")) for t, p in MARKS.items()),
        block("valve V-2", type="gate", on_run="W-1", size="120 mm"),
        *(
            block("position tied V-2", landmark=t, distance=f"{math.dist(p, TIED):.6f} m ± 5 mm")
            for t, p in MARKS.items()
        ),
    )


def close(one, other):
    return one == other or (None not in (one, other) and math.isclose(one, other, abs_tol=5e-4))


def lengths(spot):
    tapes = spot.tapes
    pulled = (tapes.first, tapes.second, tapes.check) if tapes else ()
    return [
        spot.position_tolerance_m,
        spot.within_m,
        *(tape.length_m if tape else None for tape in pulled),
        *([math.radians(tapes.angle_deg), tapes.meets_within_m] if tapes else []),
        *([spot.depth.depth_m] if spot.depth else []),
    ]


@pytest.mark.parametrize("rounded", [False, True], ids=["box", "round"])
@few
@given(
    angle_deg=st.integers(-180, 180),
    shift=st.tuples(st.integers(-500, 500), st.integers(-500, 500)),
)
def test_a_site_moved_as_a_whole_has_the_same_panels_tapes_and_profile(rounded, angle_deg, shift):
    still, moved = view_of(site(rounded)), view_of(site(rounded, angle_deg, shift))
    one, two = behind(still, "P-1").items, behind(moved, "P-1").items
    assert [(i.tag, i.words) for i in one] == [(i.tag, i.words) for i in two]
    assert {"FO-1", "W-1", "V-1", "M-1"} <= {i.tag for i in one}
    for a, b in zip(one, two, strict=True):
        for span, other in zip(spans(a), spans(b), strict=True):
            assert close(span.from_m, other.from_m) and close(span.to_m, other.to_m), (a, b)
    for tag in ("W-1", "V-1", "V-2", "FO-1"):
        for a, b in zip(find(still, tag).spots, find(moved, tag).spots, strict=True):
            for length, other in zip(lengths(a), lengths(b), strict=True):
                assert close(length, other), (tag, length, other)
    placed = [stations(v.built.things["W-1"], v.hulls) for v in (still, moved)]
    for a, b in zip(*placed, strict=True):
        assert close(a.chainage_m, b.chainage_m)
        assert (a.invert_m, a.centre_m, a.crown_m) == (b.invert_m, b.centre_m, b.crown_m)


UNKNOWN = ("x", "y", "floor_level", "bearing", "inside_diameter", "inside_length", "shape")
UNKNOWN += ("floor_above_bottom", "steel_thickness")


@pytest.mark.parametrize("name", UNKNOWN)
@pytest.mark.parametrize("rounded", [False, True], ids=["box", "round"])
def test_a_measure_of_a_hull_not_recorded_never_takes_anything_from_behind_a_panel(rounded, name):
    whole = behind(view_of(site(rounded)), "P-1")
    less = behind(view_of(site(rounded, **{name: "not recorded"})), "P-1")
    assert whole.items
    loose, here = {each.tag for each in less.anywhere}, {item.tag: item for item in less.items}
    for item in whole.items:
        if less.not_measured or item.tag in loose:
            continue
        assert all(map(contains, spans(here[item.tag]), spans(item)))


def test_what_was_measured_is_what_was_moved():
    """The property above would say nothing if the sheet did not change."""
    plain, turned_ = site(False), site(False, 90, (10, 0))
    assert re.findall(r"- x: (\S+)", plain) != re.findall(r"- x: (\S+)", turned_)
