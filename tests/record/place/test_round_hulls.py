"""A round hull: its frame, panels flat and along the curve, and what lies behind them."""

import math
import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from record.answers import behind, behind_words
from record.answers.find import find
from record.answers.find_words import find_words
from record.place import face_frame, shapes, shell_m
from record.place.frames import TURNS
from record.place.unrolled import _balls
from tests.record.answers.shelter import SITE, block, fit_out, hull, panel, run, sheet
from tests.record.building import view_of

R = 1.25
few = settings(max_examples=40, deadline=None)


def tank(**changed):
    """Return hull A, round: 2.50 m across inside, bottom of the shell at 50.00, axis at 51.25."""
    said = {
        "shape": "round",
        "inside_diameter": "2.50 m",
        "inside_width": "n/a, round",
        "inside_height": "n/a, round",
        "floor_above_bottom": "0.50 m",
    }
    return hull(**said | changed)


def board(face="left", **changed):
    """Return a panel 1.20 m along; on the walls its bottom is level with the axis."""
    place = {"left": {"bottom": "51.25 m"}, "right": {"bottom": "51.25 m"}}.get(face, {})
    return panel(face, **place | {"follows_curve": "yes"} | changed)


def seen(*blocks, **changed):
    return view_of(sheet(SITE, tank(**changed), *blocks))


def frame_of(view, tag="P-1"):
    return face_frame(view.built.things[tag], view.hulls["A"])


def said(answer):
    """Return the words of an answer, however its lines were broken."""
    return " ".join(" ".join(behind_words(answer)).split())


def item(view, tag):
    (found,) = [each for each in behind(view, "P-1").items if each.tag == tag]
    return found


def test_a_round_hull_stands_in_the_box_that_just_holds_it():
    """Looking east from (100, 200): across to the right is south, and its axis lies 1.25 m in."""
    found = seen(board()).hulls["A"]
    assert found.round and found.radius_m == R
    assert found.to_site(0.0, R, R) == (100.0, 198.75, 51.25)
    assert found.walking_floor_m == 50.5


def test_a_quarter_of_the_way_round_is_the_top():
    """From level with the axis, ½π × 1.25 = 1.963 m along the curve is straight over the axis."""
    u, v, d = frame_of(seen(board())).to_face((2.0, R, 2 * R))
    assert (u, v, d) == pytest.approx((0.0, math.pi / 2 * R, 0.102))


@pytest.mark.parametrize(
    ("face", "point", "up"),
    [
        # 45° above level: ¼π × 1.25 = 0.982 m along the curve.
        ("left", (2.0, R - R * math.sqrt(0.5), R + R * math.sqrt(0.5)), math.pi / 4 * R),
        ("right", (3.2, R + R * math.sqrt(0.5), R + R * math.sqrt(0.5)), math.pi / 4 * R),
        # From 1.25 off the left, the top, back to the left level with the axis.
        ("ceiling", (2.0, 0.0, R), -math.pi / 2 * R),
    ],
)
def test_up_a_curved_panel_is_measured_along_the_curve(face, point, up):
    view = seen(board(face, **({"from_left": "1.25 m"} if face == "ceiling" else {})))
    u, v, d = frame_of(view).to_face(point)
    assert (u, v, d) == pytest.approx((0.0, up, 0.102))


def test_the_void_behind_a_flat_panel_is_least_at_its_edges():
    """Face 0.30 off the axis, lining 0.012 + 0.090. From 0.75 below the axis to 0.25 above:
    at the bottom √(1.25² − 0.75²) = 1.00, less 0.402 is 0.598; level with the axis 0.848."""
    view = seen(board(follows_curve="no", off_axis="0.30 m", bottom="50.50 m"))
    assert shell_m(frame_of(view)) == pytest.approx((0.70, 0.95))
    words = said(behind(view, "P-1"))
    assert "0.598 m" in words and "0.848 m" in words and "void to the round shell of A" in words
    assert behind(view, "P-1").depth_from == "room face"


