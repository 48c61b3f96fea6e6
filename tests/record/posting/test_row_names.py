"""A row that names itself as the record does says nothing new by that."""

from __future__ import annotations

from record.fold import fold
from record.log import Log
from tests.record.records import post_text, sheet

RUN = """## run AIR-IN

- size: 6 in

| station | x [m] | how |
|---|---|---|
| 1 foot | 27.00 | staff |
| 2 bend | 24.00 | staff |
"""
LEVELS = """## run AIR-IN

| station | crown [m] |
|---|---|
| 1 foot | 48.006 |
| 2 elbow | 47.906 |
"""


def bodies(log: Log, text: str) -> list[tuple[str, list[str]]]:
    posted = post_text(log, text).recorded[:-1]
    return [(e.content.about, list(e.content.body)) for e in posted if e.content]


def test_only_what_is_new_in_a_row_is_recorded(log: Log):
    post_text(log, sheet(RUN))
    assert bodies(log, sheet(LEVELS, part="levels")) == [
        ("AIR-IN/1", ["level"]),
        ("AIR-IN/2", ["station", "level"]),
    ]
    part = fold(log.entries()).things["AIR-IN"].part("1")
    assert part is not None and part.words("station") == "1 foot"


def test_such_a_sheet_posted_again_adds_nothing_even_when_the_row_was_renamed_since(log: Log):
    post_text(log, sheet(RUN))
    bodies(log, sheet(LEVELS, part="levels"))
    post_text(log, sheet(LEVELS.replace("1 foot", "1 terminal"), part="later"))
    assert bodies(log, sheet(LEVELS, part="levels")) == []
    assert bodies(log, sheet(RUN)) == []


def test_a_row_that_says_only_its_name_is_recorded(log: Log):
    post_text(log, sheet(RUN))
    only = "## run AIR-IN\n\n| station |\n|---|\n| 1 foot |"
    assert bodies(log, sheet(only, part="b")) == [("AIR-IN/1", ["station"])]
