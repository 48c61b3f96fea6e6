"""The doubter's page: counts that are worked by hand from a few sheets, of one reader's view."""

from datetime import UTC, datetime

import pytest

from manual.asks.doubt import days_late, doubt
from manual.build import bind
from tests.manual.books import body_of, entries
from tests.record.building import day

CANARY = "quetzalcoatlus"
LOOKS = """
## inspected AU-1

- what: turned by hand
- result: passed

## inspected CV-1

- saw: {saw}
- what: swung
- result: passed
"""
SECRET = day(
    "2031-05-20",
    "ow",
    f"## contents checked S-1\n\n- counted: {CANARY}\n- short: none\n- past its day: none",
)


def of(*sheets, reader="owner"):
    return doubt(bind(entries(sheets=sheets), reader))


def looked(saw="ck"):
    return day("2031-05-17", "ld", LOOKS.format(saw=saw))


def test_what_nobody_else_saw_is_counted_and_one_who_saw_their_own_work_is_nobody_else():
    seen, own = of(looked()), of(looked("ld"))
    assert (seen.happenings, own.happenings) == (2, 2)
    assert own.alone == seen.alone + 1


def test_each_name_is_told_with_what_it_did_saw_and_wrote():
    plain, more = of(), of(looked("gc"))
    assert "gc" not in {one.name for one in plain.witnesses}
    (one,) = [one for one in more.witnesses if one.name == "gc"]
    assert (one.did, one.saw, one.wrote) == (0, 1, 0)


@pytest.mark.parametrize(
    ("stamp", "late"),
    [
        (datetime(2031, 5, 17, 23, 0, tzinfo=UTC), 0),
        # 05:30 in UTC on the 18th is 23:30 on the 17th in Denver (UTC-6 in May)
        (datetime(2031, 5, 18, 5, 30, tzinfo=UTC), 0),
        (datetime(2031, 5, 18, 6, 30, tzinfo=UTC), 1),
        (datetime(2031, 5, 27, 18, 0, tzinfo=UTC), 10),
        (datetime(2031, 5, 1, 18, 0, tzinfo=UTC), 0),
    ],
)
def test_lateness_is_in_whole_days_of_the_place_and_never_less_than_none(stamp, late):
    from msgspec.structs import replace

    one = next(e for e in entries(sheets=(looked(),)) if e.content and e.content.about == "CV-1"
               and e.content.kind == "inspected")  # fmt: skip
    written = stamp.isoformat().replace("+00:00", "Z")
    moved = replace(
        one,
        link=replace(one.link, recorded=written),
        content=replace(one.content, zone="America/Denver"),
    )
    assert days_late(moved, "UTC") == late


def test_names_stand_in_the_order_of_the_alphabet():
    names = [one.name for one in of(looked("gc")).witnesses]
    assert names == sorted(names) and len(names) > 2


def test_every_entry_that_is_told_falls_into_one_row_of_lateness():
    found = of(looked())
    told = sum(one.wrote for one in found.witnesses)
    assert sum(count for _, count in found.late) == told


def test_what_a_reader_may_not_see_is_counted_nowhere_and_is_in_no_byte():
    with_it, without = (of(*sheets, reader="technician") for sheets in ((SECRET,), ()))
    assert with_it == without
    assert of(SECRET).happenings == of().happenings + 1
    body = body_of(entries(sheets=(SECRET,)), "technician")
    assert CANARY not in body
    assert "nothing of them is counted below" in body


def test_a_covering_without_a_release_stands_on_the_page():
    covering = day(
        "2031-05-18",
        "ld",
        "## covering F-1\n\n- what: backfill\n- hides: AIR-IN",
        "## covered F-1\n\n- tags: AIR-IN",
    )
    assert [one.covering for one in of(covering).unreleased] == ["F-1"]
    assert "Coverings that went on with no sound release" in body_of(entries(sheets=(covering,)))


def test_the_page_says_what_it_does_not_prove():
    body = body_of(entries())
    for words in ("That what is not written is not there", "That what was written is true"):
        assert words in body