def test_depth_behind_a_flat_panel_counts_from_its_face():
    """The box starts at 0.00 from left, the face stands 1.25 − 0.30 = 0.95 from there; to 0.05."""
    view = seen(
        board(follows_curve="no", off_axis="0.30 m", bottom="50.50 m"),
        fit_out(across="0.05 m"),
    )
    assert item(view, "FO-1").depth.from_m == pytest.approx(0.90)
    assert item(view, "FO-1").depth.to_m == pytest.approx(0.95)


def test_the_walking_floor_is_a_flat_panel_above_the_shell():
    """0.50 above the bottom: the axis is 0.75 above it; on the middle line the shell is 0.50 down,
    and 0.75 off the middle √(1.25² − 0.75²) − 0.75 = 0.25 down."""
    view = seen(panel("floor", from_left="0.50 m"))
    assert shell_m(frame_of(view)) == pytest.approx((0.25, 0.50))


def test_a_diameter_not_recorded_places_nothing_and_says_so():
    found = behind(seen(board(), fit_out(), inside_diameter="not recorded"), "P-1")
    assert "A inside diameter" in found.not_measured
    assert not any("width" in each for each in found.not_measured if each.startswith("A "))


def test_not_recorded_whether_it_follows_the_curve_is_both_answers():
    pipe = run(
        stations=[("1", "102.5", "199.9", "51.40", "10 mm"), ("2", "103", "200", "51.6", "10 mm")]
    )
    unsaid = item(seen(board(follows_curve="not recorded"), pipe), "W-1")
    for said in ({"follows_curve": "yes"}, {"follows_curve": "no"}):
        one = item(seen(board(**said), pipe), "W-1")
        for name in ("across_may_reach", "upward_may_reach"):
            wide, narrow = getattr(unsaid, name), getattr(one, name)
            assert wide.from_m <= narrow.from_m + 1e-9 and wide.to_m >= narrow.to_m - 1e-9
    assert not unsaid.certain


def test_what_is_along_the_curve_is_said_to_be():
    found = behind(seen(board(), fit_out(bottom="51.30 m ± 8 mm")), "P-1")
    assert "along the curve, on the inside of the shell" in said(found)
    assert found.along_curve


def test_a_girth_seam_goes_all_the_way_up_a_curved_panel():
    """A weld up the left wall at 2.60 from near, ±50 mm: 0.55 to 0.65 across, in the plate."""
    seam = block(
        "seam S-1",
        joins="not recorded",
        hull="A",
        face="left",
        from_near="2.60 m",
        bottom="50.00 m",
        width="0 m",
        height="3.90 m",
        build__up_reaches="50 mm",
    ).replace("build  up", "build-up")
    view = seen(board(), seam)
    found = item(view, "S-1")
    assert (found.across.from_m, found.across.to_m) == pytest.approx((0.55, 0.65))
    assert (found.depth.from_m, found.depth.to_m) == pytest.approx((0.102, 0.112))
    assert found.upward_may_reach.from_m <= 0 and found.upward_may_reach.to_m >= 1.0


def test_a_zone_on_a_curved_face_is_on_the_whole_panel():
    zone = block(
        "reserved zone Z-1",
        hull="A",
        face="left",
        from_near="2.10 m",
        bottom="51.00 m",
        width="0.20 m",
        height="0.20 m",
    )
    assert behind(seen(board(), zone), "P-1").reserved


def metres(low_mm, high_mm):
    return st.integers(low_mm, high_mm).map(lambda mm: mm / 1000)


# Along, and off the axis at an angle: a little inside the shell to far outside it.
spots = st.tuples(metres(1700, 3500), metres(700, 2100), metres(-600, 2100))


def in_hull(face, spot):
    a, off, angle = spot
    left, up = TURNS[face]
    return (a, R + left * off * math.cos(angle), R + up * off * math.sin(angle))


def pipe(face, ends):
    rows = []
    for key, spot in zip("12", ends, strict=True):
        a, across, h = in_hull(face, spot)
        level = f"{50 + h:.6f} ± 12 mm"
        rows.append((key, f"{100 + a:.6f}", f"{200 - across:.6f}", level, "50 mm"))
    return run(stations=rows, pipe_length=f"{_apart(face, ends):.9f} m")


