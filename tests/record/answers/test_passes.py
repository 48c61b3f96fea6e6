"""Passes for other trades: what is open, what is reserved and why that points at nothing.

The left face of hull A has twelve boards, 0.40 m wide each; 102 mm of lining before the plate.
"""

from __future__ import annotations

import pytest

from record.answers.fixings import fixings
from record.answers.passes import passes, passes_words
from record.answers.work_pass import NoPass, pass_words, ring_of, work_pass
from record.log import Log
from record.readers import look
from tests.record.answers.shelter import SITE, block, fit_out, hull, panel
from tests.record.building import day, entries_of
from tests.record.records import post_text
from tests.typed import asburied

BOARDS = tuple(f"A-L{n}" for n in range(1, 13))
WALL = [panel(tag=tag, from_near=f"{0.1 + 0.45 * n:.2f} m", width="0.40 m")
        for n, tag in enumerate(BOARDS)]  # fmt: skip
STORE = block(
    "store S-9", name="box", hull="A", from_near="2.00 m", from_left="0.00 m", bottom="50.80 m",
    along="0.10 m", across="0.05 m", height="0.10 m",
)  # fmt: skip


def views(*blocks):
    """The owner's and the trade's view of hull A with these blocks."""
    sheets = [day("2031-05-14", "ld", SITE, hull(), *WALL)]
    sheets += [day("2031-05-15", "ld", *blocks)] if blocks else []
    entries = entries_of(*sheets)
    return look(entries), look(entries, "trade")


def given(*blocks, depth_m=0.020):
    owner, trade = views(*blocks)
    return work_pass(owner, trade, "A", "left", depth_m=depth_m, until="2031-06-01", for_whom="el")


def test_every_board_is_open_or_reserved_and_some_are_reserved_for_nothing():
    """Nothing is hidden and nothing lies there: what is reserved is so for no reason."""
    one = given()
    assert set(one.open) | set(one.reserved) == set(BOARDS)
    assert not set(one.open) & set(one.reserved)
    assert one.open and one.reserved and one.noted == ()


def test_what_is_hidden_is_on_reserved_boards_and_changes_no_other():
    """S-9 lies 2.00 to 2.10 m from the near end: behind A-L5, from 1.90 to 2.30 m, with its
    assumed 300 mm behind A-L4 and A-L6 too. Every other board is as it was without it."""
    plain, hiding = given(), given(STORE)
    behind_it = {"A-L4", "A-L5", "A-L6"}
    assert behind_it <= set(hiding.reserved)
    assert set(hiding.reserved) - behind_it == set(plain.reserved) - behind_it
    assert set(hiding.reserved) - set(plain.reserved) <= behind_it
    assert hiding.noted == () and "S-9" not in str(hiding)


def test_asking_again_or_later_gives_the_same_boards():
    """Whoever compares two passes finds nothing in what they do not share."""
    entries = entries_of(
        day("2031-05-14", "ld", SITE, hull(), *WALL),
        day("2031-05-20", "ck", block("remark", text="Rain.")),
    )
    later = work_pass(
        look(entries), look(entries, "trade"), "A", "left", depth_m=0.02, until="2032-01-01",
        for_whom="plumber",
    )  # fmt: skip
    assert later.reserved == given().reserved


def test_whom_to_ring_is_named_once():
    twice = SITE.replace("- builder contact: 555", "- builder contact: the crew's office, 555")
    for site in (SITE, twice):
        view = look(entries_of(day("2031-05-14", "ld", site)))
        assert ring_of(view) == "the crew's office, 555-0142"


def test_which_boards_are_reserved_for_nothing_hangs_on_what_only_the_owner_holds():
    """With another first sheet the key is another; a reader's copy gives no pass at all."""
    other = entries_of(day("2031-05-14", "xy", SITE, hull(), *WALL))
    boards = work_pass(
        look(other), look(other, "trade"), "A", "left", depth_m=0.02, until="2031-06-01",
        for_whom="el",
    ).reserved  # fmt: skip
    assert boards != given().reserved
    _, trade = views()
    with pytest.raises(NoPass, match="owner's own record"):
        work_pass(trade, trade, "A", "left", depth_m=0.02, until="2031-06-01", for_whom="el")


