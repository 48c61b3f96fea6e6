"""Passes for digging outside: which squares are open, and that a reserved one points at nothing.

The site of ``shelter.py``: hull A from (100, 200) to (106, 202), ground at 54.00. W-1 is laid far
off it, along y 230, its crown 0.51 m below the ground.
"""

from __future__ import annotations

import math

import pytest

from record.answers.ground_pass import ground_pass, ground_pass_words, rows
from record.answers.passes import passes
from record.answers.work_pass import NoPass
from record.log import Log
from record.readers import look
from tests.record.answers.shelter import SITE, block, hull, run
from tests.record.building import day, entries_of
from tests.record.records import post_text
from tests.typed import asburied

PIPE = [("1", 120.0, 230.0, 53.40, "20 mm"), ("2", 160.0, 230.0, 53.40, "20 mm")]
LAID = {"outside_diameter": "0.10 m", "inside_diameter": "0.09 m"}


def views(*blocks):
    sheets = [day("2031-05-14", "ld", SITE, hull(ground_level="54.00 m"))]
    sheets += [day("2031-05-15", "ld", *blocks)] if blocks else []
    entries = entries_of(*sheets)
    return look(entries), look(entries, "trade")


def given(*blocks, area=(120.0, 215.0, 20.0, 20.0), depth_m=0.30):
    owner, trade = views(*blocks)
    return ground_pass(owner, trade, area, depth_m=depth_m, until="2031-06-01", for_whom="fencer")


def test_every_square_is_open_or_reserved_and_whole():
    """An area from 120.4 to 123.2 and 215.0 to 216.5 meets squares 120 to 123 and 215 to 216."""
    one = given(area=(120.4, 215.0, 2.8, 1.5))
    assert sorted((*one.open, *one.reserved)) == [
        (x, y) for x in range(120, 124) for y in (215, 216)
    ]
    assert not set(one.open) & set(one.reserved)


@pytest.mark.parametrize(
    "area",
    [(1.0, 2.0, 3e5, 3e5), (1e9, 0.0, 1e12, 1.0), (math.nan, 0.0, 2.0, 2.0),
     (0.0, math.inf, 2.0, 2.0), (0.0, 0.0, 2.0, math.inf), (0.0, 0.0, 2.0, 0.0)],
)  # fmt: skip
def test_an_area_that_is_none_or_too_large_is_refused_before_a_square_is_drawn(area):
    """A pass of 300 by 300 km would be 90,000 million squares."""
    with pytest.raises(NoPass, match="of at most 400 squares"):
        given(area=area)


def test_every_line_of_a_pass_fits_a_page():
    said = list(ground_pass_words(given(run("W-1", PIPE, **LAID))))
    assert max(map(len, said)) <= 100
    assert any(line.startswith("  Ring: ") for line in said)


def test_a_pipe_of_unknown_ground_over_it_reserves_every_square_near_it():
    """No ground is recorded over W-1, so how deep it lies is not known: nothing within 24 in."""
    one = given(run("W-1", PIPE, **LAID), depth_m=0.10)
    assert {(x, y) for x in range(120, 140) for y in (229, 230)} <= set(one.reserved)
    assert any(line.startswith("W-1 lies there, how deep is not recorded") for line in one.noted)


def test_a_hull_and_the_ground_that_bears_on_it_are_reserved_for_everyone():
    """Hull A ends at x 106 or its plate beyond: 3 m on, all squares to x 109 at least."""
    one = given(area=(99.0, 199.0, 15.0, 5.0))
    assert {(x, y) for x in range(99, 109) for y in range(199, 204)} <= set(one.reserved)


STORE = block(
    "store S-9", name="cache", x="123.00 m", y="222.00 m", bottom="53.00 m", along="0.30 m",
    across="0.30 m", height="0.30 m",
)  # fmt: skip


def test_what_is_hidden_reserves_its_whole_module_and_changes_no_other_square():
    """S-9 at (123, 222), its 300 mm assumed: in the square 120 to 130, 220 to 230, all of it."""
    plain, hiding = given(), given(STORE)
    module = {(x, y) for x in range(120, 130) for y in range(220, 230)}
    assert module <= set(hiding.reserved)
    around = {(x, y) for x in range(119, 131) for y in range(219, 231)}
    assert set(hiding.reserved) - around == set(plain.reserved) - around
    assert "S-9" not in str(hiding) and "cache" not in str(hiding) and hiding.noted == ()


def test_some_modules_are_reserved_for_nothing_each_of_them_whole():
    """Twelve modules of 10 m that hide nothing: some are reserved, some not, by squares inside."""
    reserved = set()
    for x in range(200, 240, 10):
        for y in range(300, 330, 10):
            one = given(area=(x + 2.0, y + 2.0, 6.0, 6.0))
            assert not one.open or not one.reserved
            if one.reserved:
                reserved.add((x, y))
    assert 0 < len(reserved) < 12


def test_digging_deeper_never_opens_a_square():
    pipe = run("W-1", [(*p[:3], 52.0, "20 mm") for p in PIPE], **LAID)
    shallow, deep = (given(pipe, depth_m=depth) for depth in (0.2, 1.5))
    assert set(shallow.reserved) <= set(deep.reserved)


def test_something_with_no_place_on_record_lets_no_ground_be_opened():
    with pytest.raises(NoPass, match="W-1 may lie anywhere"):
        given(run("W-1", [("1", "not recorded", "not recorded", 53.4, "20 mm")], **LAID))


def test_no_more_than_four_hundred_squares_and_no_area_of_nothing():
    for area in ((120.0, 215.0, 21.0, 20.0), (120.0, 215.0, 0.0, 5.0)):
        with pytest.raises(NoPass, match="at most 400 squares"):
            given(area=area)


def test_the_words_never_say_that_it_is_clear():
    said = "\n".join(ground_pass_words(given(run("W-1", PIPE, **LAID))))
    assert (
        "Keep out of all of a # square" in said and "Ring:" in said and "locating service" in said
    )
    assert "clear" not in said.casefold() and "safe" not in said.casefold()


def test_squares_are_said_row_by_row():
    assert list(rows(((3, 7), (4, 7), (5, 7), (9, 7), (3, 8)))) == ["y 7: x 3 to 5, 9", "y 8: x 3"]


def test_a_ground_pass_is_recorded_listed_and_broken_like_any_other(tmp_path):
    folder = tmp_path / "fern-bank"
    with Log.make(folder) as log:
        post_text(log, day("2031-05-14", "ld", SITE, hull(ground_level="54.00 m")).replace(
            "- site: fern-bank\n", "- site: fern-bank\n- zone: America/Denver\n"))  # fmt: skip
    clock = {"ASBURIED_NOW": "2031-05-15T12:00:00-06:00"}
    words = ("pass", "--ground", "120,215,5,5", "--depth", "300 mm", "--until", "2031-06-01",
             "--for", "fencer", "--writer", "of", "--tag", "GP-1")  # fmt: skip
    done = asburied("--record", str(folder), *words, **clock)
    assert done.returncode == 0, done.stderr
    with Log.open(folder) as log:
        breach = block("pass broken GP-1", what="dug a metre deep", tags="A")
        post_text(log, day("2031-05-16", "te", breach))
        (one,) = passes(look(log.entries()), today="2031-05-20")
    assert (one.tag, one.state, one.wanting) == ("GP-1", "broken", ("it is not back",))
