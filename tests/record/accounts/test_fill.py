"""The fill by side and lift, and the hull's shape through it."""

from __future__ import annotations

import pytest

from record.accounts.fill import form, lifts, shapes, words
from tests.record.building import day, view_of

SITE = """## hull A

- inside length: 9.00 m
- inside width: 2.70 m
- inside height: 2.50 m
- steel thickness: 6 mm
- x: 20.00 m
- y: 10.00 m
- floor level: 46.20 m
- bearing: 270°
- how: tape

## covering FILL

- hides: A
"""


def filled(*rows):
    table = "| lift | side | material | to level |\n|---|---|---|---|\n" + "\n".join(rows)
    return day("2031-05-20", "ld", SITE, f"## backfilled FILL\n\n{table}\n")


def measured(stage, height, limit="25 mm", on="2031-05-20", at="08:00"):
    return day(
        on,
        "ck",
        f"## shape measured A\n\n- at: {at}\n- what: inside height, middle\n- stage: {stage}\n"
        f"- measured: {height}\n- limit: {limit}\n- limit from: engineer\n",
    )


BUILT = day("2031-05-10", "ld", SITE)


def test_sides_kept_level_and_sides_that_were_not():
    """By hand: 47.90 − 47.90 = 0; then the west 0.30 m above the east."""
    view = view_of(
        filled(
            "| 1 | west of A | sand | 47.90 m |",
            "| 1 | east of A | sand | 47.90 m |",
            "| 2 | West of A | sand | 48.20 m |",
        )
    )
    first, second, third = lifts(view)
    assert first.words.endswith("the other side is not recorded")
    assert second.words.endswith("level with the other side")
    assert third.words.endswith('0.300 m (11 13/16") above the other side')
    assert str(third.difference_m) == "0.3"


def test_a_level_nobody_wrote_is_no_level():
    view = view_of(filled("| 1 | left | sand | not recorded |", "| 1 | right | sand | 47.90 m |"))
    assert [one.difference_m for one in lifts(view)] == [None, None]
    assert "to a level not recorded" in lifts(view)[0].words


def test_both_sides_in_one_row():
    view = view_of(filled("| 6 | both | gravel | 48.30 m |", "| 7 | left | gravel | 48.50 m |"))
    both, left = lifts(view)
    assert both.words.endswith("both sides alike, as written")
    assert left.words.endswith('0.200 m (7 7/8") above the other side')


@pytest.mark.parametrize(
    ("height", "limit", "says"),
    [
        (
            "2.488 m",
            "25 mm",
            '0.012 m (1/2") less than before; within the 0.025 m (1") of engineer',
        ),
        ("2.475 m", "25 mm", '0.025 m (1") less than before; within the 0.025 m (1") of engineer'),
        ("2.474 m", "25 mm", '0.026 m (1") less than before; BEYOND the 0.025 m (1") of engineer'),
        ("2.500 m", "25 mm", 'as before; within the 0.025 m (1") of engineer'),
        ("2.400 m", "not recorded", '0.100 m (3 15/16") less than before; no limit recorded'),
    ],
)
def test_the_ceiling_came_down_a_little(height, limit, says):
    """The demo's by hand: 2.500 − 2.488 = 12 mm, where the engineer allows 25."""
    view = view_of(
        BUILT, measured("before", "2.500 m"), measured("finished", height, limit, at="16:00")
    )
    [shape] = shapes(view)
    assert shape.words(shape.readings[1]).endswith(says)


def test_stages_that_were_not_measured_are_named():
    view = view_of(BUILT, measured("before", "2.500 m"), measured("midway", "not recorded"))
    [shape] = shapes(view)
    assert shape.missing == ("at crown", "finished")
    assert shape.words(shape.readings[1]) == "not recorded"
    without = view_of(BUILT, measured("finished", "2.488 m"))
    [late] = shapes(without)
    assert late.change_m(late.readings[0]) is None and "before" in late.missing


def test_words_json_and_readers():
    view = view_of(filled("| 1 | left | sand | 47.90 m |"), measured("before", "2.500 m"))
    lines = list(words(lifts(view), shapes(view)))
    assert lines[0].startswith("2031-05-20  FILL: lift 1, left: sand")
    assert lines[-1] == "  not measured: midway, at crown, finished"
    told = form(lifts(view), shapes(view))
    assert told["lifts"][0]["level_m"] == "47.9" or told["lifts"][0]["level_m"] == "47.90"
    assert list(words((), ())) == ["No fill and no shape is recorded."]
    stranger = view_of(
        filled("| 1 | left | sand | 47.90 m |"), measured("before", "2.500 m"), reader="responder"
    )
    assert lifts(stranger) == () and len(shapes(stranger)) == 1
