"""What holds of every answer about a panel, whatever was built."""

import math
import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from record.answers import behind, behind_words, json_form
from tests.record.answers.shelter import PLACES, block, fit_out, hull, panel, run, sheet, shelter
from tests.record.building import view_of

SITE = "## site fern-bank\n\n- name: Fern Bank\n- datum: bolt\n- grid: peg"
FACES = st.sampled_from(sorted(PLACES))
SLACK_M = 1e-6
few = settings(max_examples=60, deadline=None)

tolerances = st.integers(1, 300)


def metres(low_mm, high_mm):
    return st.integers(low_mm, high_mm).map(lambda mm: mm / 1000)


# On the panel and a little off it, before it and behind it: across, up, deep.
spots = st.tuples(metres(-250, 1450), metres(-250, 1250), metres(-200, 950))


def in_hull(face, spot):
    """Return (a, l, level) of a spot behind the panel of shelter.py: the plate is 0.102 deep, and
    its corner is at a 2.00 or l 0.50 (right wall: a 3.20; near wall: l 1.70), level 50.50."""
    u, v, d = spot
    past = d - 0.102
    return {
        "left": (2.0 + u, -past, 50.5 + v),
        "right": (3.2 - u, 3.0 + past, 50.5 + v),
        "near": (-past, 1.7 - u, 50.5 + v),
        "far": (6.0 + past, 0.5 + u, 50.5 + v),
        "floor": (2.0 + u, 0.5 + v, 50.0 - past),
        "ceiling": (2.0 + u, 0.5 + v, 52.5 + past),
    }[face]


def on_site(face, spot):
    a, across, level = in_hull(face, spot)
    return (100.0 + a, 200.0 - across, level)


def contains(outer, inner):
    return outer.from_m <= inner.from_m + SLACK_M and outer.to_m >= inner.to_m - SLACK_M


def spans(item):
    return (item.across_may_reach, item.upward_may_reach, item.depth_may_reach)


def pipe(ends, tolerance_mm, level_mm, tag="W-1", **changed):
    stations = [
        (key, f"{x:.6f}", f"{y:.6f}", f"{z:.6f} ± {level_mm} mm", f"{tolerance_mm} mm")
        for key, (x, y, z) in zip("12", ends, strict=True)
    ]
    return run(tag, stations, **changed)


@few
@given(face=FACES, ends=st.tuples(spots, spots), less=tolerances, more=tolerances)
def test_a_greater_tolerance_takes_nothing_away_and_narrows_nothing(face, ends, less, more):
    less, more = sorted((less, more))
    ends = [on_site(face, end) for end in ends]
    one = behind(shelter(panel(face), pipe(ends, less, less)), "P-1").items
    other = behind(shelter(panel(face), pipe(ends, more, more)), "P-1").items
    for item in one:
        (wider,) = [each for each in other if each.tag == item.tag]
        assert all(map(contains, spans(wider), spans(item)))


#: Every measure of the record below that somebody could have failed to write down.
MEASURES = {
    "hull": ("x", "y", "floor_level", "bearing", "inside_length", "steel_thickness"),
    "panel": ("width", "height", "thickness", "packing_thickness", "packing", "looked_at", "coats"),
    "fit": ("from_near", "from_left", "bottom", "along", "across", "height", "how", "hull"),
    "valve": ("from_near", "from_left", "level", "size", "hull"),
    "run": ("outside_diameter", "insulation_thickness", "carries"),
    "station": ("x", "y", "level", "tolerance"),
}
CHOICES = [(kind, name) for kind, names in MEASURES.items() for name in names]
NOT_RECORDED = "not recorded"


def measured(left_out, face, ends, box):
    """Return a shelter with everything measured but one measure."""
    kind, name = left_out

    def unless(of):
        return {name: NOT_RECORDED} if of == kind else {}

    near, left, level = in_hull(face, box)
    stations = []
    for key, end in zip("12", ends, strict=True):
        x, y, z = on_site(face, end)
        row = {"x": f"{x:.3f}", "y": f"{y:.3f}", "level": f"{z:.3f} ± 3 mm"}
        row |= {"tolerance": "250 mm" if key == "1" else "20 mm"}
        row |= unless("station") if key == "1" else {}
        stations.append((key, *row.values()))
    valve = {
        "type": "ball",
        "on_run": "W-1",
        "size": "250 mm",
        "hull": "A",
        "from_near": f"{near:.3f} m ± 5 mm",
        "from_left": f"{left:.3f} m ± 5 mm",
        "level": f"centre {level:.3f} m ± 5 mm",
    }
    fit = {
        "from_near": f"{near:.3f} m ± 5 mm",
        "from_left": f"{left:.3f} m ± 5 mm",
        "bottom": f"{level:.3f} m ± 5 mm",
    }
    lagged = {"insulation": "foam shell", "insulation_thickness": "30 mm"}
    return view_of(
        sheet(
            SITE,
            hull(**unless("hull")),
            panel(face, **unless("panel")),
            run(stations=stations, **lagged | unless("run")),
            block("valve V-1", **valve | unless("valve")),
            fit_out(**fit | unless("fit")),
        )
    )


