"""Every answer, of every tag, for every reader: what one may not see is in no byte of it."""

import itertools

import pytest

from record.answers import CannotAnswer, behind, behind_words, json_form
from record.answers.asked_spot import by_grid, by_tag
from record.answers.beneath import beneath
from record.answers.beneath_words import beneath_words
from record.answers.find import find
from record.answers.find_words import find_words
from record.answers.fixings import fixings
from record.answers.fixings_words import fixings_words
from record.answers.history import history, history_form, history_words
from record.answers.landmarks import landmarks, landmarks_words
from record.answers.profile import profile
from record.answers.profile_words import profile_words
from record.answers.rests_on import rests_on
from record.answers.rests_on_words import rests_on_words
from record.answers.show import show, show_form, show_words
from record.answers.stream_words import stream_words
from record.answers.streams import stream
from tests.record.answers.shelter import SITE, block, fit_out, hull, panel, run, sheet
from tests.record.building import day, view_of
from tests.record.place.measuring import landmark

READERS = ("technician", "trade", "responder")
OPEN = sheet(
    SITE, hull(), block("room RM-1", name="room", hull="A"),
    panel(room="RM-1", looked_at="ld, nothing else seen"), panel("right", "P-2", room="RM-1"),
    fit_out(), run("W-1", [("1", 102.5, 201.0, 51.2, "20 mm"), ("2", 102.5, 199.0, 51.1, "20 mm")]),
    block("valve V-1", type="ball", on_run="W-1", x="102.50 m", y="200.50 m", isolates="the tap"),
    *(landmark(tag, x, y) for tag, x, y in (("H1", 90, 190), ("H2", 110, 190), ("H3", 100, 220))),
)  # fmt: skip
TAGS = ("A", "RM-1", "P-1", "P-2", "FO-1", "W-1", "W-1/1", "V-1", "H1", "fern-bank")
HIDDEN = ("S-3", "SH-1", "V-9", "D-9", "zorbel")


def secrets(near="2.30 m", x="101.50 m"):
    """A store behind P-1, a filled shaft, a valve and a drain nobody but the owner knows of."""
    owner = {"readers": "owner"}
    return day("2031-05-20", "ow",
        block("store S-3", hull="A", from_near=near, from_left="0.02 m", bottom="50.80 m",
              along="0.20 m", across="0.05 m", height="0.20 m", lid="zorbel", looks_like="zorbel"),
        block("way out SH-1", hull="A", x=x, y="198.50 m", section_along="0.75 m",
              section_across="0.75 m", fill="zorbel sand", fill_from="52.60 m", fill_to="53.90 m",
              opens="from inside", **owner),
        block("valve V-9", type="ball", on_run="W-1", x="102.50 m", y="200.80 m",
              isolates="zorbel", normal_position="shut", **owner),
        block("drain D-9", serves="W-1", at_station="2", discharges="zorbel pit", x="102.50 m",
              y="199.00 m", **owner),
        block("remark P-1", text="zorbel behind it", **owner),
        block("left as V-9", state="shut, zorbel", **owner),
        block("worked by others P-1", what="zorbel looked at", hull="A", from_near="2.40 m",
              level="51.00 m", **owner),
    )  # fmt: skip


def every_answer(view):
    """Yield (what was asked, words and JSON as one text) of every answer about every tag."""
    asks = {
        "behind": lambda tag: (behind(view, tag), behind_words, json_form),
        "fixings": lambda tag: (fixings(view, tag, depth_m=0.04), fixings_words, json_form),
        "find": lambda tag: (find(view, tag), find_words, json_form),
        "beneath": lambda tag: (beneath(view, tag, (by_tag(view, tag),)), beneath_words, json_form),
        "profile": lambda tag: (profile(view, tag), profile_words, json_form),
        "upstream": lambda tag: (stream(view, tag, "upstream"), stream_words, json_form),
        "downstream": lambda tag: (stream(view, tag, "downstream"), stream_words, json_form),
        "rests-on": lambda tag: (rests_on(view, tag), rests_on_words, json_form),
        "history": lambda tag: (history(view, tag, reach_m=1.0), history_words, history_form),
        "show": lambda tag: (show(view, tag), show_words, show_form),
        "landmarks": lambda tag: (landmarks(view, tag), landmarks_words, json_form),
    }
    for (name, ask), tag in itertools.product(asks.items(), (*TAGS, *HIDDEN[:4])):
        try:
            answer, words, form = ask(tag)
        except CannotAnswer as refused:
            said = str(refused).replace(tag, "")  # the asker wrote the tag
        else:
            said = "\n".join(words(answer)) + str(form(answer))
        yield f"{name} {tag}", said
    for x, y in ((101.5, 198.5), (102.5, 200.0), (104.0, 199.5), (130.0, 130.0)):
        found = beneath(view, "here", (by_grid(x, y),))
        yield f"beneath {x},{y}", "\n".join(beneath_words(found)) + str(json_form(found))


@pytest.mark.parametrize("reader", READERS)
def test_no_answer_has_a_word_of_what_its_reader_may_not_see(reader):
    told = [word for word in HIDDEN if not (reader == "responder" and word == "SH-1")]
    for asked, said in every_answer(view_of(OPEN, secrets(), reader=reader)):
        for word in told:
            assert word not in said, f"{asked} tells {reader} of {word}"


def test_the_owner_is_told_of_all_of_it():
    everything = "".join(said for _, said in every_answer(view_of(OPEN, secrets())))
    assert all(word in everything for word in HIDDEN)


@pytest.mark.parametrize("reader", READERS)
def test_where_a_withheld_thing_lies_changes_no_byte_of_any_answer(reader):
    """The store moved behind the same panel, the shaft moved over the same hull."""
    here = dict(every_answer(view_of(OPEN, secrets(), reader=reader)))
    there = dict(every_answer(view_of(OPEN, secrets("2.60 m", "104.20 m"), reader=reader)))
    assert here.keys() == there.keys()
    for asked in here:
        assert here[asked] == there[asked], asked


@pytest.mark.parametrize("reader", READERS)
def test_what_is_over_or_behind_a_secret_is_reserved_and_what_is_far_off_is_not(reader):
    """The panel and the ground over the hull are reserved, and ground far off is not."""
    with_it = dict(every_answer(view_of(OPEN, secrets(), reader=reader)))
    assert "RESERVED" in with_it["behind P-1"] and "RESERVED" in with_it["fixings P-1"]
    assert "RESERVED" in with_it["beneath 101.5,198.5"]
    assert "RESERVED" not in with_it["beneath 130.0,130.0"]
