"""What was struck and what it says now; what was done within reach, by distances worked by hand."""

import pytest

from record.answers.history import history, history_form, history_words
from tests.record.answers.shelter import SITE, block, fit_out, hull, panel, sheet
from tests.record.building import day, view_of
from tests.record.place.measuring import pipe, site

COLUMNS = "x [m] | y [m] | centre [m] | how | position tolerance"


def bar(tag, y, level="48.000 ± 5 mm"):
    rows = (
        f"1 a | 0.00 | {y} | {level} | staff | 20 mm",
        f"2 b | 10.00 | {y} | {level} | staff | 20 mm",
    )
    return pipe(
        *rows, tag=tag, columns=COLUMNS, fields="- pipe length: 10.00 m\n- insulation: none\n"
    )


def valve(tag="V-1", x="5.00 m", y="0.00 m"):
    return block(f"valve {tag}", type="ball", on_run="W-1", x=x, y=y, level="centre 48.000 m")


def served(tag, task="looked at", at="2032-05-01"):
    return day(at, "te", block(f"serviced {tag}", task=task, done=f"{task} {tag}"))


def told(found):
    return "\n".join(history_words(found))


def near(found):
    return [(one.told.entry.content.about, one.why) for one in found.near]


def test_a_mended_field_is_struck_with_what_it_says_now_and_the_rest_stands():
    mend = day("2031-05-15", "ck", "## run W-1\n\n- mends: ld-3\n- because: it was the crown\n\n"
               "| station | centre [m] |\n|---|---|\n| 1 a | 47.900 |\n")  # fmt: skip
    found = history(view_of(site(bar("W-1", "0.00")), mend), "W-1/1")
    lines = [line.strip() for line in history_words(found)]
    assert "~ level: centre 48.000 m ± 5 mm   STRUCK: now centre 47.900 m (ck-1)" in lines
    assert "x: 0.00 m" in lines and "level: centre 47.900 m" in lines
    assert not any(line.startswith("~ station") for line in lines)  # said again, and not mended
    first = history_form(found)["entries"][0]
    assert first["struck"] == [{"field": "level", "by": "ck-1", "now": "centre 47.900 m"}]


def test_what_was_mended_twice_says_what_stands_and_not_what_was_mended_in_between():
    """Two mend it apart, and one entry mends both: of the first, only that one holds now."""

    def mend(writer, of, level, date="2031-05-15"):
        return day(date, writer, f"## run W-1\n\n- mends: {of}\n- because: looked again\n\n"
                   f"| station | centre [m] |\n|---|---|\n| 1 a | {level} |\n")  # fmt: skip

    sheets = (mend("ck", "ld-3", "47.900"), mend("te", "ld-3", "47.800"))
    last = mend("gc", "ck-1, te-1", "47.850", "2031-05-16")
    lines = history_words(history(view_of(site(bar("W-1", "0.00")), *sheets, last), "W-1/1"))
    levels = [line.strip() for line in lines if "level: centre" in line]
    assert levels[0] == ("~ level: centre 48.000 m ± 5 mm   STRUCK: now centre 47.850 m (gc-1)")
    assert [line.partition("STRUCK: ")[2] for line in levels[1:3]] == [
        "now centre 47.850 m (gc-1)"
    ] * 2
    assert levels[3] == "level: centre 47.850 m"


def test_what_was_taken_back_is_struck_whole():
    gone = day("2031-05-15", "ck", "## withdrawn\n\n- mends: ld-2\n- because: another pipe\n")
    view = view_of(site(bar("W-1", "0.00")), gone)
    text = "\n".join(line for line in history_words(history(view, "W-1")) if "pipe length" in line)
    assert "STRUCK: taken back (ck-1)" in text


@pytest.mark.parametrize(
    ("y", "reach", "met"),
    [("0.60", 1.0, True), ("1.00", 1.0, True), ("1.20", 1.0, False), ("1.20", 1.2, True)],
)
def test_what_was_done_to_a_pipe_beside_a_valve_is_told_where_it_is_within_reach(y, reach, met):
    """
    The other pipe's outside is 80 mm nearer than its axis, and it is known to 20 mm: one 1.20 m off
    may be 1.20 − 0.08 − 0.02 = 1.10 m from the valve.
    """
    view = view_of(site(bar("W-1", "0.00"), bar("W-2", y), valve()), served("W-2"))
    found = history(view, "V-1", reach_m=reach)
    assert ("W-2" in [tag for tag, _ in near(found)]) is met
    assert ("serviced W-2" in told(found)) is met