def _apart(face, ends):
    return math.dist(*(in_hull(face, spot) for spot in ends))


ROUNDS = st.sampled_from([("left", {}), ("right", {}), ("ceiling", {"from_left": "0.60 m"})])
WAYS = [{"follows_curve": "yes"}, {"follows_curve": "not recorded"}, {"follows_curve": "no"}]
WAYS.append({"follows_curve": "no", "off_axis": "0.90 m"})


@pytest.mark.parametrize("way", WAYS, ids=str)
@few
@given(where=ROUNDS, ends=st.tuples(spots, spots), seed=st.integers(0, 10**6))
def test_every_place_a_pipe_may_be_in_within_tolerance_lies_in_may_reach(way, where, ends, seed):
    """Pipe 80 mm in radius; plan √(50² + 10²) = 50.99 mm, level √(12² + 5²) = 13 mm. Points are
    told in the panel's own measures here by the test, not by the frame."""
    face, place = where
    view = seen(board(face, **place | way), pipe(face, ends))
    found = {each.tag: each for each in behind(view, "P-1").items}
    one, other = (in_hull(face, spot) for spot in ends)
    dice = random.Random(seed)
    for _ in range(300):
        t = dice.random()
        off = [dice.gauss(0, 1) for _ in range(3)]
        size = math.hypot(*off) or 1.0
        turn, out = dice.uniform(0, math.tau), 0.05099 * dice.choice((1.0, dice.random()))
        moved = (out * math.cos(turn), out * math.sin(turn), 0.013 * dice.choice((-1, 1)))
        point = [
            a + t * (b - a) + 0.080 * c / size + m
            for a, b, c, m in zip(one, other, off, moved, strict=True)
        ]
        for u, v, d in told(face, place, way, point):
            if 0 <= u <= 1.2 and 0 <= v <= 1.0 and 0 <= d <= 1.0:
                thing = found["W-1"]
                assert (
                    thing.across_may_reach.from_m - 1e-6 <= u <= thing.across_may_reach.to_m + 1e-6
                )
                assert (
                    thing.upward_may_reach.from_m - 1e-6 <= v <= thing.upward_may_reach.to_m + 1e-6
                )
                if way != WAYS[1] and way != WAYS[2]:  # else depths count from elsewhere
                    low, high = thing.depth_may_reach.from_m, thing.depth_may_reach.to_m
                    assert low - 1e-6 <= d <= high + 1e-6


def told(face, place, way, point):
    """Return (u, v, d) of a point as the crew would measure it on the panel, each way it may be."""
    a, across, h = point
    u = 3.2 - a if face == "right" else a - 2.0
    left, up = TURNS[face]
    angle = math.atan2(up * (h - R), left * (across - R))
    start = math.acos((R - 0.60) / R) if face == "ceiling" else 0.0
    ways = []
    if way["follows_curve"] != "no":
        off = math.hypot(across - R, h - R)
        ways.append((u, R * (angle - start), off - R + 0.102))
    if way["follows_curve"] != "yes":
        v = across - 0.60 if face == "ceiling" else h - R
        out = (
            h - R if face == "ceiling" else abs(across - R) * (1 if left * (across - R) > 0 else -1)
        )
        ways.append((u, v, out - 0.90 if "off_axis" in way else out))
    return ways


@few
@given(face=st.sampled_from(["left", "right"]), spot=spots)
def test_a_recorded_outline_on_the_curve_is_little_larger_than_true(face, spot):
    """A pipe along the hull is true in the unrolled panel: its radius over its distance from the
    axis is half the angle it takes up. The balls that hold it are at most 10 mm larger each."""
    a, off, angle = spot
    ends = ((a, off, angle), (a + 0.5, off, angle))
    view = seen(board(face), pipe(face, ends))
    for each in behind(view, "P-1").items:
        wide = 2 * R * math.asin(0.080 / off)
        got = each.upward.to_m - each.upward.from_m
        if each.upward.from_m > 0 and each.upward.to_m < 1.0:
            assert wide - 1e-6 <= got <= wide + 2 * 0.011 * R / math.sqrt(off**2 - 0.09**2)