@pytest.mark.parametrize("left_out", CHOICES, ids=" ".join)
@settings(max_examples=25, deadline=None)
@given(face=FACES, ends=st.tuples(spots, spots), box=spots)
def test_a_measure_not_recorded_takes_nothing_away_and_narrows_nothing(left_out, face, ends, box):
    """What was behind the panel is there still, may be anywhere, or nothing can be placed."""
    whole = behind(measured(("", ""), face, ends, box), "P-1")
    less = behind(measured(left_out, face, ends, box), "P-1")
    loose = {each.tag for each in less.anywhere}
    here = {item.tag: item for item in less.items}
    for item in whole.items:
        if less.not_measured or item.tag in loose:
            continue
        across, upward, deep = spans(here[item.tag])
        assert contains(across, item.across_may_reach)
        assert contains(upward, item.upward_may_reach)
        if less.depth_from == whole.depth_from:
            assert contains(deep, item.depth_may_reach)
    assert {h.signal for h in whole.hazards if not h.about} <= {h.signal for h in less.hazards}


def turned(point, angle, shift):
    x, y, z = point
    return (
        x * math.cos(angle) - y * math.sin(angle) + shift[0],
        x * math.sin(angle) + y * math.cos(angle) + shift[1],
        z,
    )


def sited(ends, other, drain, angle_deg, shift, face):
    """Return the shelter and its pipe, the whole site turned counterclockwise and shifted."""
    angle = math.radians(angle_deg)

    def at(x, y):
        x, y, _ = turned((x, y, 0.0), angle, shift)
        return {"x": f"{x:.9f} m ± 10 mm", "y": f"{y:.9f} m ± 10 mm"}

    def bearing(degrees):
        return f"{(degrees - angle_deg) % 360}° ± 0.2°"

    moved = tuple(tuple(float(f"{each:.9f}") for each in turned(end, angle, shift)) for end in ends)
    stations = [
        (key, f"{x:.9f}", f"{y:.9f}", f"{z:.9f} ± 3 mm", "20 mm")
        for key, (x, y, z) in zip("12", moved, strict=True)
    ]
    unlevelled = [(key, x, y, NOT_RECORDED, t) for key, x, y, _, t in stations]
    shaft = {
        "hull": "A",
        "section_along": "0.75 m",
        "section_across": "0.60 m",
        "fill": "sand",
        "fill_from": "50.50 m",
        "fill_to": "53.00 m",
        "opens": NOT_RECORDED,
    }
    post = {"what": "post", "bottom": "50.60 m", "along": "0.1 m", "across": "0.1 m"}
    post |= {"height": "0.5 m"}
    return sheet(
        SITE,
        hull(**at(100.0, 200.0), bearing=bearing(90)),
        hull("B", **at(*other), bearing=bearing(35), inside_length="2 m", inside_width="1.5 m"),
        panel(face),
        run(stations=stations),
        run("W-2", unlevelled),
        block("way out SH-1", **at(*drain), **shaft),
        block("fit-out FO-9", **at(*drain), **post),
    )


@few
@given(
    face=FACES,
    ends=st.tuples(spots, spots),
    other=spots,
    drain=spots,
    angle_deg=st.integers(-180, 180),
    shift=st.tuples(st.integers(-500, 500), st.integers(-500, 500)),
)
def test_a_site_turned_and_moved_as_a_whole_has_the_same_answers(
    face, ends, other, drain, angle_deg, shift
):
    ends = tuple(on_site(face, end) for end in ends)
    other, drain = on_site(face, other)[:2], on_site(face, drain)[:2]
    still = behind(view_of(sited(ends, other, drain, 0, (0, 0), face)), "P-1")
    moved = behind(view_of(sited(ends, other, drain, angle_deg, shift, face)), "P-1")
    one = {(item.tag, item.words): item for item in still.items}
    two = {(item.tag, item.words): item for item in moved.items}
    for key in one.keys() | two.keys():
        if key not in one or key not in two:
            # Only what is within a rounded coordinate of touching may come or go.
            assert _grazes((one.get(key) or two[key]), still.reach_m)
            continue
        for a, b in zip(spans(one[key]), spans(two[key]), strict=True):
            assert math.isclose(a.from_m, b.from_m, abs_tol=1e-5)
            assert math.isclose(a.to_m, b.to_m, abs_tol=1e-5)


