"""
Which form a language takes for a number of things.

The forms are those of the Unicode CLDR chart "Language Plural Rules" (cardinal), with its own
examples: Polish 1 plik, 2 pliki, 5 plików; Russian 1 and 21, 2, 5; Welsh 0 to 3 and 6.
"""

from __future__ import annotations

import pytest

from record.words.plural import form_of, forms


@pytest.mark.parametrize(
    ("code", "number", "form"),
    [
        ("en", 1, "one"),
        ("en", 0, "other"),
        ("en", 21, "other"),
        ("fr", 0, "one"),
        ("pl", 1, "one"),
        ("pl", 2, "few"),
        ("pl", 5, "many"),
        ("pl", 12, "many"),
        ("pl", 22, "few"),
        ("pl", 21, "many"),
        ("ru", 21, "one"),
        ("cy", 0, "zero"),
        ("cy", 2, "two"),
        ("cy", 3, "few"),
        ("cy", 6, "many"),
        ("cy", 4, "other"),
        ("ja", 1, "other"),
        ("pt-BR", 1, "one"),
    ],
)
def test_a_number_of_things_takes_the_form_the_language_has_for_it(code, number, form):
    assert form_of(code, number) == form


def test_a_language_needs_the_forms_that_whole_numbers_take():
    assert forms("en") == ("one", "other")
    assert forms("pl") == ("one", "few", "many", "other")
    assert forms("cy") == ("zero", "one", "two", "few", "many", "other")
    assert forms("ja") == ("other",)


def test_a_form_for_millions_alone_need_not_be_written():
    """CLDR gives French "many" for whole millions only."""
    assert form_of("fr", 1_000_000) == "many"
    assert "many" not in forms("fr")


def test_a_language_that_nobody_knows_counts_as_english_does():
    assert [form_of("qps", number) for number in (0, 1, 2)] == ["other", "one", "other"]
