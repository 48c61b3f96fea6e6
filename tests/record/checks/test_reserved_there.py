"""A covering is not told as unhindered where its reader may not see what lies."""

import pytest

from record.checks import ready, ready_words
from record.readers import look
from tests.record.answers.shelter import SITE, block, hull, panel, run, sheet
from tests.record.building import entries_of

RUN = run("W-1", [("1", 149, 203, 49, "10 mm"), ("2", 158, 203, 49.2, "10 mm")])
FILL = block("covering FILL", what="backfill", hides="W-1")
BOARDS = block("covering BRD", what="lining", hides="P-1", panels="P-1")
AWAY = {"along": "0.40 m", "across": "0.09 m", "height": "0.40 m"}
#: The run goes through the squares from x 140 to 160; the hull is at x 100 to 106.
UNDER = block("store S-1", name="box", x="151.00 m", y="205.00 m", bottom="48.00 m", **AWAY)
FAR = block("store S-1", name="box", x="305.00 m", y="205.00 m", bottom="48.00 m", **AWAY)
BEHIND = block(
    "store S-1", name="box", hull="A", from_near="2.40 m", from_left="2.91 m", bottom="50.70 m",
    **AWAY,
)  # fmt: skip
NOWHERE = block("store S-1", name="box", **AWAY)


def view(secret, reader="technician", copy=False, *more):
    told = sheet(SITE, hull(), panel("right", "P-1"), RUN, FILL, BOARDS, *more)
    entries = entries_of(told, sheet(secret, writer="ow", date="2031-05-15"))
    if copy:
        entries = look(entries, reader).built.entries
    return look(entries, reader)


def reserved(seen, covering):
    return [
        one
        for one in ready(seen, covering).findings
        if one.about == covering and "may not see" in one.says
    ]


def test_earth_into_a_square_that_hides_something_is_stopped_for_who_may_not_see_it():
    (found,) = reserved(view(UNDER), "FILL")
    assert found.stops and found.sure == "cannot be told"
    assert found.says == "what this reader may not see may lie in the ground where FILL goes"
    assert "STOPS   FILL: what this reader may not see" in "\n".join(
        ready_words(ready(view(UNDER), "FILL"))
    )


@pytest.mark.parametrize("secret", [FAR, BEHIND])
def test_earth_far_from_all_that_is_hidden_is_not(secret):
    assert reserved(view(secret), "FILL") == []


def test_boards_with_something_hidden_behind_are_stopped_and_others_not():
    (found,) = reserved(view(BEHIND), "BRD")
    assert found.stops and found.says == "what this reader may not see may lie behind P-1"
    assert reserved(view(UNDER), "BRD") == []


@pytest.mark.parametrize("covering", ["FILL", "BRD"])
def test_a_hidden_thing_of_no_place_reserves_it_all(covering):
    assert reserved(view(NOWHERE), covering)


@pytest.mark.parametrize("covering", ["FILL", "BRD"])
def test_a_copy_that_cannot_tell_what_is_reserved_stops_every_covering(covering):
    assert reserved(view(FAR, copy=True), covering)


def test_even_one_that_is_recorded_nowhere():
    only = block("covering C-1", what="backfill", hides="SM-1")
    assert reserved(view(FAR, "technician", True, only), "C-1")
    assert not reserved(view(FAR, "technician", False, only), "C-1")


@pytest.mark.parametrize("secret", [UNDER, BEHIND, NOWHERE])
def test_the_owner_is_told_of_the_thing_itself_and_of_nothing_reserved(secret):
    for covering in ("FILL", "BRD"):
        assert reserved(view(secret, "owner"), covering) == []


def test_what_is_covered_already_is_not_asked_for_again():
    done = block("covered FILL", at="10:00", tags="W-1")
    assert reserved(view(UNDER, "technician", False, done), "FILL") == []


def test_where_in_its_square_it_lies_changes_no_word():
    said = [
        ready_words(ready(view(UNDER.replace("151.00", f"{x:.2f}")), "FILL"))
        for x in (151.0, 153.3, 158.0)
    ]
    assert said[0] == said[1] == said[2]