def test_what_the_trade_may_know_is_told_with_the_board_it_is_on():
    """The box is 50 mm deep on the plate, so 52 mm from the room face; A-L6 spans 2.35 to 2.75."""
    one = given(fit_out(from_near="2.40 m"), depth_m=0.060)
    assert "A-L6" in one.reserved
    assert any(line.startswith("A-L6: FO-1 may lie as near as that") for line in one.noted)


def test_what_a_hole_would_end_just_short_of_is_kept_out_of_as_fixings_keeps_out_of_it():
    """The box begins 52 mm from the room face, ± 5 mm: 47. A hole of 38 mm, and 10, reach it."""
    box = fit_out(from_near="2.40 m ± 5 mm")
    near, short = (given(box, depth_m=depth) for depth in (0.038, 0.036))
    assert any(line.startswith("A-L6: FO-1 may lie") for line in near.noted)
    assert short.noted == ()
    _, trade = views(box)
    kept = [fixings(trade, "A-L6", depth_m=depth).keep_out for depth in (0.038, 0.036)]
    assert kept[0] and not kept[1]


def test_an_open_board_that_nobody_looked_behind_is_said_to_be_unknown():
    """Nobody looked behind any of the twelve: each that is open is named with that, in one line."""
    one = given()
    (line,) = one.unknown
    assert line.startswith(f"{', '.join(one.open)}: behind it before it was closed: not looked at")
    said = " ".join(" ".join(pass_words(one)).split())
    assert f"UNKNOWN, {line}" in said
    assert "Open says only that the record reserves nothing there" in said
    assert max(map(len, pass_words(one))) <= 100


def test_an_open_board_that_somebody_looked_behind_is_not_said_to_be_unknown():
    seen = "looked at: ld, 2031-05-13, nothing else seen"
    looked = [board.replace("looked at: not recorded", seen) for board in WALL]
    entries = entries_of(day("2031-05-14", "ld", SITE, hull(), *looked))
    one = work_pass(look(entries), look(entries, "trade"), "A", "left", depth_m=0.02,
                    until="2031-06-01", for_whom="el")  # fmt: skip
    assert one.open and one.unknown == ()


def test_a_thing_with_no_place_on_record_makes_every_open_board_unknown():
    nowhere = block("run W-9", carries="drinking water")
    assert any("W-9" in line and "may be anywhere" in line for line in given(nowhere).unknown)


@pytest.mark.parametrize("depth_m", [0.0, -0.02, float("nan"), float("inf")])
def test_a_hole_that_is_none_gets_no_pass(depth_m):
    with pytest.raises(NoPass, match="deep is none"):
        given(depth_m=depth_m)


def test_holes_that_would_come_near_to_the_steel_are_given_nowhere():
    """12 mm of board and 90 mm of packing: the plate is 102 mm in, and 10 mm stay clear."""
    assert given(depth_m=0.092).open
    assert given(depth_m=0.093).open == ()


def test_a_face_without_boards_and_a_site_without_a_number_get_no_pass():
    owner, trade = views()
    with pytest.raises(NoPass, match="no panel is recorded"):
        work_pass(owner, trade, "A", "far", depth_m=0.02, until="2031-06-01", for_whom="el")
    silent = SITE.replace("- builder contact: 555-0142\n", "")
    entries = entries_of(day("2031-05-14", "ld", silent, hull(), *WALL))
    with pytest.raises(NoPass, match="no number to ring"):
        work_pass(look(entries), look(entries, "trade"), "A", "left", depth_m=0.02,
                  until="2031-06-01", for_whom="el")  # fmt: skip


PASS = block(
    "work pass WP-1", **{"for": "el"}, hull="A", face="left", open="A-L1", reserved="A-L2",
    depth="20 mm", until="2031-06-01", stop_rule="stop", ring="555-0142",
)  # fmt: skip
BACK = block("pass returned WP-1", what="two holes", deepest="18 mm")
PICTURE = "\n\n![wide, rule in view, shows WP-1](a.jpg)"
BREACH = block("pass broken WP-1", at="10:00", what="drilled through the plate", tags="A-L2")
TIGHT = block(
    "tested A", at="09:00", test="air tightness", result="passed", reading="22 m³/h",
    limit="30 m³/h", instrument="door fan",
)  # fmt: skip


def stand(*later, today="2031-05-20"):
    sheets = [day("2031-05-14", "ld", SITE, hull(), *WALL, TIGHT, PASS)]
    sheets += [day(on, "te", *blocks) for on, *blocks in later]
    (one,) = passes(look(entries_of(*sheets)), today=today)
    return one