def _grazes(item, reach):
    across, upward, deep = spans(item)
    near = (across.to_m, upward.to_m, deep.to_m, across.from_m - 1.2, upward.from_m - 1.0)
    return any(abs(each) < 1e-5 for each in (*near, deep.from_m - reach))


@few
@given(face=FACES, ends=st.tuples(spots, spots), seed=st.integers(0, 10**6))
def test_every_place_a_pipe_may_be_in_within_tolerance_lies_in_may_reach(face, ends, seed):
    """Pipe 80 mm in radius. Position 50 mm and the hull's 10 mm: √(50² + 10²) = 50.99 mm in plan;
    level √(12² + 5²) = 13 mm. A bearing within 0.001° adds under 0.2 mm, left out here."""
    ends = [on_site(face, end) for end in ends]
    view = shelter(panel(face), pipe(ends, 50, 12))
    found = {item.tag: item for item in behind(view, "P-1").items}
    dice = random.Random(seed)
    frame = _frame(view)
    for _ in range(400):
        point = _sample(dice, ends, 0.080, 0.05099, 0.013)
        x, y, z = point
        u, v, d = frame.to_face((x - 100.0, 200.0 - y, z - 50.0))
        if 0 <= u <= 1.2 and 0 <= v <= 1.0 and 0 <= d <= 1.0:
            across, upward, deep = spans(found["W-1"])
            assert across.from_m - SLACK_M <= u <= across.to_m + SLACK_M
            assert upward.from_m - SLACK_M <= v <= upward.to_m + SLACK_M
            assert deep.from_m - SLACK_M <= d <= deep.to_m + SLACK_M


def _frame(view):
    from record.place import face_frame

    return face_frame(view.built.things["P-1"], view.hulls["A"])


def _sample(dice, ends, radius, plan, level):
    """Return a point of a pipe: on its axis, off it by its radius, moved within tolerance."""
    t = dice.random()
    on = [a + t * (b - a) for a, b in zip(*ends, strict=True)]
    off = [dice.gauss(0, 1) for _ in range(3)]
    size = math.hypot(*off) or 1.0
    far = radius * dice.random() ** (1 / 3) if dice.random() < 0.5 else radius
    turn, out = dice.uniform(0, 2 * math.pi), plan * dice.choice((1.0, dice.random()))
    moved = (out * math.cos(turn), out * math.sin(turn), level * dice.choice((-1, 1)))
    return [a + far * b / size + m for a, b, m in zip(on, off, moved, strict=True)]


def hiding(near, level, along, height, name):
    """Return a shelter with a zone on the left panel, and a store only the owner may see."""
    zone = {"from_near": "2.00 m", "bottom": "50.50 m", "width": "1.20 m", "height": "1.00 m"}
    store = {
        "name": name,
        "hull": "A",
        "from_near": f"{near} m ± 10 mm",
        "from_left": "0.00 m",
        "bottom": f"{level} m ± 10 mm",
        "along": f"{along} m",
        "across": "0.09 m",
        "height": f"{height} m",
        "looks_like": "plain",
    }
    return view_of(
        sheet(
            SITE,
            hull(),
            panel(),
            panel(tag="P-2", from_near="3.20 m"),
            block("reserved zone R-1", hull="A", face="left", **zone, hazard="ask the owner"),
            fit_out(),
            block("store S-1", **store),
        ),
        reader="technician",
    )


places = st.tuples(
    st.sampled_from(["2.05", "2.31", "2.70"]),
    st.sampled_from(["50.55", "50.71", "51.00"]),
    st.sampled_from(["0.10", "0.40"]),
    st.sampled_from(["0.05", "0.40"]),
    st.sampled_from(["wall box", "strong box"]),
)


@few
@given(one=places, other=places, reach=st.sampled_from([0.05, 0.5, 1.0, 3.0]))
def test_what_is_withheld_within_a_zone_changes_no_word_of_a_technicians_answer(one, other, reach):
    for tag in ("P-1", "P-2"):
        first = behind(hiding(*one), tag, reach_m=reach)
        second = behind(hiding(*other), tag, reach_m=reach)
        assert behind_words(first) == behind_words(second)
        assert json_form(first) == json_form(second)
    for at in ((0.1, 0.1), (0.6, 0.5)):
        words = [behind_words(behind(hiding(*each), "P-1", at=at)) for each in (one, other)]
        assert words[0] == words[1]
