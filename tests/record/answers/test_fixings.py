"""Fixings in a panel 1.20 by 1.00 m, 102 mm from its face to the plate; offsets worked by hand."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from record.answers import CannotAnswer, NotFound, json_form
from record.answers.fixings import fixings
from record.answers.fixings_words import fixings_words
from tests.record.answers.shelter import block, fit_out, hull, panel, run, sheet, shelter
from tests.record.building import day

LOOKED = "ld, 2031-05-13, nothing else seen"
BOARD = panel(looked_at=LOOKED)


def ask(*blocks, board=BOARD, depth=0.04, reader="owner", later=(), **asked):
    return fixings(
        shelter(board, *blocks, reader=reader, later=later), "P-1", depth_m=depth, **asked
    )


def told(found):
    return " ".join(" ".join(fixings_words(found)).split())


def corners(found):
    return tuple(
        round(value, 4)
        for value in (
            found.largest.across.from_m, found.largest.upward.from_m,
            found.largest.across.to_m, found.largest.upward.to_m,
        )
    )  # fmt: skip


def in_the_packing(**changed):
    """A box 0.30 to 0.50 across, 0.30 to 0.40 up, behind the board: 12 to 62 mm deep."""
    return fit_out(**{"from_left": "0.04 m", **changed})


def test_a_bare_panel_is_free_but_for_its_edges():
    assert corners(ask()) == (0.05, 0.05, 1.15, 0.95)
    assert corners(ask(margin_m=0.0)) == (0.0, 0.0, 1.2, 1.0)


def test_beside_a_box_the_margin_the_tolerance_and_the_board_count():
    """Box to 0.50 across: + 5 mm its own, 10 mm the board's, 50 mm margin = 0.565 on its right."""
    found = ask(in_the_packing())
    (kept,) = found.keep_out
    assert kept.tag == "FO-1"
    assert kept.across.from_m == pytest.approx(0.30 - 0.065)
    assert kept.across.to_m == pytest.approx(0.565)
    assert kept.upward.from_m == pytest.approx(0.30 - 0.068)
    assert kept.upward.to_m == pytest.approx(0.468)
    # To its right 0.585 × 0.90 = 0.526 is left; above it 1.10 × 0.482 = 0.530, which is more.
    assert corners(found) == (0.05, 0.468, 1.15, 0.95)


def test_a_stated_tolerance_of_the_board_counts_in_place_of_the_usual():
    wide = panel(looked_at=LOOKED, from_near="2.00 m ± 30 mm")
    (kept,) = ask(in_the_packing(), board=wide).keep_out
    assert kept.across.to_m == pytest.approx(0.50 + 0.005 + 0.030 + 0.050)


@pytest.mark.parametrize(
    ("left", "met"),
    [("0.04 m", True), ("0.005 m", True), ("-0.03 m", False)],
)
def test_only_what_may_be_as_shallow_as_the_hole_is_kept_out_of(left, met):
    """102 less 50 of the box less 40, 5, −30: 12, 47, 82 deep, ± 10 by tape; a hole looks to 50."""
    assert bool(ask(in_the_packing(from_left=left, from_near="2.30 m")).keep_out) is met


@pytest.mark.parametrize("depth", [0.0921, 0.102, 0.15])
def test_a_hole_into_or_near_the_shell_is_never_advised(depth):
    """102 mm to the plate, less 10: none deeper than 92 mm."""
    found = ask(depth=depth)
    assert found.largest is None and found.deepest_m == pytest.approx(0.092)
    assert not any(mark.state == "nothing recorded" for mark in found.marks)
    assert "is too deep" in told(found) and "none into the steel, ever" in told(found)
    assert ask(depth=0.0919).largest is not None


def test_a_lining_that_may_be_thinner_keeps_holes_shallower():
    """102 mm, less 2 of the board and 5 of the packing, less 10: 85."""
    board = panel(looked_at=LOOKED, thickness="12 mm ± 2 mm", packing_thickness="90 mm ± 5 mm")
    assert ask(board=board).deepest_m == pytest.approx(0.085)