def test_a_pass_is_open_until_its_last_day_and_has_run_out_after_it():
    assert stand(today="2031-06-01").state == "open"
    late = stand(today="2031-06-02")
    assert (late.state, late.wanting, late.closed) == ("run out", ("it is not back",), False)


def test_a_pass_that_is_back_is_closed_with_its_picture_and_not_before():
    assert stand(("2031-05-16", BACK)).wanting == ("no picture shows WP-1",)
    assert stand(("2031-05-16", BACK + PICTURE)).closed


def test_a_breach_names_the_test_it_voids_until_that_is_passed_again():
    broken = stand(("2031-05-16", BREACH, BACK + PICTURE))
    assert broken.state == "broken" and not broken.closed
    assert [each.partition(" (")[0] for each in broken.voids] == ["A: air tightness"]
    again = stand(("2031-05-16", BREACH, BACK + PICTURE), ("2031-05-17", TIGHT))
    assert again.state == "broken" and again.closed and again.voids == ()
    said = "\n".join(passes_words((broken,)))
    assert "VOID since then: A: air tightness" in said and "BROKEN 2031-05-16 10:00" in said
    long = BREACH.replace("drilled through the plate", "drilled " + "through the plate " * 8)
    said = list(passes_words((stand(("2031-05-16", long)),)))
    assert max(map(len, said)) <= 100 and said[1].startswith("  BROKEN 2031-05-16 10:00")


def test_words_of_a_breach_that_name_no_work_void_as_any_work_would():
    vague = BREACH.replace("drilled through the plate", "went in where it was reserved")
    assert stand(("2031-05-16", vague)).voids


def test_a_visit_stays_open_while_a_valve_it_touched_is_in_no_stated_position():
    valve = block("run W-1", carries="drinking water") + "\n\n" + block(
        "valve BV-1", type="ball", on_run="W-1", normal_position="open")  # fmt: skip
    touched = block("serviced BV-1", task="turned")
    left = block("left as BV-1", at="17:00", state="open")
    one = stand(("2031-05-16", valve, BACK + PICTURE, touched))
    assert one.wanting == ("nobody wrote how BV-1 was left after the work of 2031-05-16",)
    assert stand(("2031-05-16", valve, BACK + PICTURE, touched), ("2031-05-17", left)).closed


def test_a_pass_is_given_recorded_and_listed_by_command(tmp_path):
    folder = tmp_path / "fern-bank"
    with Log.make(folder) as log:
        post_text(log, day("2031-05-14", "ld", SITE, hull(), *WALL).replace(
            "- site: fern-bank\n", "- site: fern-bank\n- zone: America/Denver\n"))  # fmt: skip
    clock = {"ASBURIED_NOW": "2031-05-15T12:00:00-06:00"}
    words = ("pass", "A", "left", "--depth", "20 mm", "--until", "2031-06-01", "--for", "painter")
    done = asburied("--record", str(folder), *words, "--writer", "of", "--tag", "WP-1", **clock)
    assert done.returncode == 0, done.stderr
    assert "Ring: the crew's office, 555-0142" in done.stdout
    done = asburied("--record", str(folder), "passes", **clock)
    assert done.returncode == 0 and done.stdout.startswith("WP-1: open; for painter")
    told = asburied("--record", str(folder), "passes", "--reader", "trade", **clock).stdout
    assert told.splitlines()[-1] == "Further entries may exist that this reader does not see."
    past = asburied(
        "--record", str(folder), *words, **{"ASBURIED_NOW": "2031-06-02T12:00:00-06:00"}
    )
    assert past.returncode == 2 and "2031-06-01 is past, today is 2031-06-02" in past.stderr
    evening = {"ASBURIED_NOW": "2031-06-02T02:00:00+00:00"}  # 20:00 there, of its last day
    done = asburied("--record", str(folder), "passes", **evening)
    assert done.returncode == 0 and done.stdout.startswith("WP-1: open"), "not yet run out there"
    late = {"ASBURIED_NOW": "2031-06-02T12:00:00-06:00"}
    assert asburied("--record", str(folder), "passes", **late).returncode == 1
    assert asburied("--record", str(folder), *words, "--tag", "WP-2").returncode == 2