def test_a_pipe_right_below_but_deeper_than_the_reach_is_not_within_it():
    """46.50 + 0.08 + 0.005 is the highest it may be: 1.415 m below 48.000."""
    deep = bar("W-2", "0.00", "46.500 ± 5 mm")
    view = view_of(site(bar("W-1", "0.00"), deep, valve()), served("W-2"))
    assert "W-2" not in [tag for tag, _ in near(history(view, "V-1", reach_m=1.0))]
    assert "W-2" in [tag for tag, _ in near(history(view, "V-1", reach_m=1.5))]


def test_what_has_no_level_is_taken_as_near():
    view = view_of(
        site(bar("W-1", "0.00"), bar("W-2", "0.30", "not recorded"), valve()), served("W-2")
    )
    assert ("W-2", "W-2, 0.20 m off, its level is not recorded") in near(
        history(view, "V-1", reach_m=0.5)
    )


def test_a_station_tells_what_was_done_to_its_whole_run():
    view = view_of(site(bar("W-1", "0.00")), served("W-1"))
    assert [tag for tag, _ in near(history(view, "W-1/1", reach_m=1.0))] == ["W-1"]
    assert history(view, "W-1", reach_m=1.0).near == ()  # told already, as its own


def test_without_a_reach_nothing_more_is_told():
    view = view_of(site(bar("W-1", "0.00"), bar("W-2", "0.60"), valve()), served("W-2"))
    assert history(view, "V-1").near == ()
    assert "WITHIN REACH" not in told(history(view, "V-1"))


def hole(level="51.00 m", at="2032-06-01"):
    return day(at, "gc", block("worked by others", what="hole for a shelf", hull="A",
                               from_near="2.50 m", from_left="0.00 m", level=level))  # fmt: skip


def test_a_panel_tells_work_behind_it_and_on_it_and_a_room_that_of_its_panels():
    """2.50 from near and level 51.00 are on P-1, which spans 2.00 to 3.20 and 50.50 to 51.50."""
    room = block("room RM-1", name="room", hull="A")
    plan = sheet(SITE, hull(), room, panel(room="RM-1"), fit_out())
    view = view_of(plan, served("FO-1"), hole(), hole("53.00 m", "2032-06-02"))
    for tag in ("P-1", "RM-1"):
        found = history(view, tag, reach_m=1.0)
        assert [why for _, why in near(found)] == ["FO-1, behind P-1", "on P-1"]
        assert [one.told.entry.content.on for one in found.near] == ["2032-05-01", "2032-06-01"]


def test_nothing_after_the_day_asked_for_is_told():
    view = view_of(site(bar("W-1", "0.00"), bar("W-2", "0.60"), valve()), served("W-2"),
                   as_of="2032-04-30")  # fmt: skip
    assert history(view, "V-1", reach_m=1.0).near == ()


def test_what_a_reader_may_not_see_is_in_no_byte_of_what_lies_near():
    store = block("store S-3", hull="A", from_near="2.30 m", from_left="0.00 m", bottom="50.80 m",
                  along="0.20 m", across="0.05 m", height="0.10 m", lid="magnets")  # fmt: skip
    filled = day("2032-05-01", "ow", "## remark S-3\n\n- readers: owner\n\nmagnets oiled\n")
    plan = sheet(SITE, hull(), panel(), fit_out(), store)
    everything = [
        told(found) + str(history_form(found))
        for reader in ("owner", "technician", "trade")
        for view in [view_of(plan, filled, hole(), reader=reader)]
        for found in [history(view, "P-1", reach_m=1.0)]
    ]
    assert "S-3" in everything[0]
    for text in everything[1:]:
        assert "S-3" not in text and "magnets" not in text and "hole for a shelf" in text


def test_who_did_it_and_both_times_are_told_of_what_lies_near():
    view = view_of(site(bar("W-1", "0.00"), bar("W-2", "0.60"), valve()), served("W-2"))
    (form,) = [one for one in history_form(history(view, "V-1", reach_m=1.0))["within_reach"]
               if one["about"] == "W-2"]  # fmt: skip
    assert (form["on"], form["recorded"][:10], form["writer"]) == ("2032-05-01", "2032-05-01", "te")
    assert form["why"].startswith("W-2, 0.5")


def test_work_on_the_panel_that_names_it_is_told_once():
    named = hole().replace("## worked by others", "## worked by others P-1")
    found = history(view_of(sheet(SITE, hull(), panel()), named), "P-1", reach_m=1.0)
    assert [one.entry.number for one in found.told][-1] == "gc-1"
    assert found.near == ()