#: Pipes left, right, over and under the hull, and across its ends.
AROUND = {
    "W-1": ((102.1, 200.1, 51.4), (103.4, 200.2, 52.3)),
    "W-2": ((102.1, 197.3, 51.2), (103.4, 197.4, 52.2)),
    "W-3": ((102.1, 199.1, 52.7), (103.4, 198.4, 52.8)),
    "W-4": ((102.1, 199.1, 49.8), (103.4, 198.4, 49.7)),
    "W-5": ((99.8, 199.8, 50.6), (99.7, 197.2, 51.4)),
    "W-6": ((106.2, 199.8, 50.6), (106.3, 197.2, 51.4)),
}


@pytest.mark.parametrize("face", ["left", "right", "ceiling", "floor", "near", "far"])
@pytest.mark.parametrize("follows", ["yes", "no", "not recorded"])
def test_a_site_moved_as_a_whole_has_the_same_answers(face, follows):
    """Turned a quarter, so that (x, y) becomes (−y, x), and the bearing 90° becomes 0°."""

    def items(bearing, at):
        x, y = at(100.0, 200.0)
        pipes = []
        for tag, ends in AROUND.items():
            rows = []
            for key, (px, py, level) in zip("12", ends, strict=True):
                px, py = at(px, py)
                rows.append((key, f"{px:.3f}", f"{py:.3f}", f"{level} ± 5 mm", "20 mm"))
            pipes.append(run(tag, rows))
        place = {"x": f"{x} m ± 10 mm", "y": f"{y} m ± 10 mm", "bearing": f"{bearing}° ± 0.1°"}
        panels = board(face, follows_curve=follows)
        view = view_of(sheet(SITE, tank(**place), panels, *pipes, fit_out()))
        return [
            [
                round(value, 4)
                for span in (i.across_may_reach, i.upward_may_reach, i.depth_may_reach)
                for value in (span.from_m, span.to_m)
            ]
            for i in behind(view, "P-1").items
        ]

    still, moved = items(90, lambda x, y: (x, y)), items(0, lambda x, y: (-y, x))
    assert still and still == [pytest.approx(each, abs=2e-4) for each in moved]


def test_an_arc_is_held_by_its_box():
    """An opening from level with the axis a quarter round to the top: in the upper left."""
    opening = block(
        "opening O-1",
        hull="A",
        face="left",
        from_near="1.00 m",
        bottom="51.25 m",
        width="0.50 m",
        height=f"{math.pi / 2 * R:.6f} m",
    )
    from record.place import openings

    view = seen(board(), opening)
    (shape,) = openings(view.built, view.hulls)
    assert shape.form.low == pytest.approx((1.0, -0.01, R), abs=1e-5)
    assert shape.form.high == pytest.approx((1.5, R, 2 * R + 0.01), abs=1e-5)


def test_how_high_over_the_floor_says_nothing_where_nobody_measured_the_floor():
    low = fit_out(bottom=None, above_floor="0.20 m")
    (shape,) = [
        s
        for v in [seen(board(), low, floor_above_bottom=None)]
        for s in shapes(v.built, v.hulls)
        if s.thing.tag == "FO-1"
    ]
    assert "level" in shape.missing


def test_a_round_hull_without_its_diameter_is_told_what_to_write():
    from record.posting.sense import sense
    from record.sheets import read_sheet

    text = sheet(SITE, tank(inside_diameter=None))
    faults = list(sense(read_sheet("a.md", text.encode()), view_of(text).built))
    assert [f.problem for f in faults] == ["A is round, and its inside diameter is not said"]
    whole = sheet(SITE, tank(), board(height="3.00 m"))
    assert not list(sense(read_sheet("a.md", whole.encode()), view_of(whole).built))