@pytest.mark.parametrize(
    "change",
    [
        {"looked_at": None},
        {"looked_at": "not recorded"},
        {"looked_at": "no, not seen"},
        {"looked_at": "left half only"},
        {"thickness": None},
        {"packing_thickness": "not recorded"},
        {"bottom": "not recorded"},
        {"width": None},
    ],
)
def test_what_nobody_recorded_makes_it_unknown_and_never_free(change):
    board = panel(**{"looked_at": LOOKED, **change})
    found = ask(board=board)
    assert found.largest is None and found.unknown
    assert all(mark.state in ("unknown", "keep out") for mark in found.marks)
    assert "UNKNOWN" in told(found)


def test_a_thing_without_a_place_makes_it_unknown():
    found = ask(run("P-9", carries="power"))
    assert found.largest is None
    assert any("P-9" in why for why in found.unknown)


def test_a_thing_without_a_depth_is_kept_clear_of():
    """Its place from near and its level are known, and not how far from the wall."""
    found = ask(fit_out(from_left="not recorded"))
    (kept,) = found.keep_out
    assert kept.depth_from_m is None
    assert corners(found) == (0.05, 0.468, 1.15, 0.95)


@pytest.mark.parametrize("name", ["from_near", "from_left", "bottom", "along", "across", "height"])
def test_a_measure_that_is_missing_never_frees_a_mark(name):
    whole = ask(in_the_packing())
    less = ask(in_the_packing(**{name: "not recorded"}))
    free = {(m.across_m, m.upward_m) for m in whole.marks if m.state == "nothing recorded"}
    still = {(m.across_m, m.upward_m) for m in less.marks if m.state == "nothing recorded"}
    assert still <= free


def test_every_mark_says_what_keeps_it_out():
    """Marks from 0.05 every 0.10: of the box with its margin 0.25 to 0.55 across, 0.25 to 0.45."""
    found = ask(in_the_packing())
    out = {
        (round(m.across_m, 2), round(m.upward_m, 2)): m.because
        for m in found.marks
        if m.state == "keep out"
    }
    assert out == {(u, v): ("FO-1",) for u in (0.25, 0.35, 0.45, 0.55) for v in (0.25, 0.35, 0.45)}
    assert len(found.marks) == 12 * 10


def test_room_for_a_thing_is_looked_for():
    assert ask(in_the_packing(), size_m=(0.50, 0.80)).fits is True
    high = ask(in_the_packing(), size_m=(1.00, 0.40))
    assert high.fits is True and corners(high) == (0.05, 0.468, 1.15, 0.95)
    assert ask(in_the_packing(), size_m=(1.00, 0.60)).fits is False
    assert "no place that keeps out" in told(ask(in_the_packing(), size_m=(1.00, 0.60)))


def test_a_pipe_on_a_slant_is_kept_out_of_along_all_its_way():
    """
    From lower left to upper right within the packing; by sampling: every point of the pipe, moved
    by its tolerance any way, is in a zone. In the corners off the slant marks are free.
    """
    pipe = run("C-1", [("1", 102.0, 199.945, 50.60, "5 mm"), ("2", 103.2, 199.945, 51.40, "5 mm")],
               carries="power", outside_diameter="20 mm", pipe_length="1.45 m")  # fmt: skip
    found = ask(pipe)
    assert len(found.keep_out) > 8
    boxes = [(k.across.from_m, k.upward.from_m, k.across.to_m, k.upward.to_m)
             for k in found.keep_out]  # fmt: skip
    for part in np.linspace(0, 1, 201):
        u, v = 1.2 * part, 0.10 + 0.8 * part
        for turn in np.linspace(0, 2 * math.pi, 17):
            pu = u + (0.010 + 0.005) * math.cos(turn)
            pv = v + (0.010 + 0.005) * math.sin(turn)
            assert any(a <= pu <= c and b <= pv <= d for a, b, c, d in boxes)
    free = {(round(m.across_m, 2), round(m.upward_m, 2)) for m in found.marks
            if m.state == "nothing recorded"}  # fmt: skip
    assert {(0.05, 0.95), (1.15, 0.05)} <= free


ZONE = block(
    "reserved zone R-1", hull="A", face="left", from_near="2.00 m", bottom="50.50 m",
    width="0.60 m", height="1.00 m", hazard="ask the owner first",
)  # fmt: skip
STORE = block(
    "store S-3", name="wall box", hull="A", from_near="2.20 m ± 5 mm", from_left="0.04 m",
    bottom="50.80 m ± 5 mm", along="0.20 m", across="0.05 m", height="0.20 m", lid="magnets",
)  # fmt: skip


