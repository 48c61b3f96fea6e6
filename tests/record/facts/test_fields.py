"""Numbers without a unit, and entries that are named by number or by time."""

from __future__ import annotations

from decimal import Decimal

import pytest

from record.facts.faults import ValueFault
from record.facts.fields import Clock, OneOf
from record.facts.named import EntryOf, TagsOf
from record.facts.sizes import Number

LOOK = EntryOf(("tested",))


def test_a_loss_coefficient_is_a_number_with_a_tolerance_and_no_unit():
    value = Number().read("~0.35 ± 0.05")
    assert (value.si, value.tol, value.unit, value.estimated) == (  # type: ignore[union-attr]
        Decimal("0.35"),
        Decimal("0.05"),
        "1",
        True,
    )
    assert value.text == "~0.35 ± 0.05"  # type: ignore[union-attr]


@pytest.mark.parametrize("text", ["0.35 m", "about a third", "-0.3", "1e3", ".", "1/3", "0,35"])
def test_what_is_no_plain_number_is_refused(text: str):
    with pytest.raises(ValueFault):
        Number().read(text)


@pytest.mark.parametrize(
    ("said", "read"),
    [("2:10 pm", "14:10"), ("7 AM", "07:00"), ("12:05 a.m.", "00:05"), ("12 pm", "12:00")],
)
def test_a_time_may_be_of_twelve_hours_where_it_says_which_half(said: str, read: str):
    """12 am is midnight and 12 pm noon, as NIST answers (Times of Day FAQs), from memory."""
    assert Clock().read(said) == read


@pytest.mark.parametrize("said", ["2:10", "13 pm", "0:30 am", "4 o'clock", "2:70 pm"])
def test_a_time_that_does_not_say_which_half_is_refused(said: str):
    with pytest.raises(ValueFault, match="is not a time"):
        Clock().read(said)


def test_one_of_a_list_is_known_by_how_it_begins_where_no_other_does():
    words = OneOf(("passed", "failed", "as found", "gate", "gate valve"))
    assert [words.read(said) for said in ("Pass", "fail", "gate")] == ["passed", "failed", "gate"]


@pytest.mark.parametrize("said", ["pas", "ball", "v"])
def test_one_of_a_list_is_not_guessed(said: str):
    """Too short, or the beginning of two."""
    with pytest.raises(ValueFault):
        OneOf(("passed", "ball one", "ball two")).read(said)


def test_a_word_of_the_list_among_others_is_offered():
    with pytest.raises(ValueFault) as caught:
        OneOf(("plug", "strap", "cap")).read("blue rag plug")
    assert caught.value.remedy.endswith('Did you mean "plug"?')


@pytest.mark.parametrize("text", ["A-1, A-2, D", "A-1, A-2 and D", "A-1 & A-2, and D"])
def test_tags_stand_between_commas_or_as_people_list_them(text: str):
    assert TagsOf().read(text) == ("A-1", "A-2", "D")


def test_what_is_no_tag_among_others_is_pointed_at_after_an_and_too():
    with pytest.raises(ValueFault) as caught:
        TagsOf().read("A-1 and the pump")
    assert (caught.value.start, caught.value.end) == (8, 16)


@pytest.mark.parametrize("text", ["ld-88", "ld-88, ck-4", "07:10", "ld-88/a3f2"])
def test_an_entry_is_named_by_its_number_or_by_its_time(text: str):
    assert LOOK.read(text) == text
    assert LOOK.named(text) == tuple(text.split(", "))


@pytest.mark.parametrize(
    "text", ["the pinhole of 07:10", "LD-88", "ld-0", "88", "25:10", "ld-88 ck"]
)
def test_words_do_not_name_an_entry_on_a_form(text: str):
    with pytest.raises(ValueFault, match="no entry number"):
        LOOK.read(text)


def test_where_words_have_always_stood_they_still_may():
    either = EntryOf(("tested",), words=True)
    assert either.read("the pinhole of 07:10") == "the pinhole of 07:10"
    assert either.named("the pinhole of 07:10") == ()
    assert either.named("ld-88") == ("ld-88",)