def test_a_hole_through_a_round_wall_reaches_from_its_nearest_inside_to_its_farthest_outside():
    """A sleeve 0.20 m across, its middle 0.75 over the axis, so from 0.65 to 0.85; plate 10 mm.
    Inside √(1.25² − 0.85²) = 0.9165 off the axis, outside √(1.26² − 0.65²) = 1.0794."""
    hole = block(
        "penetration PEN-1",
        hull="A",
        face="left",
        from_near="2.50 m",
        level="52.00 m",
        size="0.20 m",
        passes="W-1",
    )
    view = seen(board(), hole)
    (shape,) = [s for s in shapes(view.built, view.hulls) if s.thing.tag == "PEN-1"]
    assert shape.form.low[1] == pytest.approx(R - 1.0794, abs=1e-4)
    assert shape.form.high[1] == pytest.approx(R - 0.9165, abs=1e-4)


def test_what_is_withheld_behind_a_curve_is_kept_clear_of():
    """45° up the left wall, just outside the plate: 0.30 m along, 0.98 m up the curve."""
    store = block(
        "store ST-1",
        name="tins",
        hull="A",
        from_near="2.30 m ± 10 mm",
        from_left="0.30 m",
        bottom="52.10 m ± 10 mm",
        along="0.20 m",
        across="0.05 m",
        height="0.05 m",
        looks_like="plain",
    )
    text = sheet(SITE, tank(), board(), store)
    hidden = behind(view_of(text, reader="technician"), "P-1")
    assert hidden.reserved and not hidden.items
    far = text.replace("2.30 m ± 10 mm", "5.00 m ± 10 mm")
    assert not behind(view_of(far, reader="technician"), "P-1").reserved


MEASURES = ["thickness", "packing_thickness", "follows_curve"]


@pytest.mark.parametrize("left_out", [*MEASURES, "shape", "floor_above_bottom"])
@few
@given(where=ROUNDS, ends=st.tuples(spots, spots))
def test_a_measure_not_recorded_takes_nothing_away_on_a_curve(left_out, where, ends):
    face, place = where
    whole = behind(seen(board(face, **place), pipe(face, ends)), "P-1")
    said, hull_said = {left_out: "not recorded"}, {}
    if left_out in ("shape", "floor_above_bottom"):
        said, hull_said = {}, said
    less = behind(seen(board(face, **place | said), pipe(face, ends), **hull_said), "P-1")
    for one in whole.items:
        (wide,) = [each for each in less.items if each.tag == one.tag]
        for name in ("across_may_reach", "upward_may_reach"):
            outer, inner = getattr(wide, name), getattr(one, name)
            assert outer.from_m <= inner.from_m + 1e-6 and outer.to_m >= inner.to_m - 1e-6


@pytest.mark.parametrize("rounded", [True, False])
def test_where_a_wall_is_measured_from_is_told_of_a_round_hull(rounded):
    view = seen(fit_out()) if rounded else view_of(sheet(SITE, hull(), fit_out()))
    words = " ".join(" ".join(find_words(find(view, "FO-1"))).split())
    assert ("left and right are from its widest inside" in words) is rounded


def test_a_pipe_across_the_axis_is_held_between_its_sampled_places():
    """A bar of 0.04 m straight up past the shell's side is covered by balls, each larger by half
    of how far apart they are, so that both its ends lie within them."""
    frame = frame_of(seen(board()))
    balls = list(_balls((2.5, 0.0, 1.24), (2.5, 0.0, 1.28), frame, 1.0))
    for end in (1.24, 1.25, 1.27, 1.28):
        assert any(abs(middle[2] - end) <= half + 1e-9 for middle, half in balls)
    line = run(
        stations=[
            ("1", "102.5", "200.0", "51.24 ± 1 mm", "1 mm"),
            ("2", "102.5", "200.0", "51.28 ± 1 mm", "1 mm"),
        ],
        pipe_length="0.04 m",
    )
    # Seen from the axis its upper end is 0.03 above; the pipe is 80 mm in radius.
    top = R * (math.atan2(0.03, R) + math.asin(0.08 / math.hypot(0.03, R)))
    assert item(seen(board(), line), "W-1").upward.to_m >= top - 1e-6