@pytest.mark.parametrize("reader", ["technician", "trade"])
def test_a_withheld_thing_in_a_zone_is_kept_out_of_as_reserved(reader):
    found = ask(ZONE, STORE, reader=reader)
    assert not found.reserved
    assert {kept.tag for kept in found.keep_out} == {"R-1"}
    assert corners(found)[0] == pytest.approx(0.66)
    for word in ("S-3", "wall box", "magnets", "store"):
        assert word not in told(found) + str(json_form(found))
    assert {kept.tag for kept in ask(ZONE, STORE).keep_out} == {"R-1", "S-3"}


def test_a_withheld_thing_outside_any_zone_reserves_the_whole_panel():
    found = ask(STORE, reader="technician")
    assert found.reserved and found.largest is None and found.keep_out == ()
    assert {mark.state for mark in found.marks} == {"reserved"}
    assert "asking the owner first" in told(found)
    assert "S-3" not in told(found) + str(json_form(found))


def test_where_a_withheld_thing_lies_changes_no_byte():
    elsewhere = STORE.replace("2.20 m", "2.31 m").replace("50.80 m", "50.60 m")
    for zone in ((), (ZONE,)):
        answers = [
            str(json_form(ask(*zone, store, reader="technician"))) for store in (STORE, elsewhere)
        ]
        assert answers[0] == answers[1]


def test_an_answer_never_says_clear():
    for found in (ask(), ask(in_the_packing()), ask(board=panel())):
        words = told(found).casefold()
        assert "none of this says that a place is clear" in words
        assert words.count("clear") == 1 and "safe" not in words


def worked(date, what="ran a cable", extra="", at=""):
    hour = f"- at: {at}\n" if at else ""
    return day(date, "gc", f"## worked by others P-1\n\n{hour}- what: {what}\n{extra}")


@pytest.mark.parametrize(
    ("later", "known"),
    [(worked("2031-06-14"), False), (worked("2031-05-14"), False), (worked("2031-05-13"), True)],
)
def test_work_since_anybody_looked_makes_it_unknown(later, known):
    """He looked on the sheet of 14 May; of one day without hours the work may be the later."""
    found = ask(later=[later])
    assert (found.largest is not None) is known
    assert bool(found.looked_at.worked_since) is not known
    assert ("worked on since anybody looked" in told(found)) is not known


OPPOSITE = panel("right", "P-9")
PLACE = "- hull: A\n- from near: 2.50 m\n- level: 50.90 m\n"


@pytest.mark.parametrize(
    ("about", "extra", "here"),
    [
        ("P-1", PLACE, True),  # its own board
        ("P-9", PLACE, False),  # the board opposite; how far from the left was not written
        ("P-9", PLACE + "- from left: 0.00 m\n", True),  # as far as the measures go, it was here
        ("A", PLACE, True),  # no board named: either wall
    ],
)
def test_work_on_a_board_of_another_face_is_not_told_of_this_one(about, extra, here):
    """2.50 along and 0.40 up of the board: within both, left and right, but for the third."""
    later = worked("2031-06-14", extra=extra).replace("others P-1", f"others {about}")
    found = ask(OPPOSITE, later=[later])
    assert bool(found.looked_at.worked_since) is here


def test_whoever_looked_again_afterwards_knows_what_is_there():
    again = sheet("## panel P-1\n\n- looked at: ck, opened, nothing else seen\n", date="2031-06-20",
                  writer="ck")  # fmt: skip
    assert ask(later=[worked("2031-06-14"), again]).largest is not None


def test_work_that_a_reader_may_not_see_makes_it_unknown_for_them_too():
    hidden = worked("2031-06-14", "drilled for a secret shelf", "- readers: owner\n")
    found = ask(later=[hidden], reader="technician")
    assert found.largest is None
    assert "work on 2031-06-14 that this reader does not see" in told(found)
    assert "secret" not in told(found) + str(json_form(found))


def test_work_that_reopened_it_does_not_make_a_measure():
    later = [sheet(panel(thickness="15 mm", looked_at=None), date="2031-06-01", writer="ck")]
    found = ask(later=later)
    assert found.deepest_m == pytest.approx(0.015 + 0.090 - 0.010)


def test_what_is_no_measure_is_refused():
    for asked in ({"depth": 0.0}, {"margin_m": -1.0}, {"pitch_m": 0.001}, {"size_m": (0.0, 1.0)}):
        with pytest.raises(CannotAnswer):
            ask(**asked)
    with pytest.raises(NotFound):
        fixings(shelter(BOARD), "P-2", depth_m=0.04)


