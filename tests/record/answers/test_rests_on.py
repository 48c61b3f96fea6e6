"""What rests on a mark, an instrument, a lot, a person. Places and distances by Pythagoras."""

import json

import pytest

from record.answers import NotFound, json_form
from record.answers.rests_on import rests_on
from record.answers.rests_on_words import rests_on_words
from tests.record.answers.shelter import block, hull
from tests.record.building import day, view_of
from tests.record.place.measuring import DAY, book, landmark, mark, pipe, site, ties

MARKS = {"H1": (10.00, 20.00), "H2": (22.00, 20.00), "W1": (30.50, 14.00), "G1": (4.20, 3.60)}
STANDING = [landmark(tag, *at) for tag, at in MARKS.items()]
AIR_IN = pipe("1 foot | 27.00 | 2.00 | staff", "2 bend | 24.00 | 6.00 | staff")
D_1 = pipe("2 outfall | 22.40 | -3.60 | staff", tag="D-1")
SIDED = "landmark | point | distance [m] | side"
#: As the crew taped the bend and the outfall; AIR-IN 1 is not tied to the well.
TAPED = (
    ties("AIR-IN", ("H2", 2, "14.142", "south"), ("W1", 2, "10.308", "south"),
         ("H1", 2, "19.799", "south"), ("H2", 1, "18.682", "south"), ("H1", 1, "24.759", "south"),
         ("G1", 1, "22.856", "east"), columns=SIDED),
    ties("D-1", ("H2", 2, "23.603", "south of the house"), ("W1", 2, "19.374", "south of the well"),
         ("G1", 2, "19.572", "east of the pillar"), columns=SIDED),
)  # fmt: skip
#: The well is demolished; a post K1 at (28.00, 9.00) is tied: from the bend √(4² + 3²) = 5.000.
LOST = (
    day("2033-10-19", "gc", "## landmark W1\n\n- state: demolished\n"),
    day("2033-10-19", "ld", landmark("K1", "28.00", "9.00"),
        ties("AIR-IN", ("K1", 2, "5.000"))),
)  # fmt: skip


def ask(what, *sheets, **asked):
    return rests_on(view_of(site(*STANDING, AIR_IN, D_1), *sheets, **asked), what)


def test_what_rests_on_a_well_that_is_gone_is_the_bend_and_the_outfall():
    """The bend was tied anew and stands on three; the outfall is left with two, and no check."""
    answer = ask("W1", day(DAY, "ld", *TAPED), *LOST)
    still = {each.tag: each.still for each in answer.found}
    assert set(still) == {"AIR-IN/2", "D-1/2"}
    assert still["AIR-IN/2"] == "H2, H1 and K1, which agree"
    assert still["D-1/2"] == "H2 and G1 only, with no check"


def test_before_the_new_tie_the_bend_was_left_with_two():
    answer = ask("W1", day(DAY, "ld", *TAPED), *LOST, as_of="2033-10-18")
    assert {each.tag: each.still for each in answer.found}["AIR-IN/2"] == (
        "H2 and H1 only, with no check"
    )


def test_two_ties_without_a_side_are_told_as_two_places():
    bare = ties("AIR-IN", ("H2", 2, "14.142"), ("W1", 2, "10.308"), ("H1", 2, "19.799"))
    (one,) = ask("W1", day(DAY, "ld", bare)).found
    assert one.still.startswith("H2 and H1 only: two places")


CROWNS = book(
    ("BM1", 1.432, None, None, 28), ("AIR-IN 2 crown", None, 3.526, None, 22),
    ("BM2", None, None, 1.018, 32),
)  # fmt: skip


def levelled(what):
    marks = (mark("BM1", "50.000 m"), mark("BM2", "50.412 m", "levelled"))
    return rests_on(view_of(site(*marks, AIR_IN), day(DAY, "ld", CROWNS)), what)


@pytest.mark.parametrize(
    ("what", "still"), [("BM1", "BM2, which the run came back to"), ("BM2", "BM1, with nothing")]
)
def test_levels_rest_on_the_marks_of_their_run(what, still):
    (one,) = levelled(what).found
    assert one.tag == "AIR-IN/2" and one.what.startswith("level crown 47.904 m")
    assert one.still.startswith(still)


TEST = """\
## tested AIR-IN

- test: pour
- result: passed
- reading: 5 L
- limit: 5 L
- instrument: {}
"""


def test_tests_rest_on_their_instrument_and_another_with_another_still_holds():
    both = day(DAY, "ld", TEST.format("gauge 1"), TEST.format("gauge 12"))
    (one,) = ask("gauge 1", both).found
    assert one.what == "tested: pour, passed"
    assert one.still == "others like it: ld-13"


def test_a_name_within_a_longer_name_is_another():
    assert [each.entries for each in ask("gauge 12", day(DAY, "ld", TEST.format("gauge 12"))).found]
    with pytest.raises(NotFound):
        ask("gauge", day(DAY, "ld", TEST.format("gauges")))


def test_coats_and_deliveries_rest_on_their_lot():
    delivered = block("delivered fern-bank", what="tar", amount="4 blocks", lot="T-1")
    coat = block("coat applied AIR-IN", layer="tar", coat="1", started="10:00", lot="T-1, T-2")
    other = block("coat applied AIR-IN", layer="tar", coat="2", started="12:00", lot="T-2")
    answer = ask("T-1", day(DAY, "ld", delivered, coat, other))
    assert [each.what for each in answer.found] == ["delivered: tar", "coat applied: tar 1"]
    assert answer.known_as == ("lot or batch",)


def test_what_a_person_did_saw_or_wrote_and_who_else_stands_by_it():
    seen = "## valve V-1\n\n- type: gate\n- on run: AIR-IN\n- did: ph\n- saw: ck\n"
    alone = "## remark D-1\n\nStone under it.\n\n"
    answer = ask("ld", day(DAY, "ld", seen, alone))
    by_tag = {each.tag: each for each in answer.found}
    assert by_tag["V-1"].still == "named beside: ck, ph"
    assert by_tag["D-1"].still.startswith("nobody else is named")
    assert {each.tag for each in ask("ph", day(DAY, "ld", seen, alone)).found} == {"V-1"}


def test_everything_measured_in_a_hulls_frame_rests_on_the_hull():
    inside = block("fit-out FO-1", what="sleeve", hull="A", from_near="5.00 m", how="tape")
    (one,) = ask("A", day(DAY, "ld", hull(), inside)).found
    assert (one.tag, one.what) == ("FO-1", "place, measured in its frame")


def test_a_name_the_record_does_not_know_is_refused_with_those_like_it():
    with pytest.raises(NotFound, match="Did you mean W1"):
        ask("W-1")


def test_what_is_withheld_neither_rests_nor_shows():
    secret = TEST.replace("- test", "- readers: owner\n- test").format("gauge 7")
    sheets = [day(DAY, "ld", secret)]
    assert ask("gauge 7", *sheets).found
    with pytest.raises(NotFound):
        ask("gauge 7", *sheets, reader="technician")


def test_it_is_told_in_words_and_in_plain_json():
    answer = ask("W1", day(DAY, "ld", *TAPED))
    words = "\n".join(rests_on_words(answer))
    assert words.startswith("ON W1 (landmark; place tied to it): 2 rest on it.")
    assert "without it: H2 and G1 only" in words
    json.dumps(json_form(answer), allow_nan=False)