def test_a_round_hull_keeps_holes_out_of_the_void_least_deep():
    """R 1.25, face 1.00 off the axis, from −0.55 to 0.45 of it: √(1.25² − 0.55²) = 1.1225."""
    rounded = hull(
        shape="round", inside_diameter="2.50 m", inside_width="n/a, round",
        inside_height="n/a, round", floor_above_bottom="0.30 m",
    )  # fmt: skip
    flat = panel(looked_at=LOOKED, follows_curve="no", off_axis="1.00 m", bottom="50.70 m")
    view = shelter(flat, later=[sheet(rounded, date="2031-05-15")])
    assert fixings(view, "P-1", depth_m=0.04).deepest_m == pytest.approx(0.1225 - 0.010, abs=1e-3)


spots = some.tuples(some.floats(-0.2, 1.2), some.floats(-0.2, 1.0), some.floats(0.0, 0.3))


@given(
    boxes=some.lists(
        some.tuples(spots, some.tuples(*[some.floats(0.02, 0.3)] * 3), some.floats(0.03, 0.25)),
        min_size=1,
        max_size=4,
    ),
    depth=some.floats(0.01, 0.09),
    moves=some.lists(
        some.tuples(*[some.sampled_from((-1.0, 1.0, 0.2))] * 3), min_size=4, max_size=4
    ),
)
@settings(max_examples=120, deadline=None)
def test_wherever_things_truly_are_no_hole_in_the_rectangle_comes_within_the_margin(
    boxes, depth, moves
):
    """
    Boxes behind the panel, each moved from where it is recorded by less than its tolerance, then
    held against the rectangle by their corners: apart by the margin in plan, or deeper than a hole.
    """
    blocks = [
        fit_out(
            f"FO-{n}",
            from_near=f"{2 + u:.6f} m ± {tol:.6f} m",
            from_left=f"{0.102 - d - deep:.6f} m",
            bottom=f"{50.5 + v:.6f} m ± {tol:.6f} m",
            along=f"{wide:.6f} m",
            across=f"{deep:.6f} m",
            height=f"{high:.6f} m",
        )
        for n, ((u, v, d), (wide, high, deep), tol) in enumerate(boxes, 1)
    ]
    found = ask(*blocks, depth=depth)
    if found.largest is None:
        return
    u0, v0, u1, v1 = (
        found.largest.across.from_m, found.largest.upward.from_m,
        found.largest.across.to_m, found.largest.upward.to_m,
    )  # fmt: skip
    for ((u, v, d), (wide, high, _), tol), (mu, mv, md) in zip(boxes, moves, strict=False):
        u, v, d = u + mu * tol, v + mv * tol, d + md * tol
        beside = max(u - u1, u0 - (u + wide), v - v1, v0 - (v + high))
        assert beside >= found.margin_m - 1e-6 or d >= depth - 1e-6


def test_a_grid_too_fine_for_a_line_is_said_to_be_so():
    """1.10 m of marks, 20 mm apart, are 56 in a row; a line holds 45."""
    words = " ".join(told(ask(pitch_m=0.02)).split())
    assert "MARKS: 56 in a row are more than a line holds. Ask with a wider --grid" in words
    assert "MARKS every 0.100 m" in told(ask())


@pytest.mark.parametrize(
    ("face", "edges", "first"),
    [
        ("left", ("from its left edge (toward near)", "from its bottom edge"), "0.950 m"),
        ("floor", ("from its near edge", "from its edge toward the left wall"), "0.050 m"),
        ("ceiling", ("from its near edge", "from its edge toward the left wall"), "0.950 m"),
    ],
)
def test_marks_are_told_from_the_edges_of_that_face_and_laid_out_as_they_are_seen(
    face, edges, first
):
    """With the near end at the left hand the left wall is farthest up of a floor, looking down,
    and farthest down of a ceiling, looking up."""
    found = ask(board=panel(face, looked_at=LOOKED))
    assert f'the first 0.050 m (1 15/16") {edges[0]}; each row with how far it is {edges[1]}.' in (
        told(found)
    )
    rows = [line.strip() for line in fixings_words(found) if line.strip().endswith(". .")]
    assert rows[0].startswith(first)
